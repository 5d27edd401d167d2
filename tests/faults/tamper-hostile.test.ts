/** Exports made to do harm: bombs, claims of gigabytes, names that climb, JSON beyond reason. None may throw, hang or swell. */
import { deflateRawSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import type { SmallFile } from '../../machines/record/export-layout.ts';
import { DEFLATED, type ZipFile } from '../../machines/record/zip.types.ts';
import { descriptor, directoryOf, localHeader } from '../../machines/record/zip-write.ts';
import {
  exportOf,
  filesOf,
  foundIn,
  testKey,
  tinyParts,
  verdictOf,
  zipOf,
} from '../record/support/made-export.ts';

const PLANT = testKey(1);
const honest = () => filesOf(tinyParts(PLANT));
const put = (name: string, text: string): SmallFile => ({ name, bytes: Buffer.from(text) });
const withFile = (name: string, text: string) =>
  zipOf(honest().map((file) => (file.name === name ? put(name, text) : file)));
const withLine = (line: string) => {
  const parts = tinyParts(PLANT);
  parts.lines[3] = line;
  return exportOf(parts);
};
const said = async (zip: Uint8Array) => foundIn(await verdictOf(zip));

/** A zip whose directory and headers agree on whatever is claimed. */
const claiming = (files: readonly { name: string; data: Buffer; claim: Partial<ZipFile> }[]): Buffer => {
  const pieces: Uint8Array[] = [];
  const done: ZipFile[] = [];
  let offset = 0;
  for (const { name, data, claim } of files) {
    const file = {
      name,
      method: DEFLATED,
      crc: 0,
      packedBytes: data.length,
      bytes: data.length,
      offset,
      ...claim,
    } as ZipFile;
    const all = [localHeader(name, file.method), data, descriptor(file)];
    pieces.push(...all);
    offset += all.reduce((sum, { length }) => sum + length, 0);
    done.push(file);
  }
  return Buffer.concat([...pieces, directoryOf(done, offset)]);
};

describe('hostile zips', () => {
  it('a bomb is turned away before it is unpacked', async () => {
    const data = deflateRawSync(Buffer.alloc(64 * 1024 * 1024));
    const zip = claiming([{ name: 'entries.ndjson', data, claim: { bytes: 64 * 1024 * 1024 } }]);
    expect(zip.length).toBeLessThan(100_000);
    expect(await said(zip)).toEqual(['unreadable: too large']);
  });

  it('a bomb that claims to be small is stopped where its claim ends', async () => {
    const files = honest().filter(({ name }) => name !== 'manifest.json');
    const data = deflateRawSync(Buffer.alloc(64 * 1024 * 1024));
    const rest = files.map(({ name, bytes }) => ({
      name,
      data: deflateRawSync(bytes),
      claim: { bytes: bytes.length },
    }));
    const zip = claiming([...rest, { name: 'manifest.json', data, claim: { bytes: 500 } }]);
    expect(await said(zip)).toEqual(['unreadable: damaged']);
  });

  it.each([
    ['5 GB, as far as the field reaches', 0xffff_ffff],
    ['just under 4 GiB', 0xffff_fff0],
  ])('a claim of %s in a header', async (_name, bytes) => {
    const zip = claiming([
      { name: 'manifest.json', data: deflateRawSync(Buffer.from('{}')), claim: { bytes } },
    ]);
    expect(await said(zip)).toEqual(['unreadable: too large']);
  });

  it('packed sizes and places beyond the file', async () => {
    const data = deflateRawSync(Buffer.from('{}'));
    for (const claim of [{ packedBytes: 1_000_000 }, { offset: 1_000_000 }, { packedBytes: 0 }])
      expect(await said(claiming([{ name: 'manifest.json', data, claim }]))).toEqual(['unreadable: damaged']);
  });

  it.each([
    '../../etc/passwd',
    '/etc/passwd',
    'files/../../up',
    'C:\\boot.ini',
    'a\\b',
    'a//b',
    '.hidden',
    'files/',
    'a\u0000b',
    '..',
    '',
  ])('a file called %j', async (name) => {
    const zip = await zipOf([put(name, 'x'), ...honest()]);
    expect(await said(zip)).toEqual(['unreadable: damaged']);
  });

  it('the same file twice, and bytes between, before and behind the files', async () => {
    const files = honest();
    expect(await said(await zipOf([...files, put('README.txt', 'another')]))).toEqual([
      'unreadable: damaged',
    ]);
    const zip = await zipOf(files);
    const inside = Buffer.concat([zip.subarray(0, 200), Buffer.from('hidden'), zip.subarray(200)]);
    for (const more of [
      Buffer.concat([Buffer.from('#!/bin/sh\n'), zip]),
      Buffer.concat([zip, Buffer.from('x')]),
      inside,
    ])
      expect((await said(more))[0]).toMatch(/^unreadable/);
  });

  it('every length of a file cut short', async () => {
    const zip = await exportOf(tinyParts(PLANT));
    for (let length = 0; length < zip.length; length += 97)
      expect((await said(zip.subarray(0, length)))[0]).toMatch(/^unreadable/);
  }, 20_000);
});

const DEEP = '['.repeat(200_000) + ']'.repeat(200_000);

describe('hostile JSON', () => {
  it.each(['manifest.json', 'scenario.json', 'seal.json'])(
    '%s nested, polluted, huge or no object',
    async (name) => {
      const poison = '{"__proto__":{"polluted":true},"constructor":{"prototype":{"polluted":true}}}';
      for (const text of [
        DEEP,
        poison,
        '1e999',
        '[]',
        'null',
        '"text"',
        '{',
        `{"a":${'9'.repeat(100_000)}}`,
        '\ufeff{}',
      ])
        expect((await said(await withFile(name, text)))[0]).toMatch(/^unreadable/);
      expect(({} as { polluted?: boolean }).polluted).toBeUndefined();
    },
    20_000,
  );

  it('entries nested, polluted, huge, without end', async () => {
    const tail = `,"hash":"${'0'.repeat(64)}","kind":"note","prev":"${'0'.repeat(64)}","seq":4,"wall":"2026-05-12T06:00:00.000Z"}`;
    const bodies = [DEEP, '{"__proto__":{"attachments":["x"]}}', '1e999', '{"attachments":{"length":1e9}}'];
    for (const body of bodies)
      expect(await said(await withLine(`{"atMs":1,"body":${body}${tail}`))).toContain('entry altered');
    expect(await said(await withLine('x'.repeat(5_000_000)))).toEqual(['unreadable: too large']);
    expect(await said(await withLine(''))).toContain('entry altered');
    expect(await said(await withLine('\u0000'.repeat(1000)))).toContain('entry altered');
  }, 20_000);

  it('a scenario with a seal of wrong types is told, not thrown', async () => {
    const seal = Buffer.from(honest().find(({ name }) => name === 'seal.json')?.bytes ?? []).toString();
    const changes: [string, string][] = [
      ['"seq": 9', '"seq": "9"'],
      ['"seq": 9', '"seq": 1e300'],
      ['"chunks": [', '"chunks": [null,'],
      ['"publicKey": "', '"publicKey": "=='],
      ['"by": {', '"by": 7, "x": {'],
      ['"signature": "', '"signature": null, "y": "'],
      ['"body": {', '"body": null, "z": {'],
    ];
    for (const [from, to] of changes) {
      expect(seal).toContain(from);
      const { result } = await verdictOf(await withFile('seal.json', seal.replace(from, to)));
      expect(['altered', 'unreadable']).toContain(result);
    }
  }, 20_000);
});
