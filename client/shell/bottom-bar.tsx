/** The line of caution that is always there, and the emergency stop beside it. */
import { CAUTION } from './caution.ts';
import { EmergencyStop } from './emergency-stop.tsx';

export { CAUTION };

export function BottomBar() {
  return (
    <footer className="bottom">
      <p>{CAUTION}</p>
      <EmergencyStop />
    </footer>
  );
}
