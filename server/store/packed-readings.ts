/**
 * The readings of a sealed shift in little room. Columns of differences compress far better than lines, and the
 * hash of the entry before need not be kept where that entry stands right before in the same chunk: it is
 * computed again. Packing always unpacks what it made and compares, so nothing rests on these guesses.
 */
import { promisify } from 'node:util';
import { brotliCompress, brotliDecompressSync, constants } from 'node:zlib';
import { lineOf } from '../../machines/record/line-text.ts';
import { sha256 } from '../digest.ts';
import type { StoredText } from './store.ts';

/** `columns`: as described above. `lines`: texts as they are, for readings of a form the columns cannot hold. */
export type PackMethod = 'columns-br' | 'lines-br';
export type Packed = { readonly method: PackMethod; readonly bytes: Buffer };

const QUALITY = 9;
/** A chunk is 900 entries of a few hundred bytes; ten times that is no honest chunk. */
const UNPACKED_LIMIT_BYTES = 16 * 1024 * 1024;

const compress = promisify(brotliCompress);
const squeeze = (text: string): Promise<Buffer> => {
  const bytes = Buffer.from(text);
  return compress(bytes, {
    params: {
      [constants.BROTLI_PARAM_MODE]: constants.BROTLI_MODE_TEXT,
      [constants.BROTLI_PARAM_QUALITY]: QUALITY,
      [constants.BROTLI_PARAM_SIZE_HINT]: bytes.length,
    },
  });
};

type Row = readonly [tick: number, changes: unknown];
type Read = {
  readonly atMs: number;
  readonly body: { readonly from: number; readonly rows: readonly Row[]; readonly to: number };
  readonly prev: string;
  readonly seq: number;
  readonly wall: string;
};

/** Differences from the entry before, but for the rows, whose ticks count from the entry's own first. */
type Columns = {
  readonly seq: number[];
  readonly at: number[];
  readonly wall: number[];
  readonly from: number[];
  readonly length: number[];
  /** Hash of the entry before, where that is not the one before in this chunk; else ''. */
  readonly prev: string[];
  readonly rows: Row[][];
};

const columnsOf = (rows: readonly StoredText[]): Columns => {
  const columns: Columns = { seq: [], at: [], wall: [], from: [], length: [], prev: [], rows: [] };
  let before = { seq: 0, atMs: 0, wallMs: 0, to: 0, hash: '' };
  for (const { json, hash } of rows) {
    const { seq, atMs, wall, prev, body } = JSON.parse(json) as Read;
    const wallMs = Date.parse(wall);
    columns.seq.push(seq - before.seq);
    columns.at.push(atMs - before.atMs);
    columns.wall.push(wallMs - before.wallMs);
    columns.from.push(body.from - before.to);
    columns.length.push(body.to - body.from);
    columns.prev.push(prev === before.hash ? '' : prev);
    columns.rows.push(body.rows.map(([tick, changes]) => [tick - body.from, changes]));
    before = { seq, atMs, wallMs, to: body.to, hash };
  }
  return columns;
};

const textsOf = (columns: Columns): StoredText[] => {
  let before = { seq: 0, atMs: 0, wallMs: 0, to: 0, hash: '' };
  return columns.seq.map((step, i) => {
    const seq = before.seq + step;
    const atMs = before.atMs + (columns.at[i] ?? 0);
    const wallMs = before.wallMs + (columns.wall[i] ?? 0);
    const from = before.to + (columns.from[i] ?? 0);
    const to = from + (columns.length[i] ?? 0);
    const prev = columns.prev[i] === '' ? before.hash : columns.prev[i];
    const rows = JSON.stringify((columns.rows[i] ?? []).map(([tick, changes]) => [tick + from, changes]));
    const wall = new Date(wallMs).toISOString();
    const json = `{"atMs":${atMs},"body":{"from":${from},"rows":${rows},"to":${to}},"kind":"readings","prev":"${prev}","seq":${seq},"wall":"${wall}"}`;
    const hash = sha256(json);
    before = { seq, atMs, wallMs, to, hash };
    return { seq, hash, json };
  });
};

const linesOf = (text: string): StoredText[] =>
  text.split('\n').map((json) => ({ seq: (JSON.parse(json) as Read).seq, hash: sha256(json), json }));

/** Texts and hashes of a chunk, the hashes taken anew. Throws when the bytes are no chunk. */
export const unpack = ({ method, bytes }: Packed): StoredText[] => {
  const text = brotliDecompressSync(bytes, { maxOutputLength: UNPACKED_LIMIT_BYTES }).toString();
  return method === 'columns-br' ? textsOf(JSON.parse(text) as Columns) : linesOf(text);
};

/** The exact bytes a chunk's digest in the seal was taken over. */
export const chunkText = (rows: readonly StoredText[]): string =>
  rows.map(({ json, hash }) => `${lineOf(json, hash)}\n`).join('');

const givesBack = (packed: Packed, rows: readonly StoredText[]): boolean => {
  try {
    const again = unpack(packed);
    return (
      again.length === rows.length &&
      rows.every((row, i) => {
        const other = again[i];
        return other?.seq === row.seq && other.json === row.json && other.hash === row.hash;
      })
    );
  } catch {
    return false;
  }
};

/** Packs entries of one chunk. Throws when no method gives them back as they were: then they stay as they are. */
export const pack = async (rows: readonly StoredText[]): Promise<Packed> => {
  const tries: readonly [PackMethod, () => string][] = [
    ['columns-br', () => JSON.stringify(columnsOf(rows))],
    ['lines-br', () => rows.map(({ json }) => json).join('\n')],
  ];
  for (const [method, write] of tries) {
    let text: string;
    try {
      text = write();
    } catch {
      continue;
    }
    const packed = { method, bytes: await squeeze(text) };
    if (givesBack(packed, rows)) return packed;
  }
  throw new Error(`readings from entry ${rows[0]?.seq} on do not come back from packing as they were`);
};
