/** The line of caution that is always there, and the emergency stop beside it. */
import { EmergencyStop } from './emergency-stop.tsx';

export const CAUTION =
  'Simulator, training and record keeping. Not a safety-rated controller. Local codes, the binder supplier’s sheet and licensed practice come first.';

export function BottomBar() {
  return (
    <footer className="bottom">
      <p>{CAUTION}</p>
      <EmergencyStop />
    </footer>
  );
}
