/** Reads an export that shifts are archived in: verified first, then entry by entry. */
import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { canonical } from '../../machines/record/canonical.ts';
import type { Entry } from '../../machines/record/entry.ts';
import type { ExportManifest } from '../../machines/record/export.types.ts';
import { openExport } from '../../machines/record/open-export.ts';
import { verifyExport } from '../../machines/record/verify-export.ts';
import { messageOf, PlainError } from '../plain-error.ts';
import { NODE_CRYPTO, NODE_TOOLS, withSource } from '../seal/node-crypto.ts';
import type { StoredText } from '../store/store.ts';

/** SHA-256 of a file, streamed. */
export const fileDigest = async (file: string): Promise<string> => {
  const running = createHash('sha256');
  for await (const piece of createReadStream(file)) running.update(piece as Buffer);
  return running.digest('hex');
};

/** The manifest of an export that is intact and sealed; PlainError says what is wrong with any other. */
export const verifiedManifest = (file: string): Promise<ExportManifest> =>
  plainly(file, () =>
    withSource(file, async (source) => {
      const verdict = await verifyExport(await openExport(source, NODE_TOOLS), NODE_CRYPTO);
      if (verdict.result === 'unreadable')
        throw new PlainError(`${file} cannot be read as an export: ${verdict.detail}.`);
      if (verdict.result === 'altered')
        throw new PlainError(
          `${file} is not intact: ${verdict.findings[0]?.detail ?? 'no reason given'}. Nothing was changed; see patchyard verify ${file}.`,
        );
      if (verdict.seal === null) throw new PlainError(`${file} holds a shift that was not sealed.`);
      return verdict.manifest;
    }),
  );

const plainly = async <T>(file: string, work: () => Promise<T>): Promise<T> => {
  try {
    return await work();
  } catch (error) {
    if (error instanceof PlainError) throw error;
    const why = messageOf(error);
    throw new PlainError(why.startsWith(file) ? `${why}.` : `${file}: ${why}.`);
  }
};

const textOf = ({ hash, ...rest }: Entry): StoredText => ({ seq: rest.seq, hash, json: canonical(rest) });

/** Texts of the entries behind the opening. Verify the file first. */
export const archivedTexts = (file: string): Promise<StoredText[]> =>
  plainly(file, () =>
    withSource(file, async (source) => {
      const reader = await openExport(source, NODE_TOOLS);
      const texts: StoredText[] = [];
      for await (const batch of reader.entries())
        for (const entry of batch) if (entry.kind !== 'opening') texts.push(textOf(entry));
      return texts;
    }),
  );

/** Its commands, facts and notes; readings are left out. */
export const archivedDecisions = (file: string): Promise<Entry[]> =>
  plainly(file, () =>
    withSource(file, async (source) => {
      const reader = await openExport(source, NODE_TOOLS);
      const entries: Entry[] = [];
      for await (const batch of reader.entries())
        for (const entry of batch)
          if (entry.kind !== 'opening' && entry.kind !== 'readings') entries.push(entry);
      return entries;
    }),
  );
