/** Writes a file whole or not at all: under another name first, synced, then renamed. */
import { existsSync } from 'node:fs';
import { open, rename, rm } from 'node:fs/promises';
import { codeOf, messageOf, PlainError } from '../plain-error.ts';

/** Throws PlainError when it cannot be written, or when there is such a file and `replace` is false. */
export const writeWhole = async (
  path: string,
  pieces: AsyncIterable<Uint8Array> | Iterable<Uint8Array>,
  replace = false,
): Promise<number> => {
  if (!replace && existsSync(path))
    throw new PlainError(`${path} is there already: name another file, or remove it first.`);
  const part = `${path}.part`;
  let bytes = 0;
  try {
    const file = await open(part, 'w');
    try {
      for await (const piece of pieces) {
        await file.writeFile(piece);
        bytes += piece.length;
      }
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(part, path);
    return bytes;
  } catch (error) {
    await rm(part, { force: true });
    if (error instanceof PlainError) throw error;
    if (codeOf(error) === '') throw error;
    throw new PlainError(`${path} cannot be written (${codeOf(error)}): ${messageOf(error)}`);
  }
};
