/**
 * Keeping a record for years: what a shift takes, what packing and archiving cost, and how fast a ten-year store
 * answers, beside the bare SQL and plain file copies of the same run. SHIFTS=n makes a smaller store; KEEP=1 leaves
 * the large one where it was made.
 */
import { copyFileSync, mkdtempSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { brotliCompressSync, constants } from 'node:zlib';
import Database from 'better-sqlite3';
import { backUp } from '../../server/archive/backup.ts';
import { packAll } from '../../server/archive/packing.ts';
import { roomFor } from '../../server/archive/room.ts';
import { writeExport } from '../../server/archive/write-export.ts';
import { line } from '../../server/line.ts';
import { runHeadless } from '../../server/runner/headless.ts';
import { scenarioOrError } from '../../server/scenarios/load.ts';
import { openKey } from '../../server/seal/key-file.ts';
import { RECORD_FILE } from '../../server/store/database.ts';
import { openSqliteStore, storeOn } from '../../server/store/sqlite.ts';
import type { Store } from '../../server/store/store.ts';
import { benchFolder, type Figure, percentile } from './measure.ts';
import { makeYears } from './ten-years.ts';

const SHIFTS = Number(process.env.SHIFTS ?? 2500);
const SHIFT_FILE = 'scenarios/shifts/emulsion-day.yaml';
const QUERIES = 300;
/** Room one shift takes in the large store, with some to spare, bytes. */
const SHIFT_ROOM = 2.5e6;
const MB = 1e6;

const figure = (id: string, what: string, value: number, unit: string): Figure => ({ id, what, value, unit });

const timed = async <T>(work: () => Promise<T> | T): Promise<{ ms: number; got: T }> => {
  const startedMs = performance.now();
  const got = await work();
  return { ms: performance.now() - startedMs, got };
};

/** Bytes of the file once nothing in it is free, closed and copied by SQLite itself. */
const vacuumedBytes = (folder: string): number => {
  const db = new Database(join(folder, RECORD_FILE));
  db.exec('VACUUM');
  db.pragma('wal_checkpoint(TRUNCATE)');
  db.close();
  return statSync(join(folder, RECORD_FILE)).size;
};

const readingTexts = async (store: Store): Promise<string> => {
  const texts: string[] = [];
  for await (const { json } of store.texts(1, (await store.tail()).seq))
    if (json.includes('"kind":"readings"')) texts.push(json);
  return texts.join('\n');
};

/** One whole shift, sealed, packed and exported. */
const benchShift = async (folder: string): Promise<Figure[]> => {
  const store = openSqliteStore(folder);
  const key = openKey(folder, null);
  await runHeadless({
    engine: line,
    scenario: scenarioOrError(SHIFT_FILE),
    store,
    key,
    onFact: () => undefined,
  });
  const plainBytes = (await store.keeping()).bytes;
  const texts = await readingTexts(store);
  const lines = await timed(() =>
    brotliCompressSync(texts, { params: { [constants.BROTLI_PARAM_QUALITY]: 9 } }),
  );
  const packing = await timed(() => packAll(store));
  const verify = await timed(() => store.verify());
  if (!verify.got.ok) throw new Error(`the packed shift is not whole: ${verify.got.why}`);
  const file = join(folder, 'shift.zip');
  const exporting = await timed(() => writeExport(store, 1, file));
  const entries = (await store.tail()).seq;
  await store.close();
  const db = new Database(join(folder, RECORD_FILE), { readonly: true });
  const packed = db.prepare('SELECT sum(length(bytes)) FROM chunks').pluck().get() as number;
  db.close();
  return [
    figure(
      'keeping.shift.plain',
      `an 8 h shift of ${entries} entries, unpacked, with its log`,
      plainBytes / MB,
      'MB',
    ),
    figure(
      'keeping.shift.packed',
      'the same shift, sealed and packed (aim < 3)',
      vacuumedBytes(folder) / MB,
      'MB',
    ),
    figure('keeping.readings.text', 'its readings as text', texts.length / MB, 'MB'),
    figure(
      'keeping.readings.lines',
      'their lines through brotli 9 (plain limit)',
      lines.got.length / MB,
      'MB',
    ),
    figure('keeping.readings.packed', 'packed by us', packed / MB, 'MB'),
    figure('keeping.readings.plainMs', 'time of brotli 9 over the lines (plain limit)', lines.ms, 'ms'),
    figure('keeping.readings.packMs', 'time to pack, in all its steps', packing.ms, 'ms'),
    figure('keeping.verify', 'verify that shift, packed', entries / (verify.ms / 1000), 'entries/s'),
    figure('keeping.archive', 'its archive file (export zip)', statSync(file).size / MB, 'MB'),
    figure('keeping.archiveMs', 'time to write it', exporting.ms, 'ms'),
  ];
};

type Query = () => Promise<unknown> | unknown;

/** Median and worst of many queries, each with another name. */
const queries = async (id: string, what: string, make: (i: number) => Query): Promise<Figure[]> => {
  const times: number[] = [];
  for (let i = 0; i < QUERIES; i++) {
    const query = make(i);
    const { ms } = await timed(query);
    times.push(ms);
  }
  return [
    figure(`keeping.${id}.p50`, `${what}, median of ${QUERIES}`, percentile(times, 50), 'ms'),
    figure(`keeping.${id}.p99`, `${what}, 99th of 100`, percentile(times, 99), 'ms'),
    figure(`keeping.${id}.max`, `${what}, worst`, Math.max(...times), 'ms'),
  ];
};

/** A store of ten years: size, queries beside bare SQL, backup beside a plain copy. */
const benchYears = async (folder: string, from: string): Promise<Figure[]> => {
  const file = join(folder, RECORD_FILE);
  const years = makeYears(from, file, SHIFTS);
  const db = new Database(file);
  const store = storeOn(folder, db);
  const lotOf = (i: number): string => years.lots[(i * 7919) % years.lots.length] ?? '';
  const bare = db.prepare(`SELECT shift, first, last FROM mentions WHERE kind = 'lot' AND key = ?`);
  const cold = await timed(() => store.find({ lot: lotOf(1) }));
  if (cold.got.length !== 1) throw new Error('the lot was not found');
  const dayOf = async (lot: string) => (await store.find({ lot }))[0]?.shift.day ?? '';
  const days = await Promise.all(Array.from({ length: QUERIES }, (_, i) => dayOf(lotOf(i))));
  const naming = async (i: number) => {
    const mention = (await store.find({ lot: lotOf(i) }))[0]?.mentions[0];
    return mention === undefined ? [] : store.naming(mention);
  };
  const whole = await timed(() => store.shifts());
  const figures = [
    figure(
      'keeping.years.make',
      `${years.shifts} shifts, ${Math.round(years.entries / 1e6)} million entries made in`,
      years.seconds,
      's',
    ),
    figure('keeping.years.size', 'size of that store (aim < 10)', statSync(file).size / 1e9, 'GB'),
    figure('keeping.lot.cold', 'find a lot, the very first query', cold.ms, 'ms'),
    ...(await queries('lot', 'find a lot (aim < 50)', (i) => () => store.find({ lot: lotOf(i) }))),
    ...(await queries('lot.bare', 'the same, bare SQL (plain limit)', (i) => () => bare.all(lotOf(i)))),
    ...(await queries('lot.entries', 'find a lot and read all entries that name it', (i) => () => naming(i))),
    ...(await queries(
      'day',
      'find a day',
      (i) => () => store.find({ fromDay: days[i] ?? '', toDay: days[i] ?? '' }),
    )),
    ...(await queries(
      'person',
      'a person within a month, by material',
      (i) => () =>
        store.find({
          person: 'wrenna',
          material: 'emulsion',
          fromDay: (days[i] ?? '').slice(0, 8),
          toDay: `${(days[i] ?? '').slice(0, 8)}31`,
        }),
    )),
    figure('keeping.shifts', `list all ${whole.got.length} shifts`, whole.ms, 'ms'),
  ];
  db.close();
  return figures;
};

/** Backup of one shift's record beside a plain copy of the file. */
const benchBackup = async (folder: string): Promise<Figure[]> => {
  const out = join(folder, 'copy.sqlite');
  const ours = await timed(() => backUp(folder, out, () => undefined));
  const plain = await timed(() => copyFileSync(join(folder, RECORD_FILE), join(folder, 'plain')));
  const mb = statSync(out).size / MB;
  return [
    figure('keeping.backup', 'backup of that shift, verified', mb / (ours.ms / 1000), 'MB/s'),
    figure(
      'keeping.backup.bare',
      'the file copied, unverified and not synced',
      mb / (plain.ms / 1000),
      'MB/s',
    ),
  ];
};

export const benchKeeping = async (): Promise<Figure[]> => {
  const needed = SHIFTS * SHIFT_ROOM;
  const { freeBytes } = roomFor(benchFolder()) ?? { freeBytes: Number.POSITIVE_INFINITY };
  if (freeBytes < needed)
    throw new Error(
      `${SHIFTS} shifts take ${(needed / 1e9).toFixed(1)} GB, and ${(freeBytes / 1e9).toFixed(1)} GB are free: SHIFTS=n makes fewer`,
    );
  const folder = mkdtempSync(join(benchFolder(), 'keeping-'));
  const large = mkdtempSync(join(benchFolder(), 'ten-years-'));
  try {
    const shift = await benchShift(folder);
    const backup = await benchBackup(folder);
    return [...shift, ...backup, ...(await benchYears(large, join(folder, RECORD_FILE)))];
  } finally {
    rmSync(folder, { recursive: true, force: true });
    if (process.env.KEEP === undefined) rmSync(large, { recursive: true, force: true });
    else console.log(`the large store lies in ${large}`);
  }
};
