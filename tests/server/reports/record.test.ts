/** Reports from a real record: over HTTP and on the command line, sealed and not, and their totals against the books. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import swagger from '@fastify/swagger';
import Fastify, { type FastifyInstance } from 'fastify';
import { jsonSchemaTransform, serializerCompiler, validatorCompiler } from 'fastify-type-provider-zod';
import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from 'vitest';
import { canonical } from '../../../machines/record/canonical.ts';
import type { Choices } from '../../../machines/reports/choices.ts';
import type { Report, ReportEnvelope } from '../../../machines/reports/report.ts';
import { main } from '../../../server/cli.ts';
import { sha256 } from '../../../server/digest.ts';
import { line } from '../../../server/line.ts';
import { registerReports } from '../../../server/routes/reports.ts';
import { runHeadless } from '../../../server/runner/headless.ts';
import { createTally } from '../../../server/runner/report.ts';
import { loadShift } from '../../../server/scenarios/load.ts';
import { openKey } from '../../../server/seal/key-file.ts';
import { openSqliteStore } from '../../../server/store/sqlite.ts';
import type { Store } from '../../../server/store/store.ts';
import { parseCsv } from '../../reports/support/parse-csv.ts';
import { readPdf } from '../../reports/support/pdf-text.ts';

const SHIFT = `kind: shift
id: short-day
name: Short day
plant: plants/demo-yard.yaml
people: people/demo-yard.yaml
mixes: [mixes/emulsion-patch.yaml]
date: 2026-05-04
startsAt: "06:00"
hours: 0.5
seed: 7
weather: { startC: 12, warmestC: 19, rain: [] }
moisture:
  - { bin: 1, testedPct: 0.4, truePct: 0.5 }
  - { bin: 2, testedPct: 0.8, truePct: 0.8 }
  - { bin: 3, testedPct: 1.6, truePct: 1.7 }
orders: [{ mix: emulsion-patch, tonnes: 30, bay: 1 }]
standIn: { person: wrenna, skill: good }
`;

let folder = '';
let store: Store;
let app: FastifyInstance;
const tally = createTally();
let expected: ReturnType<typeof tally.report>;
let sealed: { readonly root: string; readonly key: string } | null = null;

/** Two half-hour shifts in one record: the first sealed as it ended, the second not. */
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'patchyard-reports-'));
  const file = join(folder, 'short-day.yaml');
  writeFileSync(file, SHIFT);
  store = openSqliteStore(folder);
  const { scenario, findings } = loadShift(file);
  if (scenario === null) throw new Error(`the shift file is not sound: ${JSON.stringify(findings)}`);
  const first = await runHeadless({
    engine: line,
    scenario,
    store,
    key: openKey(folder, null),
    onFact: tally.add,
  });
  expected = tally.report(first.view);
  sealed = first.seal;
  await runHeadless({ engine: line, scenario, store, onFact: () => undefined });
  app = Fastify();
  app.setValidatorCompiler(validatorCompiler);
  app.setSerializerCompiler(serializerCompiler);
  app.setErrorHandler(async (error: Error & { statusCode?: number }, _request, reply) =>
    reply.code(error.statusCode ?? 500).send({ because: [error.message] }),
  );
  await app.register(swagger, {
    openapi: { openapi: '3.1.0', info: { title: 't', version: '1' } },
    transform: jsonSchemaTransform,
  });
  registerReports(app, store);
  await app.ready();
});
afterAll(async () => {
  await app?.close();
  await store?.close();
  rmSync(folder, { recursive: true, force: true });
});
afterEach(() => vi.restoreAllMocks());

const get = (url: string) => app.inject({ method: 'GET', url });
const envelope = async (url: string): Promise<ReportEnvelope> => {
  const answer = await get(url);
  expect(answer.statusCode, answer.body.slice(0, 300)).toBe(200);
  return answer.json();
};
const choices = async (): Promise<Choices> => (await get('/api/reports/choices')).json();
const firstShift = async (): Promise<number> => (await choices()).shifts[0]?.shift ?? 0;
const reportOf = async <K extends Report['kind']>(kind: K, query: string) =>
  (await envelope(`/api/reports/${kind}?${query}`)).report as Extract<Report, { kind: K }>;

describe('totals', () => {
  it('are those the line itself told while it ran, to the gram', async () => {
    const shift = await reportOf('shift', `shift=${await firstShift()}`);
    expect(shift.books.errorGrams).toBe(0);
    expect(shift.books.inGrams).toBe(Math.round(expected.massInKg * 1000));
    expect(shift.books.heldGrams).toBe(Math.round(expected.massHeldKg * 1000));
    expect(shift.books.lotsGrams + shift.books.wasteGrams + shift.books.waterLostGrams).toBe(
      Math.round(expected.massOutKg * 1000),
    );
    expect(shift.made).toMatchObject({
      batches: expected.batches,
      dumped: expected.batchesDumped,
      trips: expected.trips,
      alarms: expected.alarms,
      samplesTaken: expected.samples,
      samplesMissed: expected.samplesMissed,
    });
    expect(shift.made.batches).toBeGreaterThan(3);
    expect(shift.lots.map((lot) => lot.grams / 1000)).toEqual(expected.lots.map((lot) => lot.massKg));
  });

  it('of a lot file are the sum of its batch sheets', async () => {
    const shift = await firstShift();
    const { lots } = await reportOf('shift', `shift=${shift}`);
    const [lot] = lots;
    if (lot === undefined) throw new Error('no lot');
    const file = await reportOf('lot', `lot=${lot.lot}`);
    const sheets = await Promise.all(
      lot.batches.map((batch) => reportOf('batch', `shift=${shift}&batch=${batch}`)),
    );
    expect(sheets.reduce((sum, sheet) => sum + sheet.batch.grams, 0)).toBe(file.lot.grams);
    expect(file.bookedGrams).toBe(file.lot.grams);
    expect(sheets.every((sheet) => sheet.traces.every((trace) => trace.points.length > 0))).toBe(true);
  });
});

describe('over HTTP', () => {
  it.each([
    ['pdf', 'application/pdf'],
    ['csv', 'text/csv'],
    ['json', 'application/json'],
  ])('gives a report as %s, as a file to keep', async (format, type) => {
    const answer = await get(`/api/reports/shift.${format}?shift=${await firstShift()}`);
    expect(answer.statusCode).toBe(200);
    expect(answer.headers['content-type']).toContain(type);
    expect(answer.headers['content-disposition']).toMatch(
      new RegExp(`^attachment; filename="shift-2026-05-04-[0-9a-f]{10}\\.${format}"$`),
    );
  });

  it('gives all three forms of one report the same number and digest', async () => {
    const query = `shift=${await firstShift()}`;
    const data = await envelope(`/api/reports/shift?${query}`);
    expect(data.sha256).toBe(sha256(canonical(data.report)));
    const table = parseCsv((await get(`/api/reports/shift.csv?${query}`)).body);
    expect(table.find((row) => row.includes('SHA-256 of its data'))).toContain(data.sha256);
    const paper = readPdf((await get(`/api/reports/shift.pdf?${query}`)).rawPayload);
    expect(paper.pages[0]?.join(' ')).toContain(data.sha256);
  });

  it('gives one table of a report alone', async () => {
    const rows = parseCsv((await get('/api/reports/shift.csv?table=batches')).body);
    expect(rows[0]?.slice(0, 3)).toEqual(['Table', 'Batch', 'Lot']);
    expect(new Set(rows.slice(1).map((row) => row[0]))).toEqual(new Set(['batches']));
    expect((await get('/api/reports/shift.csv?table=nothing')).json().because[0]).toContain('its tables are');
  });

  it.each([
    ['/api/reports/lot?lot=nothing', 404, 'no lot nothing'],
    ['/api/reports/lot', 404, 'needs the number of its lot'],
    ['/api/reports/batch?batch=999', 404, 'no batch 999'],
    ['/api/reports/shift?shift=2', 404, 'no shift 2'],
    ['/api/reports/alarms?from=2030-01-01', 404, 'no shift in these days'],
    ['/api/reports/alarms?material=water', 404, 'no filter by material'],
    ['/api/reports/alarms?from=yesterday', 400, ''],
    ['/api/reports/shift?nonsense=1', 400, ''],
    ['/api/record/found?kind=readings', 400, ''],
  ])('%s is answered %i in words', async (url, status, words) => {
    const answer = await get(url);
    expect(answer.statusCode).toBe(status);
    expect(answer.body).toContain(words);
  });

  it('takes all shifts of the days for alarms, and the newest without', async () => {
    expect((await reportOf('alarms', 'from=2026-05-01')).head.shifts).toHaveLength(2);
    expect((await reportOf('alarms', '')).head.shifts.map((one) => one.date)).toEqual(['2026-05-05']);
    expect((await reportOf('refusals', 'from=2026-05-01&to=2026-05-04')).head.shifts).toHaveLength(1);
  });

  it('offers what the record really holds', async () => {
    const offered = await choices();
    expect(offered.shifts.map((one) => [one.scenario, one.day, one.ended, one.sealed])).toEqual([
      ['short-day', '2026-05-04', true, true],
      ['short-day', '2026-05-05', true, false],
    ]);
    expect(offered.people).toContainEqual({ id: 'wrenna', name: 'Wrenna Oskal' });
    expect(offered.lots).toEqual(['260505-1']);
    expect(offered.materials).toEqual(expect.arrayContaining(['Chips', 'emulsion', 'water']));
    expect(offered.materials).not.toContain('waste');
  });

  it('describes itself', async () => {
    const { paths } = app.swagger() as { paths: Record<string, unknown> };
    expect(Object.keys(paths)).toEqual(
      expect.arrayContaining([
        '/api/reports/shift',
        '/api/reports/lot.csv',
        '/api/reports/alarms.pdf',
        '/api/record/found',
      ]),
    );
    expect(JSON.stringify(paths['/api/reports/lot'])).toContain('bookedGrams');
  });
});

describe('the seal', () => {
  it('of a sealed shift is printed, of the other it is said that there is none', async () => {
    const first = await reportOf('shift', `shift=${await firstShift()}`);
    expect(first.head.shifts[0]?.seal).toMatchObject({ root: sealed?.root, key: sealed?.key });
    expect(first.head.plantKey).toBe(sealed?.key);
    const paper = readPdf((await get('/api/reports/shift.pdf')).rawPayload)
      .pages.flat()
      .join(' ');
    expect(paper).toContain('Not sealed.');
    expect(paper).toContain(sealed?.key);
  });
});

describe('entries looked up', () => {
  const found = async (query: string) => (await get(`/api/record/found?${query}`)).json();

  it('by lot, person, material and kind, in one shift or in many', async () => {
    const lot = await found('lot=260504-1');
    expect(lot.shifts).toHaveLength(1);
    expect(lot.shifts[0].entries.every((entry: unknown) => JSON.stringify(entry).includes('260504-1'))).toBe(
      true,
    );
    const water = await found('material=water&kind=fact&from=2026-05-05');
    expect(water.shifts.map((one: { day: string }) => one.day)).toEqual(['2026-05-05']);
    expect(water.shifts[0].entries.every((entry: { kind: string }) => entry.kind === 'fact')).toBe(true);
    const both = await found('lot=260504-1&person=wrenna');
    for (const entry of both.shifts[0].entries) {
      expect(JSON.stringify(entry)).toContain('260504-1');
      expect(JSON.stringify(entry)).toContain('wrenna');
    }
    const seqs = lot.shifts[0].entries.map((entry: { seq: number }) => entry.seq);
    expect(seqs).toEqual([...seqs].sort((a, b) => b - a));
  });

  it('that do not exist are none', async () => {
    expect(await found('lot=nothing')).toEqual({ shifts: [], more: false });
  });
});

describe('on the command line', () => {
  it('writes the very bytes the server gives', async () => {
    vi.spyOn(console, 'log').mockImplementation(() => undefined);
    for (const format of ['pdf', 'csv', 'json']) {
      const out = join(folder, `lot.${format}`);
      expect(await main(['report', 'lot', '--lot', '260504-1', '--data', folder, '--out', out])).toBe(0);
      const served = await get(`/api/reports/lot.${format}?lot=260504-1`);
      expect(readFileSync(out).equals(served.rawPayload)).toBe(true);
    }
  });

  it.each([
    [['report'], 2, 'report needs one of'],
    [['report', 'shift'], 2, 'report needs --out FILE'],
    [['report', 'shift', '--out', '-', '--format', 'doc'], 2, '--format doc is not one of'],
    [['report', 'alarms', '--out', '-', '--from', '2026-02-31x'], 2, 'is no day'],
    [['report', 'lot', '--lot', 'nothing', '--out', '-'], 1, 'no lot nothing'],
    [['report', 'shift', '--shift', '9', '--out', '-'], 1, 'there is no 9'],
    [['report', 'shift', '--shift', '1', '--out', '/nowhere/at/all.pdf'], 1, 'cannot be written'],
  ])('%j ends with %i and says why', async (args, code, words) => {
    const said = vi.spyOn(console, 'error').mockImplementation(() => undefined);
    expect(await main([...args, ...(args.length > 1 ? ['--data', folder] : [])])).toBe(code);
    expect(said.mock.calls.flat().join(' ')).toContain(words);
  });
});
