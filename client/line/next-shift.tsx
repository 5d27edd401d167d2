/** After the end of a shift: choose which one comes next, and open it. */
import { useId, useState } from 'react';
import { runLine } from '../live/line.ts';
import { whyNotRun } from '../live/may.ts';
import { useLive } from '../live/store.ts';
import { useCommand } from '../live/use-command.ts';
import { Refusal } from '../parts/refusal.tsx';

export function NextShift() {
  const shifts = useLive((live) => live.shifts);
  const present = useLive((live) => live.view?.shift.id ?? '');
  const asked = useCommand();
  const [chosen, setChosen] = useState<string | null>(null);
  const id = useId();
  const shift = chosen ?? present;
  const name = shifts.find((each) => each.id === shift)?.name ?? 'the next shift';
  const because = whyNotRun(
    useLive((live) => live.me),
    'opening a shift',
  );
  const open = () => {
    if (because.length > 0) asked.explain(because);
    else
      void asked.ask(
        () => runLine(shift === '' ? { do: 'nextShift' } : { do: 'nextShift', shift }),
        `Opened: ${name}.`,
      );
  };
  return (
    <div className="acts-box">
      <Refusal because={asked.refusal} onClose={asked.clear} />
      {shifts.length > 0 && (
        <div className="field">
          <label htmlFor={id}>Next shift</label>
          <select id={id} value={shift} onChange={(event) => setChosen(event.target.value)}>
            {shifts.map((each) => (
              <option key={each.id} value={each.id}>
                {each.id === present ? `${each.name} again` : each.name}
              </option>
            ))}
          </select>
        </div>
      )}
      <div className="acts">
        <button
          type="button"
          className="button act primary"
          data-barred={because.length > 0}
          aria-busy={asked.waiting}
          onClick={open}
        >
          Open the next shift
        </button>
      </div>
    </div>
  );
}
