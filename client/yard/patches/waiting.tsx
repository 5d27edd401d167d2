/** What stands in place of a book that has not answered yet, or cannot. */
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
        Looking up the book of patches…
      </p>
    );
  return (
    <section className="card stack yp-failed">
      <p className="row">
        <Mark shape="triangle" />
        <strong>The book of patches cannot be shown.</strong>
      </p>
      {error.map((reason) => (
        <p key={reason}>{reason}</p>
      ))}
      <button type="button" className="button" onClick={onAgain}>
        Try again
      </button>
    </section>
  );
}
