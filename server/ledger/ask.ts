/** Puts a command to a book as it stands in a store: once an id, and nothing it does can hurt the line. */
import { commandName } from '../../machines/ledger/ledger.ts';
import { answerName, entriesFor, type LedgerAsk } from '../../machines/ledger/put.ts';
import type { Answer } from '../../machines/live/protocol.ts';
import { attachmentsOf } from '../../machines/record/attachments.ts';
import type { Entry, EntryContent } from '../../machines/record/entry.ts';
import type { Store } from '../store/store.ts';
import { hasAttachment } from './attachments.ts';

/** Entries to append together, or what to answer without any. */
export type ToAppend = { readonly contents: readonly EntryContent[] } | Answer;

/** `at`: the plant's clock. Whoever drives the store must append what comes before anything is asked again. */
export const askLedger = async (
  store: Store,
  ask: LedgerAsk,
  at: string,
  log: (line: string) => void,
): Promise<ToAppend> => {
  const { id, book, command } = ask;
  const known = await store.answerTo(id);
  if (known !== null)
    return known.command === answerName(book, commandName(command))
      ? known.answer
      : {
          ok: false,
          because: [`This id was used before, for ${known.command}: give every command an id of its own.`],
        };
  const { ledger } = await store.books();
  const made = entriesFor(ledger, ask, at, (error) =>
    log(
      `The book of ${book} failed: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`,
    ),
  );
  if (!made.ok) return made;
  const missing = made.contents
    .flatMap((content) => attachmentsOf(content as Entry))
    .find((digest) => !hasAttachment(store.where, digest));
  if (missing !== undefined)
    return {
      ok: false,
      because: [
        `There is no photograph ${missing.slice(0, 16)}… in the data folder: send it first, then attach it.`,
      ],
    };
  return made.contents.length === 0 ? { ok: true } : { contents: made.contents };
};
