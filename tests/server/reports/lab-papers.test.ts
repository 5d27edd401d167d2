/** Certificate, labels and lot file from a real record over HTTP: the lab's work goes on in a later shift. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Fastify, { type FastifyInstance } from 'fastify';
import { serializerCompiler, validatorCompiler } from 'fastify-type-provider-zod';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { LabState } from '../../../machines/lab/state.ts';
import { CHAIN_START, sealEntry } from '../../../machines/record/chain.ts';
import type { Entry, EntryContent } from '../../../machines/record/entry.ts';
import type { Certificate } from '../../../machines/reports/certificate.ts';
import type { LotFile } from '../../../machines/reports/lot-file.ts';
import { sha256 } from '../../../server/digest.ts';
import { labWorkFor, shiftsNaming } from '../../../server/reports/lab-work.ts';
import { registerReports } from '../../../server/routes/reports.ts';
import { openSqliteStore } from '../../../server/store/sqlite.ts';
import type { Store } from '../../../server/store/store.ts';
import { LOT, labLife, labScenario } from '../../reports/support/lab.ts';
import { readPdf } from '../../reports/support/pdf-text.ts';
import type { Told } from '../../reports/support/shift.ts';

const DIGEST = 'd'.repeat(64);
let folder = '';
let store: Store;
let app: FastifyInstance;
let entries: Entry[] = [];

const opening = (): EntryContent => ({
  kind: 'opening',
  body: {
    format: 1,
    program: 'patchyard test',
    physics: 3,
    engine: 'test',
    scenario: 'plain-mixes',
    scenarioDigest: DIGEST,
    seed: 1,
  },
});
const opened = (date: string): EntryContent => ({
  kind: 'fact',
  body: { tick: 0, fact: { is: 'shiftOpened', shift: 'plain-mixes', date, startsAt: '06:00' } },
});
const contentOf = ([atS, told]: Told): EntryContent =>
  'is' in told ? { kind: 'fact', body: { tick: Math.round(atS * 10), fact: told } } : told;

/** The lot's shift, and one the day after in which its worksheets are entered and it is accepted. */
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'patchyard-lab-papers-'));
  store = openSqliteStore(folder);
  await store.saveScenario(DIGEST, labScenario());
  const told = labLife();
  const cut = told.findIndex(
    ([, one]) => 'kind' in one && one.kind === 'ledger' && one.body.do === 'enterWorksheet',
  );
  const rows: [number, EntryContent][] = [
    [0, opening()],
    [0, opened('2026-04-14')],
    ...told.slice(0, cut).map((one): [number, EntryContent] => [one[0], contentOf(one)]),
    [
      20_000,
      {
        kind: 'fact',
        body: { tick: 200_000, fact: { is: 'shiftEnded', by: { person: 'wrenna', role: 'operator' } } },
      },
    ],
    [0, opening()],
    [0, opened('2026-04-15')],
    ...told.slice(cut).map((one): [number, EntryContent] => [one[0] - 86_400, contentOf(one)]),
  ];
  let end = CHAIN_START;
  const sealed = rows.map(([atS, content]) => {
    const one = sealEntry(end, content, Math.round(atS * 1000), '2026-04-15T12:00:00.000Z', sha256);
    end = { seq: one.entry.seq, hash: one.entry.hash };
    return one;
  });
  entries = sealed.map((one) => one.entry);
  await store.append(sealed);
  app = Fastify();
  app.setValidatorCompiler(validatorCompiler);
  app.setSerializerCompiler(serializerCompiler);
  registerReports(app, store);
  await app.ready();
});

afterAll(async () => {
  await app.close();
  await store.close();
  rmSync(folder, { recursive: true, force: true });
});

const certificate = async (): Promise<Certificate> =>
  (await app.inject(`/api/reports/certificate?lot=${LOT}`)).json().report;

describe('certificate over HTTP', () => {
  it('is made of the lot’s own shift and of what the lab did the day after', async () => {
    const report = await certificate();
    expect(report.head.shifts.map((shift) => shift.date)).toEqual(['2026-04-14']);
    expect(report.lab.verdict).toBe('pass');
    const decided = entries.find((one) => one.seq === report.lab.decision.seq);
    expect(decided?.hash).toBe(report.lab.decision.hash);
    expect(decided?.kind === 'ledger' && decided.body.fact).toMatchObject({ is: 'lotAccepted', lot: LOT });
    // It rests on the newest entry about the lot, not on the last of its shift.
    expect(report.head.record.seq).toBe(entries.at(-1)?.seq);
  });

  it('is one page of PDF with the hash of the decision, letter for letter', async () => {
    const answer = await app.inject(`/api/reports/certificate.pdf?lot=${LOT}`);
    expect(answer.headers['content-type']).toBe('application/pdf');
    const { pages } = readPdf(answer.rawPayload);
    expect(pages).toHaveLength(1);
    expect(pages.flat().join('\n')).toContain((await certificate()).lab.decision.hash);
  });

  it('refuses a lot that is not there, and says what to do', async () => {
    const answer = await app.inject('/api/reports/certificate.pdf?lot=260414-9');
    expect(answer.statusCode).toBe(404);
    expect(answer.json().because[0]).toContain('look it up on the Lots or Records page');
    expect((await app.inject('/api/reports/certificate.pdf')).json().because[0]).toContain(
      'needs the number of its lot',
    );
  });
});

describe('labels over HTTP', () => {
  it('a page of PDF with a label for every sample and portion kept back', async () => {
    const answer = await app.inject(`/api/lab/labels?lot=${LOT}`);
    expect(answer.statusCode).toBe(200);
    expect(answer.headers['content-type']).toBe('application/pdf');
    const words = readPdf(answer.rawPayload).pages.flat();
    for (let n = 1; n <= 7; n += 1) expect(words).toContain(`${LOT}/S${n}`);
    expect(words.filter((one) => one === 'KEPT BACK')).toHaveLength(2);
  });

  it('one sample alone, and a refusal in words for one that is not there', async () => {
    const one = await app.inject(`/api/lab/labels?lot=${LOT}&sample=5`);
    expect(
      readPdf(one.rawPayload)
        .pages.flat()
        .filter((words) => words.startsWith('Sample ')),
    ).toEqual(['Sample 5']);
    const none = await app.inject(`/api/lab/labels?lot=${LOT}&sample=12`);
    expect(none.statusCode).toBe(404);
    expect(none.headers['content-type']).toContain('application/json');
    expect(none.json().because).toEqual([
      `Lot ${LOT} has no sample 12: its samples are 1, 2, 3, 4, 5, 6, 7.`,
    ]);
  });
});

describe('lot file over HTTP', () => {
  it('has the lab’s work beside the batches', async () => {
    const report: LotFile = (await app.inject(`/api/reports/lot?lot=${LOT}`)).json().report;
    expect(report.batches).toHaveLength(13);
    expect(report.lab?.sheets).toHaveLength(7);
    expect(report.lab?.samples.flatMap((sample) => sample.custody)).toHaveLength(7);
    expect(report.lab?.events.at(-1)).toMatchObject({ by: 'Isolde Marrin', what: 'accepted' });
  });
});

describe('a lot the book has folded away', () => {
  it('is heard again from its entries and says the same', async () => {
    const naming = await shiftsNaming(store, LOT);
    expect(naming).toHaveLength(2);
    const nameOf = (id: string): string => id;
    const whole = await labWorkFor(store, LOT, naming, nameOf);
    const listening = await store.books();
    const lab = listening.ledger.lab as LabState;
    const lot = lab.lots[LOT];
    if (lot === undefined) throw new Error('the book has no such lot');
    const folded = {
      ...lab,
      lots: { [LOT]: { ...lot, samples: [], worksheets: [], events: [], folded: true } },
    };
    const forgetful = Object.assign(Object.create(store) as Store, {
      find: (query: Parameters<Store['find']>[0]) => store.find(query),
      read: (query: Parameters<Store['read']>[0]) => store.read(query),
      loadScenario: (digest: string) => store.loadScenario(digest),
      books: async () => ({ ...listening, ledger: { ...listening.ledger, lab: folded } }),
    });
    expect(await labWorkFor(forgetful, LOT, naming, nameOf)).toEqual(whole);
  });
});
