/** One export of every kind of tampering, each with what verify must find. */

import { canonical } from '../../../machines/record/canonical.ts';
import type { FindingKind, VerifyOptions } from '../../../machines/record/export.types.ts';
import type { SmallFile } from '../../../machines/record/export-layout.ts';
import { lineOf } from '../../../machines/record/line-text.ts';
import { sha256 } from '../../../server/digest.ts';
import {
  chainOf,
  exportOf,
  filesOf,
  type Parts,
  sealOver,
  testKey,
  tinyContents,
  tinyParts,
  withCountersignature,
  zipOf,
} from './made-export.ts';

export type Tampered = {
  readonly name: string;
  readonly finds: FindingKind | `unreadable: ${string}` | 'intact';
  readonly options?: VerifyOptions;
  readonly make: () => Promise<Uint8Array>;
};

const PLANT = testKey(1);
const FORGER = testKey(2);
const PHOTO = Buffer.from('a photograph of the weigh hopper');

const changed = (parts: Parts, change: (parts: Parts) => void): Promise<Buffer> => {
  change(parts);
  return exportOf(parts);
};
const lines = (change: (all: string[]) => void) => () =>
  changed(tinyParts(PLANT), (parts) => change(parts.lines));
const files = (change: (all: SmallFile[]) => SmallFile[]) => async () =>
  zipOf(change(filesOf(tinyParts(PLANT))));
const edited = (name: string, edit: (text: string) => string) =>
  files((all) =>
    all.map((file) =>
      file.name === name ? { name, bytes: Buffer.from(edit(Buffer.from(file.bytes).toString())) } : file,
    ),
  );

/** A forger without the key: changes entry 4, and makes hash and chain fit again from there on. */
const rechained = (): Parts => {
  const parts = tinyParts(PLANT);
  const contents = parts.chain.map(
    ({ entry: { seq: _s, atMs: _a, wall: _w, prev: _p, hash: _h, ...rest } }) => rest,
  );
  const body = { from: 21, to: 30, rows: [[25, { hopperKg: 999 }]] } as const;
  contents[3] = { kind: 'readings', body };
  parts.chain = chainOf(contents as ReturnType<typeof tinyContents>);
  parts.lines = parts.chain.map(({ entry, text }) => lineOf(text, entry.hash));
  return parts;
};

const withPhoto = (): Parts => {
  const digest = sha256(PHOTO.toString());
  const note = { kind: 'note', body: { what: 'photo', detail: 'scale', attachments: [digest] } } as const;
  const contents = [...tinyContents().slice(0, -1), note, ...tinyContents().slice(-1)];
  const parts = tinyParts(PLANT, contents);
  parts.attachments = [{ name: `attachments/${digest}`, bytes: PHOTO }];
  return parts;
};

const sealEdited = (edit: (body: Record<string, unknown>) => void): Promise<Buffer> =>
  changed(tinyParts(PLANT), (parts) => {
    if (parts.sealFile === null) return;
    const body = { ...parts.sealFile.seal.body };
    edit(body as unknown as Record<string, unknown>);
    const { hash: _hash, ...rest } = { ...parts.sealFile.seal, body };
    const seal = { ...rest, hash: sha256(canonical(rest)) } as typeof parts.sealFile.seal;
    parts.sealFile = { ...parts.sealFile, seal };
  });

export const WHOLE: readonly Tampered[] = [
  { name: 'untouched', finds: 'intact', make: () => exportOf(tinyParts(PLANT)) },
  {
    name: 'untouched, the right key asked for',
    finds: 'intact',
    options: { key: PLANT.fingerprint },
    make: () => exportOf(tinyParts(PLANT)),
  },
  { name: 'untouched, with a photo', finds: 'intact', make: () => exportOf(withPhoto()) },
  {
    name: 'untouched, countersigned',
    finds: 'intact',
    make: () => exportOf(withCountersignature(tinyParts(PLANT), 'sam', PLANT)),
  },
];

export const TAMPERED: readonly Tampered[] = [
  {
    name: 'a figure in an entry altered',
    finds: 'entry altered',
    make: lines((all) => {
      all[3] = all[3]?.replace('"hopperKg":4', '"hopperKg":5') ?? '';
    }),
  },
  {
    name: 'an entry altered and its hash made to fit',
    finds: 'entry altered',
    make: lines((all) => {
      const text = (all[3] ?? '')
        .replace('"hopperKg":4', '"hopperKg":5')
        .replace(/,"hash":"[0-9a-f]{64}"/, '');
      all[3] = lineOf(text, sha256(text));
    }),
  },
  { name: 'an entry removed', finds: 'entry missing', make: lines((all) => void all.splice(3, 1)) },
  { name: 'three entries removed', finds: 'entry missing', make: lines((all) => void all.splice(2, 3)) },
  {
    name: 'an entry repeated',
    finds: 'entry inserted',
    make: lines((all) => void all.splice(4, 0, all[3] ?? '')),
  },
  {
    name: 'an entry of another record put in',
    finds: 'entry inserted',
    make: lines((all) => {
      const other = chainOf(tinyContents(3))[3];
      if (other !== undefined) all.splice(5, 0, lineOf(other.text, other.entry.hash));
    }),
  },
  {
    name: 'two entries swapped',
    finds: 'entries reordered',
    make: lines((all) => {
      const [a = '', b = ''] = [all[3], all[4]];
      [all[3], all[4]] = [b, a];
    }),
  },
  { name: 'the last entries cut off', finds: 'tail truncated', make: lines((all) => void all.splice(-2)) },
  {
    name: 'an entry put in behind the end',
    finds: 'entry inserted',
    make: () =>
      changed(tinyParts(PLANT), (parts) => {
        const last = parts.chain.at(-1)?.entry;
        const note = { kind: 'note', body: { what: 'more', detail: '' } } as const;
        const [made] = chainOf([note], { seq: last?.seq ?? 0, hash: last?.hash ?? '' });
        if (made !== undefined) parts.lines.push(lineOf(made.text, made.entry.hash));
      }),
  },
  {
    name: 'an entry altered and the whole chain made anew behind it',
    finds: 'seal mismatch',
    make: () => exportOf(rechained()),
  },
  {
    name: 'altered, made anew and sealed with another key, the right key asked for',
    finds: 'wrong key',
    options: { key: PLANT.fingerprint },
    make: () => {
      const parts = rechained();
      parts.sealFile = { seal: sealOver(parts.chain, FORGER), countersignatures: [], rotations: [] };
      return exportOf(parts);
    },
  },
  {
    name: 'the seal names the right key and is signed by another',
    finds: 'seal mismatch',
    make: () => {
      const parts = rechained();
      const key = { ...PLANT, sign: FORGER.sign };
      parts.sealFile = { seal: sealOver(parts.chain, key), countersignatures: [], rotations: [] };
      return exportOf(parts);
    },
  },
  {
    name: 'the root in the seal altered',
    finds: 'seal mismatch',
    make: () =>
      sealEdited((body) => {
        body.root = sha256('x');
      }),
  },
  {
    name: 'who closed the shift altered',
    finds: 'seal mismatch',
    make: () =>
      sealEdited((body) => {
        body.by = { person: 'lou', role: 'operator' };
      }),
  },
  {
    name: 'a chunk digest in the seal wrong, signed by the plant itself',
    finds: 'chunk mismatch',
    make: () =>
      changed(tinyParts(PLANT), (parts) => {
        const { seal } = parts.sealFile ?? {};
        if (seal === undefined) return;
        const chunks = seal.body.chunks.map((chunk) => ({ ...chunk, sha256: sha256('other readings') }));
        const { signature: _signature, ...rest } = { ...seal.body, chunks };
        const body = { ...rest, signature: PLANT.sign(canonical(rest)) };
        const [made] = chainOf([{ kind: 'seal', body }], { seq: body.last, hash: body.head });
        parts.sealFile = { seal: made?.entry as typeof seal, countersignatures: [], rotations: [] };
      }),
  },
  {
    name: 'a countersignature by the one who closed the shift',
    finds: 'countersignature mismatch',
    make: () => exportOf(withCountersignature(tinyParts(PLANT), 'kim', PLANT)),
  },
  {
    name: 'a countersignature with another key',
    finds: 'countersignature mismatch',
    make: () => exportOf(withCountersignature(tinyParts(PLANT), 'sam', FORGER)),
  },
  {
    name: 'the seal taken out, a key asked for',
    finds: 'not sealed',
    options: { key: PLANT.fingerprint },
    make: () => exportOf(tinyParts(null)),
  },
  {
    name: 'the photo altered',
    finds: 'attachment altered',
    make: () =>
      changed(withPhoto(), (parts) => {
        const [photo] = parts.attachments;
        if (photo !== undefined) parts.attachments = [{ ...photo, bytes: Buffer.from('another photograph') }];
      }),
  },
  {
    name: 'the photo taken out',
    finds: 'file absent',
    make: () =>
      changed(withPhoto(), (parts) => {
        parts.attachments = [];
      }),
  },
  {
    name: 'a file listed but absent',
    finds: 'file absent',
    make: files((all) => all.filter(({ name }) => name !== 'files/plant.json')),
  },
  {
    name: 'a file nobody knows',
    finds: 'unknown file',
    make: files((all) => [{ name: 'extra.txt', bytes: Buffer.from('hello') }, ...all]),
  },
  {
    name: 'the plant file altered',
    finds: 'file altered',
    make: edited('files/plant.json', (text) => text.replace('Yard', 'Yerd')),
  },
  {
    name: 'the scenario altered',
    finds: 'file altered',
    make: edited('scenario.json', (text) => text.replace('Yard', 'Yerd')),
  },
  {
    name: 'the README altered',
    finds: 'file altered',
    make: edited('README.txt', (text) => text.replace('SHIFT', 'SHAFT')),
  },
  {
    name: 'the signed text altered',
    finds: 'file altered',
    make: edited('seal-signed.txt', (text) => `${text} `),
  },
  {
    name: 'the date in the manifest altered',
    finds: 'manifest mismatch',
    make: edited('manifest.json', (text) => text.replace('"2026-05-12"', '"2026-05-13"')),
  },
  {
    name: 'a later format',
    finds: 'unreadable: format unknown',
    make: edited('manifest.json', (text) => text.replace('"format": 1', '"format": 2')),
  },
  {
    name: 'a line that is no JSON',
    finds: 'entry altered',
    make: lines((all) => {
      all[2] = 'hello';
    }),
  },
  {
    name: 'cut off in the middle',
    finds: 'unreadable: not an export',
    make: async () => (await exportOf(tinyParts(PLANT))).subarray(0, 900),
  },
  {
    name: 'no zip at all',
    finds: 'unreadable: not an export',
    make: async () => Buffer.from('hello, auditor '.repeat(10)),
  },
];
