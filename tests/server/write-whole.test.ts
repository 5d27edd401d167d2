/** A file that is written whole or not at all. */
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { writeWhole } from '../../server/export/write-file.ts';
import { scratchFolder } from './support/tools.ts';

async function* breakingOff(path: string): AsyncGenerator<Uint8Array> {
  yield Buffer.from('half of ');
  // Under its own name nothing is seen while it is being written.
  expect(existsSync(path)).toBe(false);
  throw new Error('the disk is full');
}

describe('writing whole', () => {
  it('leaves nothing behind when it breaks off', async () => {
    const folder = scratchFolder();
    const path = join(folder, 'shift.zip');
    await expect(writeWhole(path, breakingOff(path))).rejects.toThrow('the disk is full');
    expect(readdirSync(folder)).toEqual([]);
  });

  it('keeps the file that was there when it breaks off or may not replace it', async () => {
    const folder = scratchFolder();
    const path = join(folder, 'shift.zip');
    writeFileSync(path, 'before');
    const pieces = [Buffer.from('after '), Buffer.from('all')];
    await expect(writeWhole(path, pieces)).rejects.toThrow('is there already');
    const broken = (async function* () {
      yield Buffer.from('half');
      throw new Error('gone');
    })();
    await expect(writeWhole(path, broken, true)).rejects.toThrow('gone');
    expect(readFileSync(path, 'utf8')).toBe('before');
    expect(await writeWhole(path, pieces, true)).toBe(9);
    expect(readFileSync(path, 'utf8')).toBe('after all');
  });

  it('says what to do where it cannot write', async () => {
    const path = join(scratchFolder(), 'no', 'such', 'folder.zip');
    await expect(writeWhole(path, [])).rejects.toThrow(/cannot be written \(ENOENT\)/);
  });
});
