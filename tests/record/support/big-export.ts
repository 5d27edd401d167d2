/** An export of any size, made while it is written: nothing of it is held. */
import { hash } from 'node:crypto';
import { Readable } from 'node:stream';
import { toHex } from '../../../machines/record/bytes.ts';
import { sealEntry } from '../../../machines/record/chain.ts';
import { chunkBuilder } from '../../../machines/record/chunks.ts';
import { type EntryContent, GENESIS } from '../../../machines/record/entry.ts';
import { EXPORT_FILES, type SealFile } from '../../../machines/record/export.types.ts';
import { manifestOf, prettyJson, smallFiles } from '../../../machines/record/export-layout.ts';
import { lineOf } from '../../../machines/record/line-text.ts';
import { leafHash, merkleBuilder } from '../../../machines/record/merkle.ts';
import { signSeal } from '../../../machines/record/seal.ts';
import { sha256 } from '../../../server/digest.ts';
import { zipStream } from '../../../server/export/zip-stream.ts';
import { NODE_CRYPTO } from '../../../server/seal/node-crypto.ts';
import { chainOf, TINY_SCENARIO, testKey, tinyOpening } from './made-export.ts';

const TAGS = ['hopperKg', 'mixerMotorA', 'bucketKg', 'drumC', 'exhaustC', 'hoodLelPct'] as const;
const PIECE_BYTES = 256 * 1024;

/** Readings such as a running plant gives: a few tags in every second. */
const contentAt = (i: number): EntryContent => {
  if (i === 0) return { kind: 'opening', body: tinyOpening() };
  const from = (i - 1) * 10 + 1;
  const rows = [1, 4, 7].map(
    (k) =>
      [
        from + k,
        Object.fromEntries(TAGS.slice(k % 3).map((tag, t) => [tag, ((i * 7 + k * 13 + t) % 9000) / 10])),
      ] as const,
  );
  return { kind: 'readings', body: { from, to: from + 9, rows } } as EntryContent;
};

/** A zip whose entries.ndjson has about `bytes` bytes. */
export const writeBigExport = (bytes: number): Readable => {
  const key = testKey(1);
  const tree = merkleBuilder(NODE_CRYPTO.sha256);
  const chunks = chunkBuilder(NODE_CRYPTO);
  const seen = { first: 1, last: 0, count: 0, head: GENESIS, bytes: 0 };
  async function* lines(): AsyncGenerator<Uint8Array> {
    let text = '';
    for (let i = 0; seen.bytes + text.length < bytes; i++) {
      const wall = new Date(Date.UTC(2026, 4, 12) + i * 1000).toISOString();
      const made = sealEntry({ seq: seen.last, hash: seen.head }, contentAt(i), i * 1000, wall, sha256);
      const line = lineOf(made.text, made.entry.hash);
      tree.add(leafHash(Buffer.from(made.text), NODE_CRYPTO.sha256));
      if (i > 0) chunks.add(made.entry.seq, Buffer.from(line));
      Object.assign(seen, { last: made.entry.seq, count: i + 1, head: made.entry.hash });
      text += `${line}\n`;
      if (text.length < PIECE_BYTES) continue;
      seen.bytes += text.length;
      yield Buffer.from(text);
      text = '';
    }
    seen.bytes += text.length;
    yield Buffer.from(text);
  }
  async function* files() {
    yield { name: EXPORT_FILES.entries, content: lines() };
    const { first, last, count, head } = seen;
    const body = signSeal(
      {
        ...{ shift: 1, first, last, count, head, root: toHex(tree.root()), chunks: chunks.finish() },
        ...{ prevSeal: null, closed: 'in order', by: null, remark: '' },
      },
      key,
    );
    const [seal] = chainOf([{ kind: 'seal', body }], { seq: last, hash: head });
    const sealFile: SealFile = {
      seal: seal?.entry as SealFile['seal'],
      countersignatures: [],
      rotations: [],
    };
    const small = smallFiles(TINY_SCENARIO, sealFile);
    for (const { name, bytes: content } of small) yield { name, content: [content] };
    const listed = small.map((file) => ({
      name: file.name,
      bytes: file.bytes.length,
      sha256: hash('sha256', file.bytes),
    }));
    const manifest = manifestOf({
      ...{ opening: tinyOpening(), openingSeq: 1, scenario: TINY_SCENARIO, entries: seen, sealFile },
      files: listed,
    });
    yield { name: EXPORT_FILES.manifest, content: [Buffer.from(prettyJson(manifest))] };
  }
  return Readable.from(zipStream(files()));
};
