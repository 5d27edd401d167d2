/** Exports made by hand for tests: every part can be changed before it is put together, as a forger would. */
import { createPrivateKey, createPublicKey, hash, type KeyObject, sign } from 'node:crypto';
import { toHex } from '../../../machines/record/bytes.ts';
import { canonical } from '../../../machines/record/canonical.ts';
import { CHAIN_START, type ChainEnd, type Sealed, sealEntry } from '../../../machines/record/chain.ts';
import { chunksOf } from '../../../machines/record/chunks.ts';
import type { PlantKey } from '../../../machines/record/crypto.types.ts';
import type { EntryContent, OpeningBody } from '../../../machines/record/entry.ts';
import type { ExportVerdict, SealFile, VerifyOptions } from '../../../machines/record/export.types.ts';
import { ExportError } from '../../../machines/record/export.types.ts';
import {
  manifestOf,
  prettyJson,
  type SmallFile,
  smallFiles,
} from '../../../machines/record/export-layout.ts';
import { lineOf } from '../../../machines/record/line-text.ts';
import { merkleRoot } from '../../../machines/record/merkle.ts';
import { openExport } from '../../../machines/record/open-export.ts';
import { countersign, signSeal } from '../../../machines/record/seal.ts';
import { verifyExport } from '../../../machines/record/verify-export.ts';
import type { Scenario } from '../../../machines/scenario/shift.schema.ts';
import { sha256 } from '../../../server/digest.ts';
import { zipStream } from '../../../server/export/zip-stream.ts';
import { NODE_CRYPTO, NODE_TOOLS, sourceOfBytes } from '../../../server/seal/node-crypto.ts';

/** PKCS #8 of an Ed25519 key (RFC 8410 §7) up to its 32 bytes. */
const PKCS8_HEAD = Buffer.from('302e020100300506032b657004220420', 'hex');

export const privateKeyOf = (seed: Uint8Array): KeyObject =>
  createPrivateKey({ key: Buffer.concat([PKCS8_HEAD, seed]), format: 'der', type: 'pkcs8' });

/** A key made from one number, so that tests are the same every time. */
export const testKey = (n: number): PlantKey => {
  const key = privateKeyOf(hash('sha256', `test key ${n}`, 'buffer'));
  const spki = createPublicKey(key).export({ format: 'der', type: 'spki' });
  return {
    fingerprint: hash('sha256', spki),
    publicKey: spki.toString('base64'),
    sign: (text) => sign(null, Buffer.from(text), key).toString('base64'),
  };
};

/** Just enough of a scenario for an export; the line is not run over it. */
export const TINY_SCENARIO = {
  shift: { id: 'tiny', name: 'Tiny', date: '2026-05-12', startsAt: '06:00' },
  plant: { name: 'Yard' },
  mixes: [{ id: 'mix-a' }],
  people: [{ id: 'kim', role: 'operator' }],
} as unknown as Scenario;

export const tinyOpening = (scenario: Scenario = TINY_SCENARIO): OpeningBody => ({
  format: 1,
  program: 'patchyard 0.1.0',
  physics: 1,
  engine: 'node',
  scenario: scenario.shift.id,
  scenarioDigest: sha256(canonical(scenario)),
  seed: 7,
});

const WHO = { person: 'kim', role: 'operator' } as const;

export const tinyContents = (seconds = 6): EntryContent[] => [
  { kind: 'opening', body: tinyOpening() },
  ...Array.from({ length: seconds }, (_, i): EntryContent => {
    const to = (i + 1) * 10;
    return { kind: 'readings', body: { from: to - 9, to, rows: [[to - 5, { hopperKg: i * 2 }]] } };
  }),
  { kind: 'fact', body: { tick: seconds * 10, fact: { is: 'shiftEnded', by: WHO } } },
];

export const chainOf = (contents: readonly EntryContent[], start: ChainEnd = CHAIN_START): Sealed[] => {
  let end = start;
  return contents.map((content, i) => {
    const wall = `2026-05-12T06:00:${String(i % 60).padStart(2, '0')}.000Z`;
    const sealed = sealEntry(end, content, i * 1000, wall, sha256);
    end = { seq: sealed.entry.seq, hash: sealed.entry.hash };
    return sealed;
  });
};

const readings = (chain: readonly Sealed[]) =>
  chain
    .filter(({ entry }) => entry.kind === 'readings')
    .map(({ entry, text }) => ({ seq: entry.seq, line: Buffer.from(lineOf(text, entry.hash)) }));

const endOf = (chain: readonly Sealed[]): ChainEnd => {
  const last = chain.at(-1)?.entry;
  return last === undefined ? CHAIN_START : { seq: last.seq, hash: last.hash };
};

/** The seal entry over a chain, by that key. */
export const sealOver = (chain: readonly Sealed[], key: PlantKey): SealFile['seal'] => {
  const first = chain[0]?.entry.seq ?? 0;
  const end = endOf(chain);
  const root = merkleRoot(
    chain.map(({ text }) => Buffer.from(text)),
    NODE_CRYPTO.sha256,
  );
  const body = signSeal(
    {
      shift: first,
      first,
      last: end.seq,
      count: chain.length,
      head: end.hash,
      root: toHex(root),
      chunks: chunksOf(readings(chain), NODE_CRYPTO),
      prevSeal: null,
      closed: 'in order',
      by: WHO,
      remark: '',
    },
    key,
  );
  return chainOf([{ kind: 'seal', body }], end)[0]?.entry as SealFile['seal'];
};

export type Parts = {
  scenario: Scenario;
  opening: OpeningBody;
  openingSeq: number;
  chain: Sealed[];
  /** Lines as they will stand in entries.ndjson. */
  lines: string[];
  sealFile: SealFile | null;
  attachments: SmallFile[];
};

/** Parts of a whole, sealed export. */
export const tinyParts = (key: PlantKey | null = testKey(1), contents = tinyContents()): Parts => {
  const chain = chainOf(contents);
  const [opening] = contents;
  if (opening?.kind !== 'opening') throw new Error('the first entry is the opening');
  return {
    scenario: TINY_SCENARIO,
    opening: opening.body,
    openingSeq: 1,
    chain,
    lines: chain.map(({ entry, text }) => lineOf(text, entry.hash)),
    sealFile: key === null ? null : { seal: sealOver(chain, key), countersignatures: [], rotations: [] },
    attachments: [],
  };
};

export const withCountersignature = (parts: Parts, person: string, key: PlantKey): Parts => {
  if (parts.sealFile === null) throw new Error('not sealed');
  const { seal } = parts.sealFile;
  const body = countersign(
    { seal: seal.seq, root: seal.body.root, by: { person, role: 'supervisor' }, remark: 'looked through' },
    key,
  );
  const [made] = chainOf([{ kind: 'countersignature', body }], { seq: seal.seq, hash: seal.hash });
  const countersignatures = [made?.entry as SealFile['countersignatures'][number]];
  return { ...parts, sealFile: { ...parts.sealFile, countersignatures } };
};

/** Files of the export in order; the manifest is made from them, as an honest exporter makes it. */
export const filesOf = (parts: Parts): SmallFile[] => {
  const text = parts.lines.map((line) => `${line}\n`).join('');
  const last = parts.chain.at(-1)?.entry;
  const small = [...smallFiles(parts.scenario, parts.sealFile), ...parts.attachments];
  const manifest = manifestOf({
    opening: parts.opening,
    openingSeq: parts.openingSeq,
    scenario: parts.scenario,
    entries: {
      first: parts.openingSeq,
      last: last?.seq ?? 0,
      count: parts.lines.length,
      head: last?.hash ?? '',
      bytes: Buffer.byteLength(text),
    },
    sealFile: parts.sealFile,
    files: small.map(({ name, bytes }) => ({ name, bytes: bytes.length, sha256: hash('sha256', bytes) })),
  });
  return [
    ...small,
    { name: 'entries.ndjson', bytes: Buffer.from(text) },
    { name: 'manifest.json', bytes: Buffer.from(prettyJson(manifest)) },
  ];
};

export const zipOf = async (files: readonly SmallFile[]): Promise<Buffer> => {
  const pieces: Uint8Array[] = [];
  async function* all() {
    for (const { name, bytes } of files) yield { name, content: [bytes] };
  }
  for await (const piece of zipStream(all())) pieces.push(piece);
  return Buffer.concat(pieces);
};

export const exportOf = (parts: Parts): Promise<Buffer> => zipOf(filesOf(parts));

/** What verify says of these bytes. */
export const verdictOf = async (bytes: Uint8Array, options: VerifyOptions = {}): Promise<ExportVerdict> => {
  try {
    return await verifyExport(await openExport(sourceOfBytes(bytes), NODE_TOOLS), NODE_CRYPTO, options);
  } catch (error) {
    if (!(error instanceof ExportError)) throw error;
    return { result: 'unreadable', code: error.code, detail: error.message };
  }
};

/** Kinds of finding, or the reason a file cannot be read. */
export const foundIn = (verdict: ExportVerdict): string[] =>
  verdict.result === 'altered'
    ? [...new Set(verdict.findings.map(({ kind }) => kind))]
    : [verdict.result === 'unreadable' ? `unreadable: ${verdict.code}` : verdict.result];
