/**
 * Every byte of a small export is flipped in turn: each flip is found, or proven harmless because the whole
 * content, file by file, is still the same to the last byte. What may be harmless is told at the end: bits that
 * deflate itself ignores, and nothing else.
 */
import { crc32, inflateRawSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import {
  exportOf,
  filesOf,
  testKey,
  tinyContents,
  tinyParts,
  verdictOf,
} from '../record/support/made-export.ts';

const LOCAL = 0x04034b50;

/** Files of a zip by its directory, read by other code than the one under test; null when that fails. */
const contents = (zip: Buffer): string | null => {
  try {
    const end = zip.length - 22;
    const count = zip.readUInt16LE(end + 10);
    let at = zip.readUInt32LE(end + 16);
    const all: string[] = [];
    for (let i = 0; i < count; i++) {
      const [packed, nameLength, offset] = [
        zip.readUInt32LE(at + 20),
        zip.readUInt16LE(at + 28),
        zip.readUInt32LE(at + 42),
      ];
      const name = zip.subarray(at + 46, at + 46 + nameLength).toString('latin1');
      if (zip.readUInt32LE(offset) !== LOCAL) return null;
      const data = zip.subarray(offset + 30 + nameLength, offset + 30 + nameLength + packed);
      const bytes = inflateRawSync(data);
      if (crc32(bytes) !== zip.readUInt32LE(at + 16)) return null;
      all.push(`${name}\n${bytes.toString('base64')}`);
      at += 46 + nameLength;
    }
    return all.join('\n');
  } catch {
    return null;
  }
};

describe('flipped bytes', () => {
  it('of an export are all found or harmless', async () => {
    const parts = tinyParts(testKey(1), tinyContents(3));
    const whole = await exportOf(parts);
    const before = contents(whole);
    expect(before).not.toBeNull();
    const counts = { altered: 0, unreadable: 0, harmless: 0 };
    const missed: number[] = [];
    for (let i = 0; i < whole.length; i++) {
      const bent = Buffer.from(whole);
      bent[i] = (bent[i] ?? 0) ^ (1 << (i % 8));
      const { result } = await verdictOf(bent);
      if (result !== 'intact') counts[result] += 1;
      else if (contents(bent) === before) counts.harmless += 1;
      else missed.push(i);
    }
    expect(missed).toEqual([]);
    expect(counts.altered + counts.unreadable + counts.harmless).toBe(whole.length);
    // A few unused bits at the end of each packed file.
    expect(counts.harmless).toBeLessThan(filesOf(parts).length * 4);
    expect(counts.altered).toBeGreaterThan(10);
  }, 60_000);

  it('of every file inside, unpacked, are all found', async () => {
    const { zipOf } = await import('../record/support/made-export.ts');
    const files = filesOf(tinyParts(testKey(1), tinyContents(3)));
    const missed: string[] = [];
    for (const { name, bytes } of files) {
      // Packing again costs more than verifying: every 23rd byte, beginning anew in every file.
      for (let i = 0; i < bytes.length; i += 23) {
        const bent = Buffer.from(bytes);
        bent[i] = (bent[i] ?? 0) ^ (1 << (i % 7));
        const zip = await zipOf(files.map((file) => (file.name === name ? { name, bytes: bent } : file)));
        if ((await verdictOf(zip)).result === 'intact') missed.push(`${name} byte ${i}`);
      }
    }
    expect(missed).toEqual([]);
  }, 60_000);
});
