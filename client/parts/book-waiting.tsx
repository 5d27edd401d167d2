/** What stands in the place of a book of lab or yard that has not answered yet, or cannot be had. */
import { plainDays } from '../format/format.ts';
import { Mark } from './mark.tsx';

export function BookWaiting({
  what,
  error,
  onAgain,
}: {
  /** The book as people call it: "the lab’s book". */
  readonly what: string;
  readonly error: readonly string[] | null;
  readonly onAgain: () => void;
}) {
  if (error === null)
    return (
      <p className="card empty" role="status">
        Opening {what}…
      </p>
    );
  return (
    <section className="card stack book-failed" role="alert">
      <h2 className="row">
        <Mark shape="triangle" />
        {what.charAt(0).toUpperCase() + what.slice(1)} cannot be read just now
      </h2>
      {error.map((reason) => (
        <p key={reason}>{plainDays(reason)}</p>
      ))}
      <button type="button" className="button primary" onClick={onAgain}>
        Try again
      </button>
    </section>
  );
}
