/** Who has the controls: take, ask for, hand over, keep or release them. */
import { useEffect } from 'react';
import { CONSOLE_ID } from '../live/line.ts';
import { holdsControls, whyNot } from '../live/may.ts';
import { liveStore } from '../live/store.ts';
import { useCommand } from '../live/use-command.ts';
import { useStandpoint } from '../live/use-standpoint.ts';
import { Mark } from '../parts/mark.tsx';
import { Refusal } from '../parts/refusal.tsx';
import { toast } from './shortcuts.ts';

const ASKED =
  'Asked. The other console sees it; if it has been away for 15 seconds, you get the controls at once.';

export function Seat() {
  const at = useStandpoint();
  const { seat } = at;
  const asked = useCommand();
  const mine = holdsControls(at);
  // A stand-in gives way to a person at once.
  const free = seat.holder === null || seat.standIn !== null;
  const request = mine && seat.askedBy !== null && seat.askedBy.console !== CONSOLE_ID ? seat.askedBy : null;
  const iAsked = seat.askedBy?.console === CONSOLE_ID;

  const press = (command: 'takeControls' | 'askForControls' | 'releaseControls', done: string) => {
    const because = whyNot(command, at);
    if (because.length > 0) asked.explain(because);
    else
      void asked.send({ do: command }, done).then((accepted) => {
        // Given at once, when the other console had been away: nothing is left to wait for.
        const holder = liveStore.get().view?.seat.holder ?? null;
        if (accepted && done === ASKED && holder?.console !== CONSOLE_ID) toast.set(done);
      });
  };
  // The words of waiting end with the waiting, whichever way it was answered.
  useEffect(() => {
    if ((mine || !iAsked) && toast.get() === ASKED) toast.set('');
  }, [mine, iAsked]);

  return (
    <div className="pop-anchor" data-guide="seat">
      <div className="pill-group">
        <span className="pill-words">
          {seat.standIn !== null
            ? `Stand-in: ${seat.standIn}`
            : mine
              ? 'You have the controls'
              : seat.holder === null
                ? 'Nobody has the controls'
                : `${seat.holder.name} has the controls`}
        </span>
        {mine && (
          <button
            type="button"
            className="button small"
            onClick={() => press('releaseControls', 'You released the controls.')}
          >
            Release
          </button>
        )}
        {!mine && free && (
          <button
            type="button"
            className="button small primary"
            data-barred={whyNot('takeControls', at).length > 0}
            onClick={() => press('takeControls', 'You have the controls.')}
          >
            Take
          </button>
        )}
        {!mine && !free && (
          <button
            type="button"
            className="button small"
            data-barred={whyNot('askForControls', at).length > 0}
            aria-label={iAsked ? 'You asked for the controls; ask again' : 'Ask for the controls'}
            onClick={() => press('askForControls', ASKED)}
          >
            {iAsked ? 'Asked…' : 'Ask'}
          </button>
        )}
      </div>
      <div className="pop">
        {request !== null && (
          <div className="ask-card" role="alert">
            <Mark shape="flag" />
            <p>
              <strong>{request.name}</strong> asks for the controls from another console.
            </p>
            <div className="row">
              <button
                type="button"
                className="button primary"
                onClick={() => void asked.send({ do: 'handOver', to: request.person }, 'Handed over.')}
              >
                Hand over
              </button>
              <button
                type="button"
                className="button"
                onClick={() => void asked.send({ do: 'declineRequest' }, 'You keep the controls.')}
              >
                Keep
              </button>
            </div>
          </div>
        )}
        <Refusal because={asked.refusal} onClose={asked.clear} />
      </div>
    </div>
  );
}
