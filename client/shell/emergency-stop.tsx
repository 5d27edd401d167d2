/** The emergency stop of the simulated plant: one press, always on the screen; letting go asks once more. */
import { useState } from 'react';
import { RUNNING_LINE, SourceContext, useLive, useSource } from '../live/store.ts';
import { useCommand } from '../live/use-command.ts';
import { Refusal } from '../parts/refusal.tsx';

/** Always the stop of the line that runs, also on a page that shows a record. */
export function EmergencyStop() {
  if (!useSource().hasLine) return null;
  return (
    <SourceContext value={RUNNING_LINE}>
      <Stop />
    </SourceContext>
  );
}

function Stop() {
  const pressed = useLive((live) => live.view?.plant.readings.emergencyStop === 1);
  const simulated = useLive((live) => live.run?.simulated ?? true);
  const asked = useCommand();
  const [sure, setSure] = useState(false);
  const whose = simulated ? 'of the simulated plant' : 'in this program only';
  const press = () => {
    setSure(false);
    void asked.send({ do: 'emergencyStop' }, 'Emergency stop pressed.');
  };
  const release = async () => {
    setSure(false);
    await asked.send({ do: 'releaseEmergencyStop' }, 'Emergency stop released.');
  };
  return (
    <div className="estop">
      <Refusal because={asked.refusal} onClose={asked.clear} />
      {!pressed && (
        <button type="button" className="estop-button" aria-busy={asked.waiting} onClick={press}>
          <strong>Emergency stop</strong>
          <span>{whose}</span>
        </button>
      )}
      {pressed && !sure && (
        <button type="button" className="estop-button pressed" onClick={() => setSure(true)}>
          <strong>Stop is pressed</strong>
          <span>press here to release it</span>
        </button>
      )}
      {pressed && sure && (
        <fieldset className="estop-sure" aria-label="Release the emergency stop">
          <span>Danger gone? Nothing restarts by itself.</span>
          <button type="button" className="button" onClick={() => setSure(false)}>
            Keep pressed
          </button>
          <button type="button" className="button primary" onClick={() => void release()}>
            Release the stop
          </button>
        </fieldset>
      )}
    </div>
  );
}
