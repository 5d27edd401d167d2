/** A latched trip: why, what still keeps it, and the reset; below it what the gate holds back just now. */
import type { InterlockView } from '../../machines/line/view.types.ts';
import { whyNot } from '../live/may.ts';
import { useLive } from '../live/store.ts';
import { useCommand } from '../live/use-command.ts';
import { useStandpoint } from '../live/use-standpoint.ts';
import { Mark } from '../parts/mark.tsx';
import { Refusal } from '../parts/refusal.tsx';

const NONE: InterlockView['held'] = [];
const NO_WORDS: readonly string[] = [];

export function TripCard() {
  const tripped = useLive((live) => live.view?.interlock.tripped ?? false);
  const causes = useLive((live) => live.view?.interlock.tripCauses ?? NO_WORDS);
  const keeps = useLive((live) => live.view?.interlock.resetBecause ?? NO_WORDS);
  const at = useStandpoint();
  const asked = useCommand();
  if (!tripped) return null;
  const because = [...whyNot('resetTrip', at), ...keeps];
  return (
    <div className="trip-card" role="alert">
      <h3>
        <Mark shape="triangle" /> Tripped
      </h3>
      <ul className="bullets">
        {causes.map((cause) => (
          <li key={cause}>{cause}</li>
        ))}
      </ul>
      {keeps.length > 0 && (
        <>
          <p className="label">Reset waits for</p>
          <ul className="bullets">
            {keeps.map((why) => (
              <li key={why}>{why}</li>
            ))}
          </ul>
        </>
      )}
      <Refusal because={asked.refusal} onClose={asked.clear} />
      <button
        type="button"
        className="button danger primary wide"
        data-barred={because.length > 0}
        aria-busy={asked.waiting}
        onClick={() =>
          because.length > 0 ? asked.explain(because) : void asked.send({ do: 'resetTrip' }, 'Trip reset.')
        }
      >
        Reset the trip
      </button>
    </div>
  );
}

export function HeldCards() {
  const held = useLive((live) => live.view?.interlock.held ?? NONE);
  const tripped = useLive((live) => live.view?.interlock.tripped ?? false);
  // A trip holds everything; its own card says so.
  if (tripped || held.length === 0) return null;
  return (
    <ul className="held">
      {held.map((one) => (
        <li key={one.element}>
          <strong>{one.element}</strong>
          <span>{one.because}</span>
        </li>
      ))}
    </ul>
  );
}
