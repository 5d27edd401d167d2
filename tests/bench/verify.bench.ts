/**
 * Verifying against bare SHA-256 over the same bytes in the same run, and the memory it takes on a 200 MB record.
 *
 * The check hashes every byte three times by design (entry hash, Merkle leaf, chunk digest), in pieces of a few
 * hundred bytes, and unpacks them first: bare hashing is shown both as one stream and entry by entry.
 */
import { execFileSync } from 'node:child_process';
import { hash } from 'node:crypto';
import { createWriteStream, existsSync, mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { fileURLToPath } from 'node:url';
import { lineSplitter } from '../../machines/record/line-splitter.ts';
import { openExport } from '../../machines/record/open-export.ts';
import { verifyExport } from '../../machines/record/verify-export.ts';
import { NODE_CRYPTO, NODE_TOOLS, withSource } from '../../server/seal/node-crypto.ts';
import { writeBigExport } from '../record/support/big-export.ts';
import { benchFolder, bestSeconds, type Figure } from './measure.ts';

const SMALL_BYTES = 12e6;
const LARGE_BYTES = 200e6;

/** Verifies in a process of its own and gives the most memory it had, bytes. */
const peakMemory = (file: string): number => {
  const child = fileURLToPath(new URL('./support/verify-once.ts', import.meta.url));
  const out = execFileSync(process.execPath, ['--import', 'tsx', child, file], { encoding: 'utf8' });
  return Number(JSON.parse(out).peakBytes);
};

export const benchVerify = async (): Promise<Figure[]> => {
  const folder = join(benchFolder(), 'verify');
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  const [small, large] = [join(folder, 'small.zip'), join(folder, 'large.zip')];
  await pipeline(writeBigExport(SMALL_BYTES), createWriteStream(small));
  await pipeline(writeBigExport(LARGE_BYTES), createWriteStream(large));
  try {
    const figures = await withSource(small, async (source): Promise<Figure[]> => {
      const reader = await openExport(source, NODE_TOOLS);
      const pieces: Uint8Array[] = [];
      for await (const piece of reader.bytesOf('entries.ndjson')) pieces.push(piece.slice());
      const whole = Buffer.concat(pieces);
      const lines: Uint8Array[] = [];
      const splitter = lineSplitter();
      for (const piece of pieces) splitter.add(piece, (line) => lines.push(line));
      const bareS = await bestSeconds(5, () => void hash('sha256', whole));
      const eachS = await bestSeconds(5, () => {
        for (const line of lines) hash('sha256', line);
      });
      const verifyS = await bestSeconds(5, async () => {
        const { result } = await verifyExport(reader, NODE_CRYPTO);
        if (result !== 'intact') throw new Error(`the bench's own export is ${result}`);
      });
      const rate = (seconds: number): number => whole.length / 1e6 / seconds;
      return [
        {
          id: 'verify.rate',
          what: `verify an export of ${lines.length} entries`,
          value: rate(verifyS),
          unit: 'MB/s',
        },
        { id: 'verify.entries', what: 'the same in entries', value: lines.length / verifyS, unit: '1/s' },
        {
          id: 'verify.bare',
          what: 'bare SHA-256 of the same bytes, one stream',
          value: rate(bareS),
          unit: 'MB/s',
        },
        {
          id: 'verify.each',
          what: 'bare SHA-256 of the same bytes, entry by entry',
          value: rate(eachS),
          unit: 'MB/s',
        },
        {
          id: 'verify.share',
          what: 'verify against one stream',
          value: (100 * bareS) / verifyS,
          unit: '% (aim 50)',
        },
        {
          id: 'verify.shareEach',
          what: 'verify against entry by entry',
          value: (100 * eachS) / verifyS,
          unit: '%',
        },
      ];
    });
    if (!existsSync(large)) throw new Error('the large export was not written');
    return [
      ...figures,
      {
        id: 'verify.memorySmall',
        what: 'most memory of a process that verifies 12 MB',
        value: peakMemory(small) / 1e6,
        unit: 'MB',
      },
      {
        id: 'verify.memoryLarge',
        what: 'most memory of a process that verifies 200 MB',
        value: peakMemory(large) / 1e6,
        unit: 'MB',
      },
    ];
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};
