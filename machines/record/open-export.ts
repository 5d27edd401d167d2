/** Opens an export for reading, in the server as in a browser. Nothing is believed here: verify-export.ts checks. */
import type { Scenario } from '../scenario/shift.schema.ts';
import type { Entry } from './entry.ts';
import {
  type ByteSource,
  EXPORT_FILES,
  EXPORT_FORMAT,
  ExportError,
  type ExportManifest,
  type ExportReader,
  type OpenTools,
  type SealFile,
} from './export.types.ts';
import { lineSplitter } from './line-splitter.ts';
import { manifestSchema } from './manifest.schema.ts';
import { unpackedBytes, zipFiles } from './zip-read.ts';

/** Everything but entries and attachments is read whole: larger ones are no honest export. */
const SMALL_FILE_BYTES = 16 * 1024 * 1024;

const damaged = (why: string): ExportError => new ExportError('damaged', why);

const parse = (name: string, text: string): unknown => {
  try {
    return JSON.parse(text);
  } catch {
    throw damaged(`file ${name} is not JSON`);
  }
};

const manifestOf = (text: string): ExportManifest => {
  const json = parse(EXPORT_FILES.manifest, text) as { format?: unknown; what?: unknown } | null;
  if (json?.what !== 'patchyard shift')
    throw new ExportError('not an export', 'its manifest.json is not that of a shift');
  if (json.format !== EXPORT_FORMAT)
    throw new ExportError(
      'format unknown',
      `it is of format ${JSON.stringify(json.format ?? null).slice(0, 20)} and this program reads ${EXPORT_FORMAT}: use the program version that wrote it, or a newer one`,
    );
  const parsed = manifestSchema.safeParse(json);
  if (parsed.success) return parsed.data;
  const [issue] = parsed.error.issues;
  throw damaged(`manifest.json: ${issue?.path.map(String).join('.') ?? ''} ${issue?.message ?? ''}`.trim());
};

/** Enough of a scenario to draw and replay it; its digest is held against the opening entry elsewhere. */
const scenarioOf = (json: unknown): Scenario => {
  const scenario = json as Partial<Scenario> | null;
  const { shift, plant, mixes, people } = scenario ?? {};
  const isSound =
    typeof shift?.id === 'string' &&
    typeof shift.name === 'string' &&
    typeof shift.date === 'string' &&
    typeof shift.startsAt === 'string' &&
    typeof plant === 'object' &&
    plant !== null &&
    Array.isArray(mixes) &&
    mixes.every((mix) => typeof mix?.id === 'string') &&
    Array.isArray(people);
  if (!isSound) throw damaged('scenario.json is not a shift with its plant, mixes and people');
  return scenario as Scenario;
};

const isEntry = (value: unknown, kind: string): boolean => {
  const entry = value as Partial<Entry> | null;
  return (
    entry?.kind === kind &&
    typeof entry.body === 'object' &&
    entry.body !== null &&
    Number.isSafeInteger(entry.seq) &&
    typeof entry.hash === 'string'
  );
};

const sealFileOf = (json: unknown): SealFile => {
  const file = json as Partial<SealFile> | null;
  const isSound =
    isEntry(file?.seal, 'seal') &&
    Array.isArray(file?.seal?.body.chunks) &&
    Array.isArray(file?.countersignatures) &&
    file.countersignatures.every((one) => isEntry(one, 'countersignature')) &&
    Array.isArray(file.rotations) &&
    file.rotations.every((one) => isEntry(one, 'keyRotated'));
  if (!isSound) throw damaged('seal.json is not a seal with its countersignatures and changes of key');
  return file as SealFile;
};

/** Throws ExportError when the source is no export this program can read. */
export const openExport = async (source: ByteSource, tools: OpenTools): Promise<ExportReader> => {
  const files = await zipFiles(source);
  const byName = new Map(files.map((file) => [file.name, file]));
  const bytesOf = (name: string): AsyncIterable<Uint8Array> => {
    const file = byName.get(name);
    if (file === undefined) throw damaged(`file ${name} is listed but absent`);
    return unpackedBytes(source, file, tools.inflate);
  };
  const smallFile = async (name: string): Promise<Uint8Array> => {
    const size = byName.get(name)?.bytes ?? 0;
    if (size > SMALL_FILE_BYTES) throw new ExportError('too large', `file ${name} claims ${size} bytes`);
    const whole = new Uint8Array(size);
    let at = 0;
    for await (const piece of bytesOf(name)) {
      whole.set(piece, at);
      at += piece.length;
    }
    return whole;
  };
  const textFile = async (name: string): Promise<string> => {
    const bytes = await smallFile(name);
    try {
      return tools.decode(bytes);
    } catch {
      throw damaged(`file ${name} is not UTF-8 text`);
    }
  };
  for (const name of [EXPORT_FILES.manifest, EXPORT_FILES.entries, EXPORT_FILES.scenario])
    if (!byName.has(name)) throw new ExportError('not an export', `it holds no ${name}`);
  const manifestText = await textFile(EXPORT_FILES.manifest);
  const manifest = manifestOf(manifestText);

  async function* entries(): AsyncGenerator<readonly Entry[]> {
    const splitter = lineSplitter();
    for await (const piece of bytesOf(EXPORT_FILES.entries)) {
      const batch: Entry[] = [];
      splitter.add(piece, (line) => {
        try {
          batch.push(JSON.parse(tools.decode(line)) as Entry);
        } catch {
          throw damaged('entries.ndjson holds a line that is not JSON');
        }
      });
      if (batch.length > 0) yield batch;
    }
  }

  return {
    manifest,
    manifestText,
    files: files.map(({ name, bytes }) => ({ name, bytes })),
    bytesOf,
    smallFile,
    decode: tools.decode,
    scenario: async () => scenarioOf(parse(EXPORT_FILES.scenario, await textFile(EXPORT_FILES.scenario))),
    sealFile: async () =>
      byName.has(EXPORT_FILES.seal)
        ? sealFileOf(parse(EXPORT_FILES.seal, await textFile(EXPORT_FILES.seal)))
        : null,
    entries,
  };
};
