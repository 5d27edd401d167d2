/** The sentence beside the heading of the Yard page: each tab asks its own book what matters now. */
import type { ReactNode } from 'react';
import type { BookName } from '../../machines/record/book.types.ts';
import { type BookHere, useLedger } from '../live/ledger.ts';
import { baysNow, loadsNow, materialsNow, mixesNow, patchesNow, scheduleNow, traceNow } from './now-words.ts';
import type { YardPath } from './tabs.ts';

function Says<B extends BookName>({
  book,
  words,
}: {
  readonly book: B;
  readonly words: (view: NonNullable<BookHere<B>['view']>) => string;
}) {
  const { view } = useLedger(book);
  return <p className="soft yard-now">{view === null ? '\u00a0' : words(view)}</p>;
}

/** Keyed by the tab's path, so that each keeps its own book. */
export const NOW = {
  '/yard/patches': () => <Says book="patches" words={patchesNow} />,
  '/yard/mixes': () => <Says book="mixes" words={mixesNow} />,
  '/yard/schedule': () => <Says book="patches" words={scheduleNow} />,
  '/yard/materials': () => <Says book="stock" words={materialsNow} />,
  '/yard/bays': () => <Says book="stock" words={baysNow} />,
  '/yard/loads': () => <Says book="stock" words={loadsNow} />,
  '/yard/trace': () => <Says book="recalls" words={traceNow} />,
} as const satisfies { readonly [P in YardPath]: () => ReactNode };
