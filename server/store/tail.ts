/** Looks at the end of a record when it is opened: a half-written tail is told from damage further up. */
import { type ChainEnd, hashOf, whyNotNext } from '../../machines/record/chain.ts';
import type { Entry } from '../../machines/record/entry.ts';
import { sha256 } from '../digest.ts';
import { messageOf } from '../plain-error.ts';
import { entryOf, type Row } from './tables.ts';

export type TailFinding =
  | { readonly is: 'whole' }
  /** Nothing after `from` holds together: it was never finished and can be cut. */
  | { readonly is: 'half written'; readonly from: number; readonly why: string }
  /** Good entries stand behind a bad one: someone or something changed a finished record. */
  | { readonly is: 'damaged'; readonly at: number; readonly why: string };

const readRow = (row: Row): Entry | string => {
  try {
    return entryOf(row);
  } catch (error) {
    return `it cannot be read: ${messageOf(error)}`;
  }
};

const holdsTogether = (row: Row): boolean => {
  const entry = readRow(row);
  if (typeof entry === 'string') return false;
  try {
    return entry.seq === row.seq && hashOf(entry, sha256) === row.hash;
  } catch {
    return false;
  }
};

/** `rows` in order of seq; `before` is the entry in front of the first. */
export const inspectTail = (rows: readonly Row[], before: ChainEnd): TailFinding => {
  let end = before;
  for (const [i, row] of rows.entries()) {
    const entry = readRow(row);
    const why =
      typeof entry === 'string'
        ? entry
        : entry.seq !== row.seq
          ? `it stands in the place of entry ${row.seq}`
          : whyNotNext(end, entry, sha256);
    if (why === null) {
      end = { seq: row.seq, hash: row.hash };
      continue;
    }
    const goodAfter = rows.slice(i + 1).some(holdsTogether);
    return goodAfter ? { is: 'damaged', at: row.seq, why } : { is: 'half written', from: row.seq, why };
  }
  return { is: 'whole' };
};
