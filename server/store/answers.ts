/** What became of a command, as its fact says. */
import { answerName } from '../../machines/ledger/put.ts';
import type { Entry } from '../../machines/record/entry.ts';

export type AnswerRow = { readonly id: string; readonly command: string; readonly because: string | null };

/** Null for an entry that answers no command. */
export const answerOf = (entry: Entry): AnswerRow | null => {
  if (entry.kind === 'ledger')
    return { id: entry.body.id, command: answerName(entry.body.book, entry.body.do), because: null };
  if (entry.kind !== 'fact') return null;
  const { fact } = entry.body;
  if (fact.is === 'commandDone') return { id: fact.id, command: fact.command, because: null };
  if (fact.is === 'commandRefused')
    return { id: fact.id, command: fact.command, because: JSON.stringify(fact.because) };
  return null;
};
