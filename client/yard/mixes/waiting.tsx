/** What stands in the place of the mixes while they are fetched, or when they could not be. */
import { Mark } from '../../parts/mark.tsx';

export function BookWaiting({
  error,
  onAgain,
}: {
  readonly error: readonly string[] | null;
  readonly onAgain: () => void;
}) {
  if (error === null)
    return (
      <p className="card soft" role="status">
        Looking up the job mixes…
      </p>
    );
  return (
    <section className="card stack mx-fault">
      <p>
        <Mark shape="triangle" /> {error.join(' ')}
      </p>
      <button type="button" className="button" onClick={onAgain}>
        Try again
      </button>
    </section>
  );
}
