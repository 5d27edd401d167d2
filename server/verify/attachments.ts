/** Checks the files that entries of a record name: there, and what they were when they were kept. */
import { attachmentsOf } from '../../machines/record/attachments.ts';
import type { Finding } from '../../machines/record/export.types.ts';
import { hasAttachment, readAttachment } from '../ledger/attachments.ts';
import { PlainError } from '../plain-error.ts';
import type { Store } from '../store/store.ts';

const PAGE = 1000;
/** Kinds that may name files. */
const KINDS = ['note', 'ledger'] as const;

const findingOf = (folder: string, seq: number, digest: string): Finding | null => {
  const file = `attachments/${digest}`;
  if (!hasAttachment(folder, digest))
    return {
      kind: 'file absent',
      seq,
      file,
      detail: `entry ${seq} names ${file}, which is not in the data folder`,
    };
  try {
    readAttachment(folder, digest);
    return null;
  } catch (error) {
    if (!(error instanceof PlainError)) throw error;
    return {
      kind: 'attachment altered',
      seq,
      file,
      detail: `${file} has another content than entry ${seq} named`,
    };
  }
};

/** Each file once, by the first entry that names it; entries of archived shifts lie in their export, which carries its files. */
export const attachmentFindings = async (store: Store, folder: string): Promise<Finding[]> => {
  const found: Finding[] = [];
  const looked = new Set<string>();
  for (const kind of KINDS) {
    let after = 0;
    for (;;) {
      const page = await store.read({ after, limit: PAGE, kind });
      for (const entry of page)
        for (const digest of attachmentsOf(entry)) {
          if (looked.has(digest)) continue;
          looked.add(digest);
          const one = findingOf(folder, entry.seq, digest);
          if (one !== null) found.push(one);
        }
      const newest = page.at(-1);
      if (newest === undefined || page.length < PAGE) break;
      after = newest.seq;
    }
  }
  return found;
};
