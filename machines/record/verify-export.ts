/**
 * Checks a whole export: entries, seal, keys, files, attachments. Streams the entries, so memory stays constant;
 * runs in the server and in a browser, with the crypto of the place handed in.
 */

import type { Scenario } from '../scenario/shift.schema.ts';
import { attachmentsOf } from './attachments.ts';
import { toHex, utf8 } from './bytes.ts';
import { canonical } from './canonical.ts';
import type { RecordCrypto } from './crypto.types.ts';
import { type Entry, GENESIS, type OpeningBody } from './entry.ts';
import {
  EXPORT_FILES,
  ExportError,
  type ExportFile,
  type ExportReader,
  type ExportVerdict,
  type Finding,
  type FindingKind,
  type SealFile,
  type VerifyOptions,
} from './export.types.ts';
import { manifestOf, prettyJson, smallFiles } from './export-layout.ts';
import { type LinesChecked, lineCheck } from './line-check.ts';
import { lineSplitter } from './line-splitter.ts';
import { sealFindings } from './verify-seal.ts';

const finding = (kind: FindingKind, file: string, detail: string): Finding => ({
  kind,
  seq: null,
  file,
  detail,
});

type EntriesSeen = {
  readonly lines: LinesChecked;
  readonly opening: OpeningBody | null;
  /** Digests of attachments the entries name. */
  readonly attachments: ReadonlySet<string>;
};

const parsed = (reader: ExportReader, line: Uint8Array): Entry | null => {
  try {
    return JSON.parse(reader.decode(line)) as Entry;
  } catch {
    return null;
  }
};

const checkEntries = async (
  reader: ExportReader,
  sealFile: SealFile | null,
  crypto: RecordCrypto,
  onProgress: (share: number) => void,
): Promise<EntriesSeen> => {
  const { manifest } = reader;
  const first = manifest.shift.opening;
  const attachments = new Set<string>();
  const check = lineCheck(first, first === 1 ? GENESIS : null, crypto, (line) => {
    for (const digest of attachmentsOf(parsed(reader, line))) attachments.add(digest);
  });
  const splitter = lineSplitter();
  const size = reader.files.find(({ name }) => name === EXPORT_FILES.entries)?.bytes ?? 0;
  let opening: Entry | null = null;
  let isFirst = true;
  let bytes = 0;
  const onLine = (line: Uint8Array): void => {
    if (isFirst) opening = parsed(reader, line);
    isFirst = false;
    check.take(line);
  };
  try {
    for await (const piece of reader.bytesOf(EXPORT_FILES.entries)) {
      splitter.add(piece, onLine);
      bytes += piece.length;
      onProgress(size === 0 ? 1 : bytes / size);
    }
  } catch (error) {
    if (error instanceof RangeError) throw new ExportError('too large', `entries.ndjson: ${error.message}`);
    throw error;
  }
  if (splitter.left() > 0)
    throw new ExportError('damaged', 'entries.ndjson does not end with a whole line: it was cut short');
  const lines = check.finish(sealFile?.seal.body.last ?? manifest.entries.last);
  const found = opening as Entry | null;
  return { lines, opening: found?.kind === 'opening' ? found.body : null, attachments };
};

const same = (a: Uint8Array, b: Uint8Array): boolean =>
  a.length === b.length && a.every((byte, i) => byte === b[i]);

const ATTACHMENT = /^attachments\/([0-9a-f]{64})$/;

/** Digest of a file of any size, read in pieces. */
const digestOfFile = async (reader: ExportReader, name: string, crypto: RecordCrypto): Promise<string> => {
  const digest = crypto.sha256Stream();
  for await (const piece of reader.bytesOf(name)) digest.update(piece);
  return toHex(digest.digest());
};

/** Files against what they follow from; also gives what the manifest ought to list. */
const checkFiles = async (
  reader: ExportReader,
  scenario: Scenario,
  sealFile: SealFile | null,
  attachments: ReadonlySet<string>,
  crypto: RecordCrypto,
): Promise<{ found: Finding[]; files: ExportFile[] }> => {
  const found: Finding[] = [];
  const files: ExportFile[] = [];
  const here = new Map(reader.files.map(({ name, bytes }) => [name, bytes]));
  here.delete(EXPORT_FILES.manifest);
  here.delete(EXPORT_FILES.entries);
  for (const { name, bytes } of smallFiles(scenario, sealFile)) {
    if (!here.delete(name)) found.push(finding('file absent', name, `file ${name} is missing`));
    else if (!same(await reader.smallFile(name), bytes))
      found.push(finding('file altered', name, `file ${name} is not what the record makes it`));
    files.push({ name, bytes: bytes.length, sha256: toHex(crypto.sha256(bytes)) });
  }
  for (const digest of attachments)
    if (!here.has(`${EXPORT_FILES.attachments}${digest}`))
      found.push(
        finding(
          'file absent',
          `${EXPORT_FILES.attachments}${digest}`,
          'an attachment that an entry names is missing',
        ),
      );
  for (const { name } of reader.manifest.files)
    if (!reader.files.some((file) => file.name === name) && !found.some((one) => one.file === name))
      found.push(finding('file absent', name, `file ${name} is listed in manifest.json but absent`));
  for (const [name, bytes] of here) {
    const digest = ATTACHMENT.exec(name)?.[1];
    if (digest === undefined || !attachments.has(digest)) {
      found.push(
        finding('unknown file', name, `file ${name} belongs to no entry and has no place in an export`),
      );
      continue;
    }
    const sha256 = await digestOfFile(reader, name, crypto);
    files.push({ name, bytes, sha256 });
    if (sha256 !== digest)
      found.push(
        finding(
          'attachment altered',
          name,
          `attachment ${digest.slice(0, 16)}… has another content than its entry named`,
        ),
      );
  }
  return { found, files };
};

/** First line in which two texts differ. */
const differingLine = (a: string, b: string): string => {
  const [left, right] = [a.split('\n'), b.split('\n')];
  const at = left.findIndex((line, i) => line !== right[i]);
  return (left[at] ?? right[left.length] ?? '').trim().slice(0, 120);
};

const verify = async (
  reader: ExportReader,
  crypto: RecordCrypto,
  options: VerifyOptions,
): Promise<ExportVerdict> => {
  const { manifest } = reader;
  const openingSeq = manifest.shift.opening;
  const scenario = await reader.scenario();
  const sealFile = await reader.sealFile();
  const { lines, opening, attachments } = await checkEntries(
    reader,
    sealFile,
    crypto,
    options.onProgress ?? (() => undefined),
  );
  const found: Finding[] = [...lines.findings];
  if (opening === null)
    found.push({
      kind: 'entry missing',
      seq: openingSeq,
      file: EXPORT_FILES.entries,
      detail: `the first entry is not the opening of a shift`,
    });
  else if (toHex(crypto.sha256(utf8(canonical(scenario)))) !== opening.scenarioDigest)
    found.push(
      finding('file altered', EXPORT_FILES.scenario, 'scenario.json is not the one the opening entry names'),
    );
  if (sealFile !== null)
    found.push(...(await sealFindings(sealFile, openingSeq, lines, options.key, crypto)));
  else if (options.key !== undefined || manifest.seal !== null)
    found.push(finding('not sealed', EXPORT_FILES.seal, 'there is no seal, and one is expected'));
  const { found: inFiles, files } = await checkFiles(reader, scenario, sealFile, attachments, crypto);
  found.push(...inFiles);
  if (found.length === 0 && opening !== null) {
    const { first, last, count, head, bytes } = lines;
    const entries = { first, last, count, head, bytes };
    const ought = prettyJson(manifestOf({ opening, openingSeq, scenario, entries, sealFile, files }));
    if (ought !== reader.manifestText)
      found.push(
        finding(
          'manifest mismatch',
          EXPORT_FILES.manifest,
          `manifest.json does not fit what is here, first at: ${differingLine(reader.manifestText, ought)}`,
        ),
      );
  }
  if (found.length > 0) return { result: 'altered', findings: found };
  const seal =
    sealFile === null
      ? null
      : {
          seq: sealFile.seal.seq,
          root: sealFile.seal.body.root,
          key: sealFile.seal.body.key,
          countersigned: sealFile.countersignatures.map(({ body }) => body.by.person),
        };
  return { result: 'intact', manifest, entries: lines.count, bytes: lines.bytes, seal };
};

/**
 * Never rejects for what an export holds: a file that cannot be read is a verdict too. Rejects only when the
 * source itself cannot be read.
 */
export const verifyExport = async (
  reader: ExportReader,
  crypto: RecordCrypto,
  options: VerifyOptions = {},
): Promise<ExportVerdict> => {
  try {
    return await verify(reader, crypto, options);
  } catch (error) {
    if (error instanceof ExportError)
      return { result: 'unreadable', code: error.code, detail: error.message };
    // Nesting deep enough to overflow, numbers and texts RFC 8785 has no form for.
    if (error instanceof RangeError || error instanceof TypeError || error instanceof Error)
      return {
        result: 'unreadable',
        code: 'damaged',
        detail: `it holds what no record can: ${error.message}`,
      };
    throw error;
  }
};
