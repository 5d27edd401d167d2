/** A lab book with one lot in it, filled by facts as the line tells them; what is asked goes through schema, roles and book. */
import { createHash } from 'node:crypto';
import { benchReadings } from '../../../machines/lab/bench/index.ts';
import { labBook } from '../../../machines/lab/book.ts';
import { LAB_PERMISSIONS, labCommandSchema } from '../../../machines/lab/commands.ts';
import type { LabFact } from '../../../machines/lab/facts.ts';
import { drawPlan, nonceOf, planText, samplesOf } from '../../../machines/lab/plan.ts';
import type { SheetId } from '../../../machines/lab/sheet-ids.ts';
import { sheetContext } from '../../../machines/lab/sheet-work.ts';
import { seededRng } from '../../../machines/lab/standin.ts';
import type { LabLot, LabState } from '../../../machines/lab/state.ts';
import { viewLab } from '../../../machines/lab/view.ts';
import type { Fact } from '../../../machines/line/facts.ts';
import type { Told } from '../../../machines/record/book.types.ts';
import type { Role } from '../../../machines/scenario/people.schema.ts';
import type { Scenario } from '../../../machines/scenario/shift.schema.ts';
import { scenarioOrError } from '../../../server/scenarios/load.ts';

export const LOT = '260511-1';
const SECRET = 'ab'.repeat(32);
export const sha256 = (text: string): string => createHash('sha256').update(text, 'utf8').digest('hex');

/** Made to the middle of everything its specification asks for. */
export const GOOD: { readonly [property: string]: number } = {
  'passing:12.5': 100,
  'passing:9.5': 94,
  'passing:4.75': 34,
  'passing:2.36': 7,
  'passing:0.6': 2.8,
  'passing:0.075': 0.8,
  residualBinderMixPct: 5,
  residualBinderAggPct: 5.263,
  waterPct: 3.5,
  solventPct: 0,
  coatedPct: 96,
  bondKgCm2: 2.8,
  bondMPa: 0.2746,
  workable: 1,
  breakUpS: 22,
};

export const SHEET: { readonly [test: string]: SheetId } = {
  gradation: 'sieve',
  'binder content': 'extraction',
  bond: 'bond',
  workability: 'workability',
  'water resistance': 'water-resistance',
};

const ROLE: { readonly [person: string]: Role } = {
  isolde: 'quality officer',
  halvard: 'supervisor',
  wrenna: 'operator',
  pell: 'storekeeper',
};

export class TestLab {
  state: LabState = labBook.empty;
  at = '2026-05-11T06:00:00';
  seq = 0;
  others: { readonly stock?: unknown } = {};
  readonly facts: LabFact[] = [];
  readonly scenario: Scenario;

  constructor(change: (scenario: Scenario) => Scenario = (same) => same) {
    this.scenario = change(scenarioOrError('scenarios/shifts/lab-day.yaml'));
    this.state = labBook.hear(this.state, { ...this.#heardAt(), from: 'opening', scenario: this.scenario });
  }

  #heardAt() {
    this.seq += 1;
    return { seq: this.seq, shift: 1, at: this.at };
  }

  tell(...facts: Fact[]): this {
    for (const fact of facts)
      this.state = labBook.hear(this.state, { ...this.#heardAt(), from: 'line', fact });
    return this;
  }

  /** Puts a command to the book as the ledger does: its form, the role, then the book. */
  put(person: string, command: unknown): Told<LabFact> {
    const parsed = labCommandSchema.safeParse(command);
    if (!parsed.success) return { ok: false, because: parsed.error.issues.map((issue) => issue.message) };
    const role = ROLE[person] as Role;
    if (!LAB_PERMISSIONS[parsed.data.do].includes(role))
      return { ok: false, because: [`a ${role} may not do this`] };
    const by = { person, role };
    const told = labBook.answer(this.state, { command: parsed.data, by, at: this.at }, this.others);
    if (!told.ok) return told;
    for (const fact of JSON.parse(JSON.stringify(told.facts)) as LabFact[]) {
      this.facts.push(fact);
      this.state = labBook.hear(this.state, { ...this.#heardAt(), from: 'lab', by, fact });
    }
    return told;
  }

  does(person: string, command: unknown): this {
    const told = this.put(person, command);
    if (!told.ok) throw new Error(`${JSON.stringify(command)} was refused: ${told.because.join('; ')}`);
    return this;
  }

  refused(person: string, command: unknown): string {
    const before = this.state;
    const told = this.put(person, command);
    if (told.ok) throw new Error(`${JSON.stringify(command)} was not refused`);
    if (this.state !== before) throw new Error('a refusal changed the book');
    return told.because.join('; ');
  }

  lot(id = LOT): LabLot {
    const lot = this.state.lots[id];
    if (lot === undefined) throw new Error(`no lot ${id}`);
    return lot;
  }

  view() {
    return viewLab(this.state, this.at);
  }

  /** A lot opened, planned, filled by 14 batches with every sample taken as it was called, and closed. */
  fill({ id = LOT, miss = [] as readonly number[], batches = 14, close = true } = {}): this {
    const mix = this.scenario.mixes[0];
    const specification = this.scenario.specifications?.[0];
    if (mix === undefined || specification === undefined) throw new Error('no mix');
    const who = { person: 'wrenna', role: 'operator' } as const;
    const samples = drawPlan(sha256, SECRET, id, mix.lotKg, samplesOf(specification.frequencies));
    const nonce = nonceOf(sha256, SECRET, id);
    this.tell(
      { is: 'lotOpened', lot: id, mix: mix.id, mixVersion: mix.version, family: mix.family, bay: 1 },
      {
        is: 'samplesPlanned',
        lot: id,
        specification: specification.id,
        commitment: sha256(planText(id, nonce, samples)),
        samples: samples.map(({ n, test, part, ofParts }) => ({ n, test, part, ofParts })),
      },
    );
    const called = new Set<number>();
    let kg = 0;
    for (let batch = 1; batch <= batches; batch += 1) {
      this.tell({ is: 'batchStarted', batch, mix: mix.id, mixVersion: mix.version, lot: id, by: who });
      const due = samples.filter(({ n, atKg }) => !called.has(n) && atKg <= kg + 750);
      for (const { n, test, atKg } of due) {
        called.add(n);
        this.tell({ is: 'sampleDue', lot: id, sample: n, test, atKg, batch });
        this.tell(
          miss.includes(n)
            ? { is: 'sampleMissed', lot: id, sample: n, batch, why: 'nobody came' }
            : { is: 'sampleTaken', lot: id, sample: n, batch, by: who },
        );
      }
      kg += 750;
      this.tell({
        is: 'batchDischarged',
        batch,
        lot: id,
        bay: 1,
        grams: 750_000,
        mixC: 20,
        mixedS: 60,
        parts: [],
      });
    }
    if (!close) return this;
    const short = kg < mix.lotKg;
    return this.tell(
      { is: 'lotClosed', lot: id, grams: kg * 1000, batches, short, why: short ? 'the shift ended' : 'full' },
      { is: 'samplePlanOpened', lot: id, nonce, atKg: samples.map(({ atKg }) => atKg) },
    );
  }

  logAll(id = LOT): this {
    for (const sample of this.lot(id).samples)
      if (sample.state === 'taken')
        this.does('wrenna', {
          do: 'logSample',
          lot: id,
          sample: sample.n,
          massKg: 12,
          container: 'tin',
          retainedKg: 5,
        });
    return this;
  }

  /** What the simulated bench reads of a sample, without test error unless some is asked for. */
  readings(sample: number, truth = GOOD, { id = LOT, error = 0 } = {}) {
    const lot = this.lot(id);
    const sheet = SHEET[lot.samples.find((one) => one.n === sample)?.test ?? ''] as SheetId;
    const rng = seededRng(1, `${id}/${sample}`);
    return {
      sheet,
      readings: benchReadings(sheet, truth, rng, error, sheetContext(this.state, lot, sample, this.at)),
    };
  }

  enter(sample: number, truth = GOOD, id = LOT): this {
    return this.does('isolde', {
      do: 'enterWorksheet',
      lot: id,
      sample,
      ...this.readings(sample, truth, { id }),
    });
  }

  /** Two days later everything has cured. */
  later(days = 2): this {
    this.at = `2026-05-${String(Number(this.at.slice(8, 10)) + days).padStart(2, '0')}T09:00:00`;
    return this;
  }

  testAll(truth = GOOD, id = LOT): this {
    for (const sample of this.lot(id).samples)
      if (sample.state === 'logged' && !this.lot(id).worksheets.some((one) => one.sample === sample.n))
        this.enter(sample.n, truth, id);
    return this;
  }
}
