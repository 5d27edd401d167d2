/** A latched trip: each cause with what still clears it; below it what the gate holds back just now. */
import type { InterlockView } from '../../machines/line/view.types.ts';
import { useLive } from '../live/store.ts';
import { Mark } from '../parts/mark.tsx';
import { tripReasons } from './trip-reasons.ts';

const NONE: InterlockView['held'] = [];
const NO_WORDS: readonly string[] = [];

export function TripCard() {
  const tripped = useLive((live) => live.view?.interlock.tripped ?? false);
  const causes = useLive((live) => live.view?.interlock.tripCauses ?? NO_WORDS);
  const keeps = useLive((live) => live.view?.interlock.resetBecause ?? NO_WORDS);
  const ended = useLive((live) => live.view?.shift.ended ?? false);
  if (!tripped) return null;
  const { reasons, also } = tripReasons(causes, keeps);
  return (
    <div className="trip-card" role="alert">
      <h3>
        <Mark shape="triangle" /> Tripped
      </h3>
      <ul className="trip-causes">
        {reasons.map(({ cause, now, cleared }) => (
          <li key={cause} className={cleared ? 'cleared' : ''}>
            <Mark shape={cleared ? 'check' : 'triangle'} />
            <span>
              <strong>{cause}</strong>
              <span>{now}</span>
            </span>
          </li>
        ))}
      </ul>
      {!ended && also.length > 0 && (
        <>
          <p className="label">Reset waits for</p>
          <ul className="bullets">
            {also.map((why) => (
              <li key={why}>{why}</li>
            ))}
          </ul>
        </>
      )}
      <p>
        {ended
          ? 'The shift ended tripped, and its record says so. There is nothing to reset any more: open the next shift to go on.'
          : keeps.length > 0
            ? 'It stays tripped until every cause is cleared and a person resets it.'
            : 'Every cause is cleared: it can be reset.'}
      </p>
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
