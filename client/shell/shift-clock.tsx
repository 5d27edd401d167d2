/** The clock of the shift and, for a simulated plant, how fast it runs. */
import type { Answer, SPEEDS as PROTOCOL_SPEEDS } from '../../machines/live/protocol.ts';
import { shiftClock } from '../format/format.ts';
import { runLine } from '../live/line.ts';
import { whyNotRun } from '../live/may.ts';
import { useLive } from '../live/store.ts';
import { useCommand } from '../live/use-command.ts';
import { Refusal } from '../parts/refusal.tsx';

// Written out so that the protocol's validation library stays out of the console's bundle.
const SPEEDS = [1, 10, 60] as const satisfies typeof PROTOCOL_SPEEDS;

function Clock() {
  const text = useLive((live) =>
    live.view === null ? '--:--:--' : shiftClock(live.view.shift.startsAt, live.view.shift.atMs),
  );
  return <span className="clock num">{text}</span>;
}

export function ShiftClock() {
  const name = useLive((live) => live.view?.shift.name ?? 'Shift');
  const ended = useLive((live) => live.view?.shift.ended ?? false);
  const simulated = useLive((live) => live.run?.simulated ?? false);
  const speed = useLive((live) => live.run?.speed ?? 1);
  const paused = useLive((live) => live.run?.paused ?? false);
  const me = useLive((live) => live.me);
  const asked = useCommand();
  const because = whyNotRun(me, 'changing how fast the plant runs');
  const run = (asking: () => Promise<Answer>) => {
    if (because.length > 0) asked.explain(because);
    else void asked.ask(asking);
  };
  return (
    <div className="pop-anchor shift-clock-box">
      <fieldset className="shift-clock" aria-label={`Shift clock, ${name}`}>
        <div className="shift-words">
          <Clock />
          <span className="shift-name">{ended ? 'shift ended' : simulated ? 'simulated' : name}</span>
        </div>
        {simulated && (
          <fieldset className="speeds" aria-label="Speed of the simulated plant">
            <button
              type="button"
              className="speed"
              aria-pressed={paused}
              aria-label="Pause"
              title="Pause"
              data-barred={because.length > 0}
              onClick={() => run(() => runLine({ do: paused ? 'resume' : 'pause' }))}
            >
              <svg viewBox="0 0 14 14" className="mark" aria-hidden="true">
                <path d="M2.5 1h3v12h-3zM8.5 1h3v12h-3z" fill="currentColor" />
              </svg>
            </button>
            {SPEEDS.map((each) => (
              <button
                key={each}
                type="button"
                className="speed num"
                aria-pressed={!paused && speed === each}
                aria-label={`${each}× speed`}
                data-barred={because.length > 0}
                onClick={() =>
                  run(async () => {
                    const answer = await runLine({ do: 'speed', speed: each });
                    return answer.ok && paused ? runLine({ do: 'resume' }) : answer;
                  })
                }
              >
                {each}×
              </button>
            ))}
          </fieldset>
        )}
      </fieldset>
      <div className="pop">
        <Refusal because={asked.refusal} onClose={asked.clear} />
      </div>
    </div>
  );
}
