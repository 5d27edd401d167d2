/** Files an entry names by their SHA-256: an export of its shift carries them. */
import type { Entry } from './entry.ts';

const DIGEST = /^[0-9a-f]{64}$/;
const digests = (value: unknown): string[] =>
  (Array.isArray(value) ? value : [value]).filter(
    (one): one is string => typeof one === 'string' && DIGEST.test(one),
  );

/** A note says it in `attachments`; a fact of the ledger there or, for one file, in `sha256`. */
export const attachmentsOf = (entry: Entry | null): readonly string[] => {
  if (entry?.kind === 'note') return digests(entry.body?.attachments ?? []);
  if (entry?.kind !== 'ledger') return [];
  // Read from a file, it may hold anything.
  const { attachments = [], sha256 = [] } = entry.body?.fact ?? {};
  return [...digests(attachments), ...digests(sha256)];
};
