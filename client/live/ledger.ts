/** What the console knows of the books of lab and yard, and how it asks them something. */
import { useCallback, useEffect } from 'react';
import type { LedgerCommands, LedgerViews } from '../../machines/ledger/views.ts';
import type { Answer } from '../../machines/live/protocol.ts';
import type { BookName } from '../../machines/record/book.types.ts';
import { CONSOLE_ID, newId } from './line.ts';
import { SESSION } from './session.ts';
import { share } from './share.ts';
import { createStore, liveStore, type Store, useSource, useStore } from './store.ts';

const NO_SERVER = 'No connection to the server, so nothing was done. Try again when it is back.';
const NO_ANSWER = 'The server does not answer: see whether the program still runs.';
const WHO = 'Say who you are first (top of the page).';
const IN_A_DRILL = 'A drill has no lab and no yard: open this page on the plant’s own console.';

type Got = {
  readonly seq: number;
  /** The plant's own clock when it was asked; '' before the first answer. */
  readonly at: string;
  readonly view: unknown;
  readonly error: readonly string[] | null;
};
const NOTHING: Got = { seq: 0, at: '', view: null, error: null };

const books: { readonly [B in BookName]: Store<Got> } = {
  lab: createStore(NOTHING),
  patches: createStore(NOTHING),
  mixes: createStore(NOTHING),
  stock: createStore(NOTHING),
  recalls: createStore(NOTHING),
};

const reasonsOf = (value: unknown, status: number): readonly string[] => {
  const because = (value as { because?: unknown } | null)?.because;
  return Array.isArray(because) ? because.map(String) : [`The server answered ${status}.`];
};

/** One request a book at a time; what changes meanwhile is fetched when it is back. */
const busy = new Map<BookName, boolean>();

async function fetchBook(book: BookName): Promise<void> {
  if (busy.has(book)) {
    busy.set(book, true);
    return;
  }
  busy.set(book, false);
  const store = books[book];
  try {
    const response = await fetch(`/api/ledger/${book}`);
    const value: unknown = await response.json();
    if (response.ok) {
      const { seq, at, view } = value as Pick<Got, 'seq' | 'at' | 'view'>;
      store.set({ seq, at, view: share(store.get().view, view), error: null });
    } else store.set({ ...store.get(), error: reasonsOf(value, response.status) });
  } catch {
    store.set({ ...store.get(), error: [NO_ANSWER] });
  }
  const again = busy.get(book) === true;
  busy.delete(book);
  if (again) void fetchBook(book);
}

/** Puts a command to a book as the person of this console; never throws. The id makes a repeat harmless. */
export async function askBook<B extends BookName>(book: B, command: LedgerCommands[B]): Promise<Answer> {
  if (SESSION !== null) return { ok: false, because: [IN_A_DRILL] };
  const { me } = liveStore.get();
  if (me === null) return { ok: false, because: [WHO] };
  const body = JSON.stringify({ id: newId(), by: { person: me.id, console: CONSOLE_ID }, command });
  const send = () =>
    fetch(`/api/ledger/${book}/commands`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body,
    });
  try {
    // The same id is carried out once, so a connection that broke is tried a second time.
    const response = await send().catch(send);
    const value: unknown = await response.json();
    const answer = response.ok
      ? (value as Answer)
      : ({ ok: false, because: reasonsOf(value, response.status) } as const);
    if (answer.ok) await fetchBook(book);
    return answer;
  } catch {
    return { ok: false, because: [NO_SERVER] };
  }
}

export type BookHere<B extends BookName> = {
  /** Null until the first answer. */
  readonly view: LedgerViews[B] | null;
  /** The plant's own clock of the view. */
  readonly at: string;
  readonly seq: number;
  readonly loading: boolean;
  readonly error: readonly string[] | null;
  readonly ask: (command: LedgerCommands[B]) => Promise<Answer>;
  readonly again: () => void;
};

/** A book as it is now; fetched again whenever something was written to any book. */
export function useLedger<B extends BookName>(book: B): BookHere<B> {
  const { barred } = useSource();
  const newest = useStore(liveStore, (live) => live.run?.ledger ?? null);
  const got = useStore(books[book], (value) => value);
  const ready = newest !== null || SESSION !== null;
  // biome-ignore lint/correctness/useExhaustiveDependencies: whatever is newest is fetched
  useEffect(() => {
    if (SESSION === null && ready) void fetchBook(book);
  }, [book, newest, ready]);
  const ask = useCallback(
    (command: LedgerCommands[B]): Promise<Answer> =>
      barred === null ? askBook(book, command) : Promise.resolve({ ok: false, because: [barred] }),
    [book, barred],
  );
  const again = useCallback(() => void fetchBook(book), [book]);
  return {
    view: got.view as LedgerViews[B] | null,
    at: got.at,
    seq: got.seq,
    loading: got.view === null && got.error === null && SESSION === null,
    error: SESSION === null ? got.error : [IN_A_DRILL],
    ask,
    again,
  };
}
