/**
 * Reads a zip of our own layout and nothing else: every byte outside the files' data must be the one our writer
 * puts there, files follow each other without a gap, and no size is believed before it has been held against
 * the size of the whole. So a zip that claims gigabytes, hides a second directory or names paths upwards is
 * turned away before anything is unpacked.
 */

import { type ByteSource, ExportError, type Inflate } from './export.types.ts';
import { asciiText } from './line-bytes.ts';
import {
  CENTRAL_BYTES,
  CENTRAL_SIGNATURE,
  DEFLATED,
  DESCRIPTOR_BYTES,
  END_BYTES,
  END_SIGNATURE,
  isSafeName,
  LOCAL_BYTES,
  STORED,
  type ZipFile,
} from './zip.types.ts';
import { descriptor, directoryOf, localHeader } from './zip-write.ts';

const FILES_LIMIT = 10_000;
const DIRECTORY_LIMIT_BYTES = 4 * 1024 * 1024;
const ZIP_LIMIT_BYTES = 0xffff_fffe;
/** Deflate reaches a thousandfold on zeros; an honest record reaches twenty. */
const RATIO_LIMIT = 200;
/** Below this no ratio does harm. */
const SMALL_BYTES = 1024 * 1024;
const PIECE_BYTES = 256 * 1024;

const damaged = (why: string): ExportError => new ExportError('damaged', why);

const same = (a: Uint8Array, b: Uint8Array): boolean =>
  a.length === b.length && a.every((byte, i) => byte === b[i]);

const readAll = async (source: ByteSource, offset: number, length: number): Promise<Uint8Array> => {
  const bytes = await source.read(offset, length);
  if (bytes.length !== length) throw damaged('the file became shorter while it was read');
  return bytes;
};

const viewOf = (bytes: Uint8Array): DataView =>
  new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);

/** One file of the directory at `at`; its header is held against the writer's later, as a whole. */
const fileAt = (directory: Uint8Array, at: number): ZipFile => {
  if (at + CENTRAL_BYTES > directory.length) throw damaged('its directory ends in the middle of a file');
  const view = viewOf(directory.subarray(at));
  if (view.getUint32(0, true) !== CENTRAL_SIGNATURE) throw damaged('its directory is not one of files');
  const method = view.getUint16(10, true);
  const [packedBytes, bytes] = [view.getUint32(20, true), view.getUint32(24, true)];
  const name = asciiText(
    directory.subarray(at + CENTRAL_BYTES, at + CENTRAL_BYTES + view.getUint16(28, true)),
  );
  const shown = JSON.stringify(name.slice(0, 80));
  if (!isSafeName(name)) throw damaged(`it names a file ${shown}, which no export may`);
  if (method !== STORED && method !== DEFLATED) throw damaged(`${shown} is packed by an unknown method`);
  if (packedBytes === 0xffff_ffff || bytes === 0xffff_ffff)
    throw new ExportError('too large', `${shown} claims 4 GiB or more: no export is so large`);
  if (method === STORED && packedBytes !== bytes) throw damaged(`${shown} is stored but has two sizes`);
  if (bytes > SMALL_BYTES && bytes > packedBytes * RATIO_LIMIT)
    throw new ExportError(
      'too large',
      `${shown} claims to unpack ${packedBytes} bytes to ${bytes}: no record is so compressible`,
    );
  return {
    name,
    method,
    crc: view.getUint32(16, true),
    packedBytes,
    bytes,
    offset: view.getUint32(42, true),
  };
};

const directoryFiles = (directory: Uint8Array, count: number): ZipFile[] => {
  const files: ZipFile[] = [];
  let at = 0;
  for (let i = 0; i < count; i++) {
    const file = fileAt(directory, at);
    files.push(file);
    at += CENTRAL_BYTES + file.name.length;
  }
  if (at !== directory.length) throw damaged('its directory is longer than its files');
  return files;
};

/** Data of a file: where it begins. */
const dataAt = (file: ZipFile): number => file.offset + LOCAL_BYTES + file.name.length;

/** Files must lie one behind the other from the first byte to the directory. */
const checkPlaces = (files: readonly ZipFile[], directoryAt: number): void => {
  let at = 0;
  for (const file of files) {
    if (file.offset !== at) throw damaged(`file ${file.name} is not where its directory says`);
    at = dataAt(file) + file.packedBytes + DESCRIPTOR_BYTES;
  }
  if (at !== directoryAt) throw damaged('there are bytes between its files and its directory');
  if (new Set(files.map(({ name }) => name)).size !== files.length)
    throw damaged('it names the same file twice');
};

const checkHeaders = async (source: ByteSource, file: ZipFile): Promise<void> => {
  const before = await readAll(source, file.offset, LOCAL_BYTES + file.name.length);
  const behind = await readAll(source, dataAt(file) + file.packedBytes, DESCRIPTOR_BYTES);
  if (!same(before, localHeader(file.name, file.method)) || !same(behind, descriptor(file)))
    throw damaged(`what is written around file ${file.name} does not fit the directory`);
};

/** The files of a zip in their order. Throws ExportError when it is not exactly of our layout. */
export const zipFiles = async (source: ByteSource): Promise<readonly ZipFile[]> => {
  if (source.size < END_BYTES) throw new ExportError('not an export', 'it is too short to be a zip');
  if (source.size > ZIP_LIMIT_BYTES) throw new ExportError('too large', 'it has 4 GiB or more');
  const end = viewOf(await readAll(source, source.size - END_BYTES, END_BYTES));
  if (end.getUint32(0, true) !== END_SIGNATURE)
    throw new ExportError('not an export', 'it does not end like a zip: cut short, or no zip at all');
  const [count, size, at] = [end.getUint16(10, true), end.getUint32(12, true), end.getUint32(16, true)];
  if (count > FILES_LIMIT || size > DIRECTORY_LIMIT_BYTES)
    throw new ExportError('too large', `it claims ${count} files in a directory of ${size} bytes`);
  if (at + size + END_BYTES !== source.size) throw damaged('its directory is not where its end says');
  const directory = await readAll(source, at, size);
  const files = directoryFiles(directory, count);
  checkPlaces(files, at);
  if (!same(await readAll(source, at, size + END_BYTES), directoryOf(files, at)))
    throw damaged('its directory holds what no export has');
  for (const file of files) await checkHeaders(source, file);
  return files;
};

async function* packedBytes(source: ByteSource, file: ZipFile): AsyncGenerator<Uint8Array> {
  for (let at = 0; at < file.packedBytes; at += PIECE_BYTES)
    yield readAll(source, dataAt(file) + at, Math.min(PIECE_BYTES, file.packedBytes - at));
}

/** The unpacked bytes of a file, in pieces; never more of them than its directory says. */
export async function* unpackedBytes(
  source: ByteSource,
  file: ZipFile,
  inflate: Inflate,
): AsyncGenerator<Uint8Array> {
  const packed = packedBytes(source, file);
  let bytes = 0;
  const pieces = file.method === STORED ? packed : inflate(packed);
  try {
    for await (const piece of pieces) {
      bytes += piece.length;
      if (bytes > file.bytes) throw damaged(`file ${file.name} is longer than its directory says`);
      yield piece;
    }
  } catch (error) {
    if (error instanceof ExportError) throw error;
    throw damaged(
      `file ${file.name} cannot be unpacked (${error instanceof Error ? error.message : String(error)})`,
    );
  }
  if (bytes !== file.bytes) throw damaged(`file ${file.name} is shorter than its directory says`);
}
