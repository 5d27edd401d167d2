/** One shift as an export: its files in order, made from the store while they are written. */
import { createHash } from 'node:crypto';
import { attachmentsOf } from '../../machines/record/attachments.ts';
import { canonical } from '../../machines/record/canonical.ts';
import type { Entry } from '../../machines/record/entry.ts';
import { EXPORT_FILES, type ExportFile, type SealFile } from '../../machines/record/export.types.ts';
import { manifestOf, prettyJson, smallFiles } from '../../machines/record/export-layout.ts';
import { lineOf } from '../../machines/record/line-text.ts';
import type { Scenario } from '../../machines/scenario/shift.schema.ts';
import { sha256 } from '../digest.ts';
import { readAttachment } from '../ledger/attachments.ts';
import { PlainError } from '../plain-error.ts';
import { lostKeysOf, rotationsAround } from '../seal/lost-key.ts';
import { countersignaturesOf, rotationsOf } from '../seal/seals-of.ts';
import { type Span, spansOf } from '../seal/spans.ts';
import type { Store } from '../store/store.ts';
import { type FileToZip, zipStream } from './zip-stream.ts';

/** Lines put together into one piece before they are packed, bytes. */
const PIECE_BYTES = 256 * 1024;

export type Exported = { readonly entries: number; readonly bytes: number };
export type OnShare = (share: number) => void;

const openingOf = async (store: Store, span: Span): Promise<Extract<Entry, { kind: 'opening' }>> => {
  // The opening of an archived shift stays in the record; what follows it does not.
  if (span.archivedIn !== null)
    throw new PlainError(`Shift ${span.ordinal} was moved to ${span.archivedIn}: that file is its export.`);
  const [opening] = await store.read({ after: span.shift - 1, limit: 1 });
  if (opening?.kind !== 'opening' || opening.seq !== span.shift)
    throw new PlainError(`There is no shift that entry ${span.shift} opens.`);
  return opening;
};

const scenarioOf = async (store: Store, digest: string): Promise<Scenario> => {
  const scenario = (await store.loadScenario(digest)) as Scenario | null;
  if (scenario === null)
    throw new PlainError(`The record in ${store.where} does not hold the files this shift ran with.`);
  if (sha256(canonical(scenario)) !== digest)
    throw new PlainError(
      `The files this shift ran with were altered in ${store.where}: they do not match the digest its opening names.`,
    );
  return scenario;
};

const sealFileOf = async (store: Store, { sealEntry }: Span): Promise<SealFile | null> => {
  if (sealEntry === null) return null;
  const countersignatures = (await countersignaturesOf(store)).filter(
    ({ body }) => body.seal === sealEntry.seq,
  );
  const rotations = rotationsAround(await rotationsOf(store), await lostKeysOf(store), sealEntry.seq);
  return { seal: sealEntry, countersignatures, rotations };
};

type Count = { first: number; last: number; count: number; head: string; bytes: number };

/** Only these kinds name files, and they are few. */
const LONGEST_END = 200;
const MAY_NAME = /,"kind":"(?:note|ledger)","prev":"[0-9a-f]{64}",/;

/** Lines of the entries, in pieces; counts what goes by. */
async function* entryPieces(
  store: Store,
  span: Span,
  seen: Count,
  attachments: Set<string>,
  onShare: OnShare,
): AsyncGenerator<Uint8Array> {
  let lines: string[] = [];
  let letters = 0;
  const piece = (): Uint8Array => {
    const bytes = Buffer.from(lines.join(''));
    seen.bytes += bytes.length;
    lines = [];
    letters = 0;
    return bytes;
  };
  for await (const { seq, hash, json } of store.texts(span.shift, span.covered)) {
    const line = `${lineOf(json, hash)}\n`;
    lines.push(line);
    letters += line.length;
    if (MAY_NAME.test(json.slice(-LONGEST_END)))
      for (const digest of attachmentsOf(JSON.parse(json) as Entry)) attachments.add(digest);
    seen.count += 1;
    seen.last = seq;
    seen.head = hash;
    if (letters < PIECE_BYTES) continue;
    yield piece();
    onShare(Math.min(1, (seq - span.shift) / Math.max(1, span.covered - span.shift)));
  }
  yield piece();
  if (seen.last !== span.covered)
    throw new PlainError(
      `The record in ${store.where} ends at entry ${seen.last} instead of ${span.covered}.`,
    );
}

async function* filesOf(store: Store, span: Span, onShare: OnShare): AsyncGenerator<FileToZip> {
  const opening = await openingOf(store, span);
  const scenario = await scenarioOf(store, opening.body.scenarioDigest);
  const sealFile = await sealFileOf(store, span);
  const files: ExportFile[] = [];
  for (const { name, bytes } of smallFiles(scenario, sealFile)) {
    files.push({ name, bytes: bytes.length, sha256: createHash('sha256').update(bytes).digest('hex') });
    yield { name, content: [bytes] };
  }
  const attachments = new Set<string>();
  const seen: Count = { first: span.shift, last: 0, count: 0, head: '', bytes: 0 };
  yield { name: EXPORT_FILES.entries, content: entryPieces(store, span, seen, attachments, onShare) };
  for (const digest of [...attachments].sort()) {
    // One that is gone leaves a gap, which whoever checks the export is told of.
    const content = readAttachment(store.where, digest);
    if (content === null) continue;
    const name = `${EXPORT_FILES.attachments}${digest}`;
    files.push({ name, bytes: content.length, sha256: digest });
    yield { name, content: [content] };
  }
  const manifest = manifestOf({
    opening: opening.body,
    openingSeq: span.shift,
    scenario,
    entries: seen,
    sealFile,
    files,
  });
  yield { name: EXPORT_FILES.manifest, content: [Buffer.from(prettyJson(manifest))] };
}

/** The bytes of a shift's export. Throws PlainError when the shift cannot be exported. */
export const exportShift = (
  store: Store,
  span: Span,
  onShare: OnShare = () => undefined,
): AsyncGenerator<Uint8Array> => zipStream(filesOf(store, span, onShare));

/** The shift a person means: its number in the order of opening (1, 2, 3 …), or `#` and the seq of its opening. */
export const spanNamed = async (store: Store, name: string): Promise<Span> => {
  const spans = await spansOf(store);
  const asked = /^(#?)(\d{1,15})$/.exec(name);
  if (asked === null)
    throw new PlainError(
      `"${name}" names no shift: give its number, 1 for the first, or # and the entry that opens it.`,
    );
  const number = Number(asked[2]);
  const span = spans.find((one) => (asked[1] === '#' ? one.shift : one.ordinal) === number);
  if (span !== undefined) return span;
  const count = spans.length;
  throw new PlainError(
    count === 0
      ? `The record in ${store.where} holds no shift yet.`
      : `The record in ${store.where} holds ${count === 1 ? 'one shift' : `shifts 1 to ${count}`}; there is no ${name}.`,
  );
};
