/** SHA-256, Ed25519, inflating and UTF-8 in a browser, as the record core asks for them. Nothing is sent anywhere. */
import { sha256 } from '@noble/hashes/sha2.js';
import type { RecordCrypto } from '../../machines/record/crypto.types.ts';
import { type ByteSource, ExportError, type OpenTools } from '../../machines/record/export.types.ts';

/** WebCrypto's own SHA-256 answers by promise only, too slow for a hundred thousand short entries; Ed25519 is WebCrypto's. */
export const WEB_CRYPTO: RecordCrypto = {
  sha256: (bytes) => sha256(bytes),
  sha256Stream: () => {
    const running = sha256.create();
    return { update: (bytes) => void running.update(bytes), digest: () => running.digest() };
  },
  verifyEd25519: async (publicKey, message, signature) => {
    let key: CryptoKey;
    try {
      key = await crypto.subtle.importKey('spki', new Uint8Array(publicKey), { name: 'Ed25519' }, false, [
        'verify',
      ]);
    } catch (error) {
      if (error instanceof DOMException && error.name === 'NotSupportedError')
        throw new ExportError(
          'not supported here',
          'this browser cannot check Ed25519 signatures: use a newer one, or patchyard verify',
        );
      return false;
    }
    return crypto.subtle.verify('Ed25519', key, new Uint8Array(signature), new Uint8Array(message));
  },
};

const fatal = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });

async function* pieces(stream: ReadableStream<Uint8Array>): AsyncGenerator<Uint8Array> {
  const reader = stream.getReader();
  try {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) return;
      yield value;
    }
  } finally {
    await reader.cancel().catch(() => undefined);
  }
}

export const WEB_TOOLS: OpenTools = {
  decode: (bytes) => fatal.decode(bytes),
  inflate: (packed) => {
    const from = packed[Symbol.asyncIterator]();
    const source = new ReadableStream<BufferSource>({
      pull: async (controller) => {
        const { done, value } = await from.next();
        if (done === true) controller.close();
        else controller.enqueue(new Uint8Array(value));
      },
    });
    return pieces(source.pipeThrough(new DecompressionStream('deflate-raw')) as ReadableStream<Uint8Array>);
  },
};

export const sourceOfBlob = (blob: Blob): ByteSource => ({
  size: blob.size,
  read: async (offset, length) => new Uint8Array(await blob.slice(offset, offset + length).arrayBuffer()),
});
