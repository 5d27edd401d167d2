/** An entry made outside the line with the plant's key: a seal, a countersignature, a change of key. */
import type { PlantKey } from '../../machines/record/crypto.types.ts';
import type { EntryContent } from '../../machines/record/entry.ts';
import type { ToAppend } from '../ledger/ask.ts';
import { PlainError } from '../plain-error.ts';
import { refused } from './command-queue.ts';

const NO_KEY = 'This server has no key to sign with: see what it said when it was started.';

/** `make` may refuse by throwing PlainError. */
export const signedEntry = async (
  key: PlantKey | null,
  make: (key: PlantKey) => Promise<EntryContent>,
): Promise<ToAppend> => {
  if (key === null) return refused(NO_KEY);
  try {
    return { contents: [await make(key)] };
  } catch (error) {
    if (error instanceof PlainError) return refused(error.message);
    throw error;
  }
};
