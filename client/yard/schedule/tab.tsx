/** What to make this week, and in which order. */

import { usePatches } from '../patches/use-patches.ts';
import { BookWaiting } from '../patches/waiting.tsx';
import { Forecast } from './forecast.tsx';
import { Week } from './week.tsx';
import '../patches/patches.css';
import './schedule.css';

export function Tab() {
  const book = usePatches();
  const { view } = book;
  if (view === null) return <BookWaiting error={book.error} onAgain={book.again} />;
  return (
    <div className="stack yp">
      <Forecast forecast={view.forecast} at={view.at} />
      <Week view={view} book={book} />
    </div>
  );
}
