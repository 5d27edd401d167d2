/** Photographs: told by their bytes, stripped of everything but the picture, kept by digest, carried by exports. */
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { crc32, deflateSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { attachmentsOf } from '../../machines/record/attachments.ts';
import type { EntryContent } from '../../machines/record/entry.ts';
import { main } from '../../server/cli.ts';
import { sha256OfBytes } from '../../server/digest.ts';
import { attachmentsFolder, keepAttachment, readAttachment } from '../../server/ledger/attachments.ts';
import { exifOrientation } from '../../server/ledger/photo-exif.ts';
import { stripPhoto } from '../../server/ledger/photo-strip.ts';
import type { PlantRunner } from '../../server/runner/runner.types.ts';
import { verifyFile } from '../../server/verify/verify-file.ts';
import { verifyRecord } from '../../server/verify/verify-record.ts';
import { testKey } from '../record/support/made-export.ts';
import { serveFake } from './support/serve-fake.ts';
import { scratchFolder, startLine } from './support/tools.ts';

const chunk = (type: string, data: Buffer): Buffer => {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const around = Buffer.alloc(8);
  around.writeUInt32BE(data.length, 0);
  around.writeUInt32BE(crc32(body), 4);
  return Buffer.concat([around.subarray(0, 4), body, around.subarray(4)]);
};
const SIGNATURE = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);

/** A TIFF block with an orientation, in either byte order, and a place a person would not want to tell. */
const tiff = (orientation: number, little: boolean): Buffer => {
  const block = Buffer.alloc(26);
  const u16 = (n: number, at: number) => (little ? block.writeUInt16LE(n, at) : block.writeUInt16BE(n, at));
  const u32 = (n: number, at: number) => (little ? block.writeUInt32LE(n, at) : block.writeUInt32BE(n, at));
  block.write(little ? 'II' : 'MM', 0, 'latin1');
  u16(42, 2);
  u32(8, 4);
  u16(1, 8);
  u16(0x0112, 10);
  u16(3, 12);
  u32(1, 14);
  u16(orientation, 18);
  return Buffer.concat([block, Buffer.from('GPS 51.5 N', 'latin1')]);
};

const png = (more: readonly Buffer[] = [], size = [2, 1]): Buffer => {
  const head = Buffer.alloc(13);
  head.writeUInt32BE(size[0] as number, 0);
  head.writeUInt32BE(size[1] as number, 4);
  head.set([8, 2, 0, 0, 0], 8);
  const data = deflateSync(Buffer.from([0, 255, 0, 0, 0, 0, 255]));
  return Buffer.concat([
    SIGNATURE,
    chunk('IHDR', head),
    ...more,
    chunk('IDAT', data),
    chunk('IEND', Buffer.alloc(0)),
  ]);
};

const segment = (marker: number, data: Buffer): Buffer => {
  const head = Buffer.from([0xff, marker, 0, 0]);
  head.writeUInt16BE(data.length + 2, 2);
  return Buffer.concat([head, data]);
};
/** The frame of a JPEG with data that is no picture but has every kind of marker in it. */
const jpeg = (more: readonly Buffer[] = [], tail = Buffer.alloc(0)): Buffer =>
  Buffer.concat([
    Buffer.from([0xff, 0xd8]),
    segment(0xe0, Buffer.from('JFIF\0\x01\x01\0\0\x01\0\x01\x01\x01abc', 'latin1')),
    ...more,
    segment(0xdb, Buffer.alloc(65, 1)),
    segment(0xc0, Buffer.from([8, 0, 40, 0, 60, 1, 1, 0x11, 0])),
    segment(0xda, Buffer.from([1, 1, 0, 0, 63, 0])),
    Buffer.from([1, 2, 0xff, 0x00, 3, 0xff, 0xd0, 4]),
    segment(0xfe, Buffer.from('between the scans')),
    segment(0xda, Buffer.from([1, 1, 0, 0, 63, 0])),
    Buffer.from([9, 9]),
    Buffer.from([0xff, 0xd9]),
    tail,
  ]);

const kept = (bytes: Buffer) => {
  const stripped = stripPhoto(bytes);
  if (!stripped.ok) throw new Error(stripped.why);
  return stripped.photo;
};
const refusal = (bytes: Buffer): string => {
  const stripped = stripPhoto(bytes);
  return stripped.ok ? '' : stripped.why;
};

describe('stripping', () => {
  it('keeps the picture of a JPEG and nothing else', () => {
    const exif = Buffer.concat([Buffer.from('Exif\0\0', 'latin1'), tiff(6, true)]);
    const adobe = segment(0xee, Buffer.from('Adobe\0\x64\0\0\0\0\x01and a secret', 'latin1'));
    const dirty = jpeg(
      [
        segment(0xe1, exif),
        segment(0xe2, Buffer.from('ICC profile of Ana')),
        adobe,
        segment(0xfe, Buffer.from('by Ana')),
      ],
      Buffer.from('a second file behind the end'),
    );
    const photo = kept(dirty);
    expect(photo).toMatchObject({ type: 'image/jpeg', width: 60, height: 40, orientation: 6 });
    const text = photo.bytes.toString('latin1');
    for (const gone of ['GPS', 'Ana', 'ICC', 'second file', 'secret', 'between', 'abc'])
      expect(text).not.toContain(gone);
    expect(text).toContain('Adobe');
    // Of all that the camera wrote only how it was held is left, once, behind the JFIF segment.
    expect(text.split('Exif')).toHaveLength(2);
    const at = photo.bytes.indexOf('Exif') - 4;
    expect(at).toBe(20);
    expect(photo.bytes.readUInt16BE(at + 2)).toBe(34);
    expect(exifOrientation(photo.bytes.subarray(at + 10, at + 36))).toBe(6);
    expect(kept(jpeg()).bytes.includes('Exif')).toBe(false);
    // What is kept is whole: stripped again it stays as it is, and it has both scans.
    expect(kept(photo.bytes).bytes.equals(photo.bytes)).toBe(true);
    expect(photo.bytes.includes(Buffer.from([1, 2, 0xff, 0x00, 3, 0xff, 0xd0, 4, 0xff, 0xda]))).toBe(true);
    expect(photo.bytes.subarray(-4)).toEqual(Buffer.from([9, 9, 0xff, 0xd9]));
  });

  it('keeps the picture of a PNG and nothing else', () => {
    const clean = png();
    const dirty = png([
      chunk('tEXt', Buffer.from('Author\0Ana')),
      chunk('eXIf', tiff(8, false)),
      chunk('gAMA', Buffer.from([0, 0, 0xb1, 0x8f])),
      chunk('tIME', Buffer.alloc(7)),
    ]);
    const photo = kept(Buffer.concat([dirty, Buffer.from('behind')]));
    expect(photo).toMatchObject({ type: 'image/png', width: 2, height: 1, orientation: 8 });
    expect(photo.bytes.equals(png([chunk('gAMA', Buffer.from([0, 0, 0xb1, 0x8f]))]))).toBe(true);
    expect(kept(clean).bytes.equals(clean)).toBe(true);
  });

  it.each([
    ['nothing', Buffer.alloc(0), 'Nothing was sent'],
    ['a page that says it is a picture', Buffer.from('<svg onload="x()">'), 'neither a JPEG nor a PNG'],
    ['a JPEG cut short', jpeg().subarray(0, -1), 'cut short'],
    ['a JPEG cut short in a segment', jpeg().subarray(0, 60), 'cut short'],
    ['a PNG cut short', png().subarray(0, -5), 'cut short'],
    ['a PNG with a bit turned', Buffer.from(png().map((byte, i) => (i === 45 ? byte ^ 1 : byte))), 'damaged'],
    ['a picture that would fill the memory', png([], [20_000, 20_000]), '20000 × 20000 pixels'],
    ['a picture of nothing', png([], [0, 5]), 'damaged'],
    ['a PNG that needs what we do not know', png([chunk('SECR', Buffer.alloc(4))]), 'damaged'],
  ])('refuses %s with words', (_what, bytes, words) => {
    expect(refusal(bytes)).toContain(words);
  });

  it('takes an orientation that cannot be for none', () => {
    const exif = (block: Buffer) => segment(0xe1, Buffer.concat([Buffer.from('Exif\0\0', 'latin1'), block]));
    for (const block of [tiff(9, true), tiff(0, false), tiff(6, true).subarray(0, 12), Buffer.from('II')])
      expect(kept(jpeg([exif(block)])).orientation).toBe(1);
  });
});

describe('keeping', () => {
  it('writes a file whole under its digest, and says when it is gone or altered', () => {
    const folder = scratchFolder();
    const sha256 = keepAttachment(folder, Buffer.from('a picture'));
    expect(sha256).toBe(sha256OfBytes(Buffer.from('a picture')));
    expect(keepAttachment(folder, Buffer.from('a picture'))).toBe(sha256);
    expect(readdirSync(attachmentsFolder(folder))).toEqual([sha256]);
    expect(readAttachment(folder, sha256)?.toString()).toBe('a picture');
    writeFileSync(join(attachmentsFolder(folder), sha256), 'another picture');
    expect(() => readAttachment(folder, sha256)).toThrow('is not what it was when it was kept');
    expect(() => readAttachment(folder, '../record.sqlite')).toThrow('names no attachment');
    expect(readAttachment(folder, '0'.repeat(64))).toBeNull();
  });

  it('takes them in over HTTP by what is in them, and gives them back as pictures', async () => {
    const { url } = await serveFake();
    const send = async (body: Buffer, type: string) => {
      const response = await fetch(`${url}/api/photos`, {
        method: 'POST',
        headers: { 'content-type': type },
        body: new Uint8Array(body),
      });
      return { status: response.status, body: await response.json() };
    };
    const dirty = png([chunk('tEXt', Buffer.from('Author\0Ana'))]);
    // Called a JPEG, it is a PNG all the same.
    const { status, body } = await send(dirty, 'image/jpeg');
    expect(status).toBe(200);
    expect(body).toEqual({
      sha256: sha256OfBytes(png()),
      bytes: png().length,
      type: 'image/png',
      width: 2,
      height: 1,
      orientation: 1,
    });
    const got = await fetch(`${url}/api/photos/${body.sha256}`);
    expect(got.headers.get('content-type')).toBe('image/png');
    expect(got.headers.get('x-content-type-options')).toBe('nosniff');
    expect(Buffer.from(await got.arrayBuffer()).equals(png())).toBe(true);
    expect(await send(Buffer.from('<script>'), 'image/png')).toMatchObject({
      status: 400,
      body: { because: [expect.stringContaining('neither a JPEG nor a PNG')] },
    });
    const large = await send(Buffer.alloc(8 * 1024 * 1024 + 1), 'image/png');
    expect(large).toMatchObject({
      status: 413,
      body: { because: [expect.stringContaining('at most 8 MiB')] },
    });
    const form = await send(png(), 'multipart/form-data; boundary=x');
    expect(form).toMatchObject({ status: 415, body: { because: [expect.stringContaining('image/jpeg')] } });
    const gone = await fetch(`${url}/api/photos/${'0'.repeat(64)}`);
    expect(gone.status).toBe(404);
    expect((await gone.json()).because[0]).toContain('is not in the data folder');
    expect((await fetch(`${url}/api/photos/..%2frecord.sqlite`)).status).toBe(400);
  });

  it('puts them into the export of the shift whose entries name them; altered or gone is found by the check', async () => {
    const folder = scratchFolder();
    const { runner, close } = await startLine(folder, { key: testKey(6) });
    const sha256 = keepAttachment(folder, png());
    const content: EntryContent = {
      kind: 'ledger',
      body: {
        id: 'photo-in-export',
        do: 'attachPhoto',
        by: { person: 'kim', role: 'operator' },
        at: '2026-05-04T06:00:00',
        book: 'lab',
        fact: { is: 'photoAttached', worksheet: 'W-1', sha256, caption: 'broken cake' },
      },
    };
    expect(attachmentsOf({ ...content, seq: 1, atMs: 0, wall: '', prev: '', hash: '' })).toEqual([sha256]);
    await (runner as PlantRunner).append(async () => content);
    await close();
    const made = async (name: string) => {
      const file = join(folder, name);
      expect(await main(['export', '--data', folder, '--shift', '1', '--out', file])).toBe(0);
      return file;
    };
    const whole = await made('whole.zip');
    expect(await verifyFile(whole)).toMatchObject({ result: 'not sealed', findings: [] });
    expect(readFileSync(whole).includes(Buffer.from(`attachments/${sha256}`))).toBe(true);
    expect(await verifyRecord(folder)).toMatchObject({ result: 'intact', findings: [] });
    writeFileSync(join(attachmentsFolder(folder), sha256), 'another picture');
    expect(await verifyRecord(folder)).toMatchObject({
      result: 'altered',
      findings: [expect.objectContaining({ kind: 'attachment altered', file: `attachments/${sha256}` })],
    });
    rmSync(join(attachmentsFolder(folder), sha256));
    expect(await verifyRecord(folder)).toMatchObject({
      result: 'altered',
      findings: [expect.objectContaining({ kind: 'file absent' })],
    });
    expect(await verifyFile(await made('gone.zip'))).toMatchObject({
      result: 'altered',
      findings: [expect.objectContaining({ kind: 'file absent', file: `attachments/${sha256}` })],
    });
  });

  it('refuses to attach a photograph that was never sent', async () => {
    const { runner, store } = await startLine(scratchFolder());
    const answer = await (runner as PlantRunner).askBook({
      id: 'no-such-photo',
      book: 'lab',
      by: { person: 'kim', role: 'quality officer' },
      command: { do: 'attachPhoto', worksheet: 'W-260504-1', sha256: '1'.repeat(64), caption: '' },
    });
    expect(answer.ok).toBe(false);
    expect(await store.read({ after: 0, limit: 9, kind: 'ledger' })).toEqual([]);
  });
});
