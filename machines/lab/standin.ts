/**
 * A seeded laboratory: works the lab book by its commands as a diligent officer would, reading the simulated bench.
 *
 * It sees the book and what the bench gives, nothing else; every command is put to the book as a person's is. What it
 * draws depends on the seed, lot, sample and test alone, never on when it was asked.
 */
import type { Who } from '../line/facts.ts';
import type { LabTest } from '../scenario/lab-tests.ts';
import { benchReadings, type Truth } from './bench/index.ts';
import type { LabCommand } from './commands.ts';
import { allLots, isDecided } from './lots.ts';
import { sha256Hex } from './seal-check.ts';
import type { SheetId } from './sheet-ids.ts';
import { sheetContext } from './sheet-work.ts';
import { judgementOf, specificationOf } from './standing.ts';
import type { LabLot, LabSample, LabState } from './state.ts';
import { SHEETS } from './worksheets/index.ts';
import { minutesBetween } from './worksheets/plant-time.ts';

export type SeededLab = {
  readonly seed: number;
  /** Quality officer and supervisor, ids of the people file. */
  readonly officer: string;
  readonly supervisor: string;
  /** Single-operator standard deviations its test error has: 1 a good technician, 0 no error. */
  readonly error: number;
};

export type LabWork = { readonly by: Who; readonly command: LabCommand };

/** True values of a sample, or null when the simulated plant kept nothing of it. */
export type TruthOf = (lot: string, sample: number) => Truth | null;

/** Which sheet this lab uses for each test of a lot. */
const SHEET_FOR: { readonly [T in LabTest]?: SheetId } = {
  gradation: 'sieve',
  'binder content': 'extraction',
  bond: 'bond',
  workability: 'workability',
  'water resistance': 'water-resistance',
  moisture: 'moisture',
  coating: 'wet-coating',
};

/** It comes to a sample this long after it could be done, min. */
const HANDLING_MIN = 20;
/** kg where a specification does not say. */
const SAMPLE_KG = 4;

/** Numbers of one stream, [0, 1): a hash of the seed and what it is for, counted on. */
export const seededRng = (seed: number, what: string): (() => number) => {
  let n = 0;
  return () => {
    n += 1;
    return Number.parseInt(sha256Hex(`patchyard bench\n${seed}\n${what}\n${n}`).slice(0, 12), 16) / 2 ** 48;
  };
};

const take = (lot: LabLot, sample: LabSample, kg: number): LabCommand => ({
  do: 'logSample',
  lot: lot.lot,
  sample: sample.n,
  massKg: kg * 2.5,
  container: 'tin with lid',
  retainedKg: kg,
  remark: '',
});

const replaceLost = (lot: LabLot, sample: LabSample, kg: number): LabCommand => ({
  do: 'substituteSample',
  lot: lot.lot,
  sample: sample.n,
  source: 'bay',
  ofSample: null,
  massKg: kg * 2.5,
  container: 'tin with lid',
  retainedKg: kg,
  reason: `sample ${sample.n} was ${sample.state}; taken from bay ${lot.bay}, well under the surface`,
});

/** A sample was tested, or is waiting for its time. */
const testNow = (
  lab: SeededLab,
  state: LabState,
  lot: LabLot,
  sample: LabSample,
  truthOf: TruthOf,
  at: string,
): LabCommand | null => {
  const sheet = SHEET_FOR[sample.test as LabTest];
  if (sheet === undefined || sample.takenAt === null) return null;
  const made = lot.worksheets.filter((one) => one.sample === sample.n && one.aside === null);
  const retest = lot.retests.find((one) => one.sample === sample.n && !one.done);
  if (made.length > 0 && retest === undefined) return null;
  const since = made.at(-1)?.testedAt ?? sample.takenAt;
  if ((minutesBetween(since, at) ?? 0) < SHEETS[sheet].leastMinutes + HANDLING_MIN) return null;
  const truth = truthOf(lot.lot, sample.n);
  if (truth === null) return null;
  const rng = seededRng(lab.seed, `${lot.lot}/${sample.n}/${sheet}/${made.length}`);
  return {
    do: 'enterWorksheet',
    sheet,
    lot: lot.lot,
    sample: sample.n,
    subject: null,
    readings: benchReadings(sheet, truth, rng, lab.error, sheetContext(state, lot, sample.n, at)),
    balance: '',
    simulated: true,
    remark: '',
  };
};

/** A lot whose results are there and do not meet the specification: retest first, then the rules have their way. */
const afterFailing = (state: LabState, lot: LabLot): LabCommand | null => {
  if (lot.retests.some((one) => !one.done)) return null;
  const failing = judgementOf(state, lot, false)?.failing ?? [];
  const most = specificationOf(state, lot)?.retest.most ?? 0;
  for (const fail of failing)
    for (const n of fail.samples) {
      const sample = lot.samples.find((one) => one.n === n);
      const done = lot.retests.filter((one) => one.sample === n && one.test === fail.test).length;
      if (sample === undefined || sample.discarded || (sample.retainedKg ?? 0) === 0 || done >= most)
        continue;
      return {
        do: 'orderRetest',
        lot: lot.lot,
        sample: n,
        test: fail.test,
        reason: `outside its limits: ${fail.words}`.slice(0, 500),
      };
    }
  if (lot.closedAt === null || lot.missing.length > 0) return null;
  if (!lot.events.some((one) => one.what.endsWith('looked into')))
    return {
      do: 'investigate',
      lot: lot.lot,
      note: `weights and temperatures of batches ${lot.batches[0] ?? ''} to ${lot.batches.at(-1) ?? ''} looked through`,
      batches: [],
    };
  return {
    do: 'rejectLot',
    lot: lot.lot,
    reason: `fails also after the retest: ${lot.failing.join('; ')}`.slice(0, 500),
  };
};

const nextFor = (
  lab: SeededLab,
  state: LabState,
  lot: LabLot,
  truthOf: TruthOf,
  at: string,
): LabCommand | null => {
  const specification = specificationOf(state, lot);
  const kgOf = (sample: LabSample) => specification?.sampleKg[sample.test as LabTest] ?? SAMPLE_KG;
  for (const sample of lot.samples) if (sample.state === 'taken') return take(lot, sample, kgOf(sample));
  if (lot.closedAt !== null && specification?.missedSample.rule === 'replace')
    for (const missing of judgementOf(state, lot, false)?.missing ?? []) {
      const lost = lot.samples.find(
        (one) => one.test === missing.test && (one.state === 'missed' || one.state === 'not reached'),
      );
      if (lost !== undefined && lot.batches.length > 0) return replaceLost(lot, lost, kgOf(lost));
    }
  for (const sample of lot.samples) {
    if (sample.state !== 'logged') continue;
    const test = testNow(lab, state, lot, sample, truthOf, at);
    if (test !== null) return test;
  }
  if (lot.failing.length > 0) return afterFailing(state, lot);
  if (lot.proposal === 'accept') return { do: 'acceptLot', lot: lot.lot, remark: 'meets its specification' };
  return null;
};

/** The next thing the lab does, or null when all is done for now. Ask again until it is null. */
export const labWorks = (lab: SeededLab, state: LabState, truthOf: TruthOf, at: string): LabWork | null => {
  const by: Who = { person: lab.officer, role: 'quality officer' };
  for (const lot of allLots(state)) {
    if (lot.folded) continue;
    if (lot.state === 'rejected' && lot.done === null)
      return {
        by,
        command: { do: 'sendToWaste', lot: lot.lot, reason: 'rejected, and nothing makes it good' },
      };
    if (isDecided(lot)) continue;
    const command = nextFor(lab, state, lot, truthOf, at);
    if (command !== null) return { by, command };
  }
  return null;
};
