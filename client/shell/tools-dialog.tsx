/** What is seldom needed: tanks, bins, the stand-in operator, faults for training, the end of the shift. */
import { useState } from 'react';
import type { Command, CommandName } from '../../machines/line/commands.ts';
import { mayGive } from '../../machines/people/permissions.ts';
import { whyNot } from '../live/may.ts';
import { useCommand } from '../live/use-command.ts';
import { useStandpoint } from '../live/use-standpoint.ts';
import { Dialog } from '../parts/dialog.tsx';
import { Refusal } from '../parts/refusal.tsx';
import { CloseShiftDialog } from '../shift-close/close-dialog.tsx';
import { FaultTools } from './fault-tools.tsx';
import { BinTools, StandInTool, TankTools } from './plant-tools.tsx';

export type Give = (command: Command, done: string) => void;

export function ToolsDialog({ onClose }: { readonly onClose: () => void }) {
  const at = useStandpoint();
  const asked = useCommand();
  const [ending, setEnding] = useState(false);
  /** Nobody named yet may still look; a role that never may is not shown what is not for it. */
  const isFor = (name: CommandName) => at.me === null || mayGive(at.me.role, name);
  const barred = whyNot('endShift', at);
  const give: Give = (command, done) => {
    const because = whyNot(command.do, at);
    if (because.length > 0) asked.explain(because);
    else void asked.send(command, done);
  };
  return (
    <Dialog title="Plant" onClose={onClose} wide>
      <Refusal because={asked.refusal} onClose={asked.clear} />
      <div className="tools">
        <TankTools give={give} onLeave={onClose} />
        <BinTools give={give} />
        {isFor('standIn') && <StandInTool give={give} />}
        <FaultTools give={give} />
        {isFor('endShift') && (
          <section>
            <h3>End of the shift</h3>
            <p className="soft">
              Hands over to the next shift, closes the open lot, and seals the record of this one.
            </p>
            <button
              type="button"
              className="button danger"
              data-barred={barred.length > 0}
              onClick={() => (barred.length > 0 ? asked.explain(barred) : setEnding(true))}
            >
              End the shift…
            </button>
          </section>
        )}
      </div>
      {ending && <CloseShiftDialog onClose={() => setEnding(false)} />}
    </Dialog>
  );
}
