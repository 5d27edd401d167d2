/** SHA-256, Ed25519, inflating and UTF-8 by Node, as the record core asks for them. */
import { createHash, createPublicKey, hash, verify } from 'node:crypto';
import { type FileHandle, open } from 'node:fs/promises';
import { Readable } from 'node:stream';
import { createInflateRaw, inflateRawSync } from 'node:zlib';
import type { RecordCrypto } from '../../machines/record/crypto.types.ts';
import { type ByteSource, ExportError, type OpenTools } from '../../machines/record/export.types.ts';

const DIGEST_BYTES = 32;

export const NODE_CRYPTO: RecordCrypto = {
  // As text and back: a Buffer for each of a hundred thousand digests keeps the collector busier than the digests.
  sha256: (bytes) => {
    const letters = hash('sha256', bytes, 'binary');
    const digest = new Uint8Array(DIGEST_BYTES);
    for (let i = 0; i < DIGEST_BYTES; i++) digest[i] = letters.charCodeAt(i);
    return digest;
  },
  sha256Stream: () => {
    const running = createHash('sha256');
    return { update: (bytes) => void running.update(bytes), digest: () => running.digest() };
  },
  verifyEd25519: async (publicKey, message, signature) => {
    try {
      const key = createPublicKey({ key: Buffer.from(publicKey), format: 'der', type: 'spki' });
      return key.asymmetricKeyType === 'ed25519' && verify(null, message, key, signature);
    } catch {
      return false;
    }
  },
};

const fatal = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });

/** So little is unpacked at once: a stream costs more than the work, and no bomb fits. */
const SMALL_BYTES = 16 * 1024;

async function* inflate(packed: AsyncIterable<Uint8Array>): AsyncGenerator<Uint8Array> {
  const pieces = packed[Symbol.asyncIterator]();
  const first = await pieces.next();
  if (first.done === true) return;
  const second = await pieces.next();
  if (second.done === true && first.value.length <= SMALL_BYTES) {
    yield inflateRawSync(first.value);
    return;
  }
  async function* all(): AsyncGenerator<Uint8Array> {
    yield first.value;
    if (second.done !== true) yield second.value;
    for (let next = await pieces.next(); next.done !== true; next = await pieces.next()) yield next.value;
  }
  const inflated = createInflateRaw({ chunkSize: 256 * 1024 });
  const source = Readable.from(all(), { objectMode: true });
  source.on('error', (error) => inflated.destroy(error));
  // A plain view: cutting lines out of a Buffer costs twice as much.
  for await (const piece of source.pipe(inflated) as AsyncIterable<Buffer>)
    yield new Uint8Array(piece.buffer, piece.byteOffset, piece.length);
}

export const NODE_TOOLS: OpenTools = {
  decode: (bytes) => fatal.decode(bytes),
  inflate,
};

/** An open file as a byte source. */
export const sourceOf = async (handle: FileHandle): Promise<ByteSource> => {
  const { size } = await handle.stat();
  return {
    size,
    read: async (offset, length) => {
      const bytes = new Uint8Array(length);
      const { bytesRead } = await handle.read(bytes, 0, length, offset);
      return bytes.subarray(0, bytesRead);
    },
  };
};

/** Opens a file, hands it over as a byte source and closes it again. */
export const withSource = async <T>(path: string, use: (source: ByteSource) => Promise<T>): Promise<T> => {
  const handle = await open(path, 'r').catch((error: NodeJS.ErrnoException) => {
    throw new ExportError('not an export', `${path} cannot be opened (${error.code ?? error.message})`);
  });
  try {
    return await use(await sourceOf(handle));
  } finally {
    await handle.close();
  }
};

export const sourceOfBytes = (bytes: Uint8Array): ByteSource => ({
  size: bytes.length,
  read: async (offset, length) => bytes.subarray(offset, offset + length),
});
