/** What stands in place of the patch lists while they are fetched, or when they cannot be. */
import { BookWaiting as Waiting } from '../../parts/book-waiting.tsx';

export const BookWaiting = (book: {
  readonly error: readonly string[] | null;
  readonly onAgain: () => void;
}) => <Waiting what="the patch lists" {...book} />;
