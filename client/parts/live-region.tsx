/** The one polite live region of the page: whatever was said last. */
import { useSaid } from '../live/said.ts';

export function LiveRegion() {
  const said = useSaid();
  // A trailing space that comes and goes makes the same words count as new ones.
  return (
    <div className="hidden-words" role="status" aria-live="polite">
      {said.text}
      {said.turn % 2 === 1 ? ' ' : ''}
    </div>
  );
}
