/** Writes a zip of our layout as a stream: nothing is held but the piece at hand. */
import { Readable } from 'node:stream';
import { crc32, createDeflateRaw } from 'node:zlib';
import { DEFLATED, type ZipFile } from '../../machines/record/zip.types.ts';
import { descriptor, directoryOf, localHeader } from '../../machines/record/zip-write.ts';

export type FileToZip = {
  readonly name: string;
  readonly content: AsyncIterable<Uint8Array> | Iterable<Uint8Array>;
};

/** More would need another layout (zip64), which the reader does not know either. */
const LIMIT_BYTES = 0xffff_fffe;

/** `files` may be made while it is consumed: the manifest comes last and knows what went before. */
export async function* zipStream(files: AsyncIterable<FileToZip>): AsyncGenerator<Uint8Array> {
  const done: ZipFile[] = [];
  let offset = 0;
  for await (const { name, content } of files) {
    const header = localHeader(name, DEFLATED);
    yield header;
    let [crc, bytes, packedBytes] = [0, 0, 0];
    async function* counted(): AsyncGenerator<Uint8Array> {
      for await (const piece of content) {
        crc = crc32(piece, crc);
        bytes += piece.length;
        yield piece;
      }
    }
    const source = Readable.from(counted());
    const deflate = createDeflateRaw({ level: 6, chunkSize: 64 * 1024 });
    source.on('error', (error) => deflate.destroy(error));
    for await (const piece of source.pipe(deflate) as AsyncIterable<Uint8Array>) {
      packedBytes += piece.length;
      yield piece;
    }
    const file: ZipFile = { name, method: DEFLATED, crc, packedBytes, bytes, offset };
    yield descriptor(file);
    done.push(file);
    offset += header.length + packedBytes + descriptor(file).length;
    if (offset > LIMIT_BYTES || bytes > LIMIT_BYTES)
      throw new Error(`${name} makes the export 4 GiB or larger, which this format does not hold`);
  }
  yield directoryOf(done, offset);
}
