/**
 * Digests over runs of a shift's reading entries, so that they can be kept compressed by any method and the
 * seal still covers them. A chunk is CHUNK_ENTRIES reading entries (the last one fewer) in order of seq,
 * written as lines of the export: the canonical entry with its hash, a line feed behind each.
 */
import { toHex } from './bytes.ts';
import type { RecordCrypto } from './crypto.types.ts';
import type { ChunkDigest } from './entry.ts';

/** Reading entries in one chunk: a quarter of an hour when nothing else happens. */
export const CHUNK_ENTRIES = 900;
const LINE_FEED = Uint8Array.of(10);

export type ChunkBuilder = {
  /** A reading entry's line as UTF-8, without its line feed. */
  readonly add: (seq: number, line: Uint8Array) => void;
  /** All chunks, the last one perhaps shorter. Call once, at the end. */
  readonly finish: () => readonly ChunkDigest[];
};

/** Lines are gathered and digested this much at a time: a call for each would cost more than the digest. */
const GATHER_BYTES = 64 * 1024;

export const chunkBuilder = ({ sha256Stream }: Pick<RecordCrypto, 'sha256Stream'>): ChunkBuilder => {
  const done: ChunkDigest[] = [];
  const gathered = new Uint8Array(GATHER_BYTES);
  let bytes = 0;
  let open: { first: number; last: number; count: number; digest: ReturnType<typeof sha256Stream> } | null =
    null;
  const flush = (): void => {
    if (bytes > 0) open?.digest.update(gathered.subarray(0, bytes));
    bytes = 0;
  };
  const close = (): void => {
    if (open === null) return;
    flush();
    const { first, last, count, digest } = open;
    done.push({ first, last, count, sha256: toHex(digest.digest()) });
    open = null;
  };
  return {
    add: (seq, line) => {
      open ??= { first: seq, last: seq, count: 0, digest: sha256Stream() };
      if (bytes + line.length + 1 > GATHER_BYTES) flush();
      if (line.length + 1 > GATHER_BYTES) {
        open.digest.update(line);
        open.digest.update(LINE_FEED);
      } else {
        gathered.set(line, bytes);
        gathered[bytes + line.length] = 10;
        bytes += line.length + 1;
      }
      open.last = seq;
      open.count += 1;
      if (open.count === CHUNK_ENTRIES) close();
    },
    finish: () => {
      close();
      return done;
    },
  };
};

/** Chunks of a shift from its reading entries' lines in order, each without its line feed. */
export const chunksOf = (
  readings: Iterable<{ readonly seq: number; readonly line: Uint8Array }>,
  crypto: Pick<RecordCrypto, 'sha256Stream'>,
): readonly ChunkDigest[] => {
  const chunks = chunkBuilder(crypto);
  for (const { seq, line } of readings) chunks.add(seq, line);
  return chunks.finish();
};
