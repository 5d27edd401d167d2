/** Headers of a zip written in one go: local header, data, descriptor for each file, then the directory. */
import {
  ATTRIBUTES,
  CENTRAL_BYTES,
  CENTRAL_SIGNATURE,
  DESCRIPTOR_BYTES,
  DESCRIPTOR_SIGNATURE,
  END_BYTES,
  END_SIGNATURE,
  FLAGS,
  LOCAL_BYTES,
  LOCAL_SIGNATURE,
  MADE_BY,
  ZIP_DATE,
  ZIP_TIME,
  ZIP_VERSION,
  type ZipFile,
} from './zip.types.ts';

const nameBytes = (name: string): Uint8Array => Uint8Array.from(name, (letter) => letter.charCodeAt(0));

/** What stands before a file's data. Sizes and check sum are not known yet: the descriptor has them. */
export const localHeader = (name: string, method: ZipFile['method']): Uint8Array => {
  const bytes = new Uint8Array(LOCAL_BYTES + name.length);
  const view = new DataView(bytes.buffer);
  view.setUint32(0, LOCAL_SIGNATURE, true);
  view.setUint16(4, ZIP_VERSION, true);
  view.setUint16(6, FLAGS, true);
  view.setUint16(8, method, true);
  view.setUint16(10, ZIP_TIME, true);
  view.setUint16(12, ZIP_DATE, true);
  view.setUint16(26, name.length, true);
  bytes.set(nameBytes(name), LOCAL_BYTES);
  return bytes;
};

/** What stands behind a file's data. */
export const descriptor = ({ crc, packedBytes, bytes: size }: ZipFile): Uint8Array => {
  const bytes = new Uint8Array(DESCRIPTOR_BYTES);
  const view = new DataView(bytes.buffer);
  view.setUint32(0, DESCRIPTOR_SIGNATURE, true);
  view.setUint32(4, crc, true);
  view.setUint32(8, packedBytes, true);
  view.setUint32(12, size, true);
  return bytes;
};

const centralHeader = (file: ZipFile): Uint8Array => {
  const bytes = new Uint8Array(CENTRAL_BYTES + file.name.length);
  const view = new DataView(bytes.buffer);
  view.setUint32(0, CENTRAL_SIGNATURE, true);
  view.setUint16(4, MADE_BY, true);
  view.setUint16(6, ZIP_VERSION, true);
  view.setUint16(8, FLAGS, true);
  view.setUint16(10, file.method, true);
  view.setUint16(12, ZIP_TIME, true);
  view.setUint16(14, ZIP_DATE, true);
  view.setUint32(16, file.crc, true);
  view.setUint32(20, file.packedBytes, true);
  view.setUint32(24, file.bytes, true);
  view.setUint16(28, file.name.length, true);
  view.setUint32(38, ATTRIBUTES, true);
  view.setUint32(42, file.offset, true);
  bytes.set(nameBytes(file.name), CENTRAL_BYTES);
  return bytes;
};

/** The directory of all files and the end record; `at` is where it begins. */
export const directoryOf = (files: readonly ZipFile[], at: number): Uint8Array => {
  const headers = files.map(centralHeader);
  const size = headers.reduce((sum, header) => sum + header.length, 0);
  const bytes = new Uint8Array(size + END_BYTES);
  let offset = 0;
  for (const header of headers) {
    bytes.set(header, offset);
    offset += header.length;
  }
  const view = new DataView(bytes.buffer, size);
  view.setUint32(0, END_SIGNATURE, true);
  view.setUint16(8, files.length, true);
  view.setUint16(10, files.length, true);
  view.setUint32(12, size, true);
  view.setUint32(16, at, true);
  return bytes;
};
