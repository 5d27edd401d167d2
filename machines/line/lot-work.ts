/** Lots: opened by their first batch, filled to 10 t, closed when full, at a change of mix or at shift end. */

import type { Command } from './commands.ts';
import type { Lot } from './line.types.ts';
import { openLot, presentMix, presentOrder, specificationOf } from './lookup.ts';
import { drawUnit } from './random.ts';
import { isOutOfMixer } from './refusals-sample.ts';
import { addMark } from './ribbon.ts';
import { moveChart, tell, type Work } from './work.ts';

const replaceLast = (work: Work, lot: Lot): void => {
  work.line.lots = [...work.line.lots.slice(0, -1), lot];
};

/** One random tonnage in each equal part of the lot: stratified random sampling as ASTM D3665 does by sublots. */
const sampleTonnages = (work: Work, ofKg: number, samples: number): number[] => {
  const partKg = ofKg / Math.max(1, samples);
  const at: number[] = [];
  for (let i = 0; i < samples; i += 1) at.push(Math.round((i + drawUnit(work)) * partKg));
  return at;
};

const WHY = {
  'line.massReached': 'full',
  'line.mixChanged': 'the mix was changed',
  'line.bayChanged': 'the bay was changed',
  'line.shiftEnded': 'the shift ended',
} as const;

export const closeLot = (work: Work, event: keyof typeof WHY): void => {
  const lot = openLot(work.line);
  if (lot === null) return;
  moveChart(work, 'lot', event);
  const short = lot.grams < lot.ofKg * 1000;
  const why = WHY[event];
  // One that is due can still be taken: its batch lies on top until the next one is discharged.
  const samples = lot.samples.map((sample) =>
    sample.state === 'ahead' ? { ...sample, state: 'not reached' as const } : sample,
  );
  replaceLast(work, { ...lot, samples, state: short ? 'closed short' : 'closed' });
  tell(work, { is: 'lotClosed', lot: lot.id, grams: lot.grams, batches: lot.batches.length, short, why });
  if (event === 'line.shiftEnded') missSamples(work, () => true, 'the shift ended before it was taken');
  addMark(work, 'lot closed', `Lot ${lot.id} closed${short ? ' short' : ''}: ${why}`);
};

/** The lot a batch starting now belongs to: the open one of the same mix version and bay, else a new one. */
export const lotForBatch = (work: Work): Lot => {
  const { line } = work;
  const mix = presentMix(line);
  const order = presentOrder(line);
  const open = openLot(line);
  const sameMix = open !== null && open.mixId === mix.id && open.mixVersion === mix.version;
  if (open !== null && sameMix && open.bay === order.bay) return open;
  if (open !== null) closeLot(work, sameMix ? 'line.bayChanged' : 'line.mixChanged');
  const id = `${line.scenario.shift.date.slice(2).replaceAll('-', '')}-${line.lots.length + 1}`;
  // A mix with a specification has its samples planned and sealed from outside (machines/world/sampler.ts).
  const planned = specificationOf(line, mix) !== null;
  const at = planned ? [] : sampleTonnages(work, mix.lotKg, mix.samplesPerLot);
  const lot: Lot = {
    id,
    mixId: mix.id,
    mixVersion: mix.version,
    family: mix.family,
    bay: order.bay,
    ofKg: mix.lotKg,
    grams: 0,
    batches: [],
    state: 'open',
    plan: null,
    samples: at.map((atKg, i) => ({
      n: i + 1,
      atKg,
      test: '',
      batch: null,
      dueTick: null,
      state: 'ahead',
    })),
  };
  work.line.lots = [...work.line.lots, lot];
  moveChart(work, 'lot', 'line.lotOpened');
  tell(work, {
    is: 'lotOpened',
    lot: id,
    mix: mix.id,
    mixVersion: mix.version,
    family: mix.family,
    bay: order.bay,
    ...(planned ? {} : { samplesAtKg: at }),
  });
  addMark(work, 'lot opened', `Lot ${id} opened: ${mix.name}`);
  return lot;
};

/** Samples whose tonnage the next discharge reaches fall due. */
export const raiseSamples = (work: Work, nextKg: number): void => {
  const lot = openLot(work.line);
  if (lot === null) return;
  const reachedKg = lot.grams / 1000 + nextKg;
  const due = lot.samples.filter(
    (sample) =>
      (sample.state === 'ahead' && sample.atKg !== null && sample.atKg <= reachedKg) ||
      // Its batch went to waste: it is taken from this one.
      (sample.state === 'due' && sample.batch === null),
  );
  fallDue(work, lot, due);
};

type Sample = Lot['samples'][number];

/** These samples of an open lot are to be taken from the next discharge. */
const fallDue = (work: Work, lot: Lot, due: readonly Sample[]): void => {
  if (due.length === 0) return;
  const { line } = work;
  const batch = line.batch?.n ?? null;
  replaceLast(work, {
    ...lot,
    samples: lot.samples.map((sample) =>
      due.includes(sample)
        ? { ...sample, batch, dueTick: sample.dueTick ?? line.tick, state: 'due' as const }
        : sample,
    ),
  });
  for (const { n, test, atKg } of due)
    tell(work, {
      is: 'sampleDue',
      lot: lot.id,
      sample: n,
      ...(test === '' || atKg === null ? {} : { test, atKg }),
      ...(batch === null || test === '' ? {} : { batch }),
    });
};

/** The sealed plan of the open lot is committed: how many samples of what, and in which part of the lot each lies. */
export const commitPlan = (work: Work, command: Extract<Command, { do: 'commitPlan' }>): void => {
  const { lot: id, specification, commitment, samples } = command;
  work.line.lots = work.line.lots.map((lot) =>
    lot.id === id
      ? {
          ...lot,
          plan: { commitment, opened: false },
          samples: samples.map(({ n, test }) => ({
            n,
            atKg: null,
            test,
            batch: null,
            dueTick: null,
            state: 'ahead' as const,
          })),
        }
      : lot,
  );
  tell(work, { is: 'samplesPlanned', lot: id, specification, commitment, samples });
};

/** The plan says that the next discharge reaches this sample. */
export const callSample = (work: Work, { n, atKg }: Extract<Command, { do: 'callSample' }>): void => {
  const lot = openLot(work.line);
  if (lot === null) return;
  const samples = lot.samples.map((sample) => (sample.n === n ? { ...sample, atKg } : sample));
  fallDue(
    work,
    { ...lot, samples },
    samples.filter((sample) => sample.n === n),
  );
};

/** The plan of a closed lot is laid open, so that anybody can hold it against its commitment. */
export const openPlan = (
  work: Work,
  { lot: id, nonce, atKg }: Extract<Command, { do: 'openPlan' }>,
): void => {
  work.line.lots = work.line.lots.map((lot) =>
    lot.id === id && lot.plan !== null
      ? {
          ...lot,
          plan: { ...lot.plan, opened: true },
          samples: lot.samples.map((sample, i) => ({ ...sample, atKg: atKg[i] ?? sample.atKg })),
        }
      : lot,
  );
  tell(work, { is: 'samplePlanOpened', lot: id, nonce, atKg });
};

/** Samples that are due and whose batch can no longer be sampled are missed. */
const missSamples = (work: Work, gone: (sample: Sample) => boolean, why: string): void => {
  const missed: { lot: string; sample: number; batch: number }[] = [];
  const { line } = work;
  if (!line.lots.some((lot) => lot.samples.some((one) => one.state === 'due' && gone(one)))) return;
  line.lots = line.lots.map((lot) => ({
    ...lot,
    samples: lot.samples.map((sample) => {
      if (sample.state !== 'due' || !gone(sample)) return sample;
      missed.push({ lot: lot.id, sample: sample.n, batch: sample.batch ?? 0 });
      return { ...sample, state: 'missed' as const };
    }),
  }));
  for (const one of missed) {
    tell(work, { is: 'sampleMissed', ...one, why });
    addMark(work, 'sample', `Sample ${one.sample} of lot ${one.lot} missed: ${why}`);
  }
};

/** A batch that went to waste takes no sample with it: those due from it fall due from the next one. */
export const freeSamplesOf = (work: Work, batch: number): void => {
  const { line } = work;
  if (!line.lots.some((lot) => lot.samples.some((one) => one.state === 'due' && one.batch === batch))) return;
  line.lots = line.lots.map((lot) => ({
    ...lot,
    samples: lot.samples.map((sample) =>
      sample.state === 'due' && sample.batch === batch ? { ...sample, batch: null } : sample,
    ),
  }));
};

/** Books a batch to the lot it was started in and closes the lot when it is full. */
export const bookToLot = (work: Work, lotId: string, batch: number, grams: number): void => {
  const { line } = work;
  missSamples(
    work,
    (sample) => sample.batch !== null && sample.batch < batch,
    `batch ${batch} was discharged on top of it`,
  );
  line.lots = line.lots.map((lot) =>
    lot.id === lotId ? { ...lot, grams: lot.grams + grams, batches: [...lot.batches, batch] } : lot,
  );
  const open = openLot(line);
  if (open !== null && open.id === lotId && open.grams >= open.ofKg * 1000)
    closeLot(work, 'line.massReached');
};

/** Marks the sample named, or the first one due, as taken; returns it, or null when none is due. */
export const takeDueSample = (
  work: Work,
  named: { readonly lot?: string | undefined; readonly sample?: number | undefined },
): { lot: string; sample: number; batch: number } | null => {
  const { line } = work;
  const isDue = (lot: Lot, one: Sample) =>
    one.state === 'due' &&
    (named.sample === undefined || one.n === named.sample) &&
    isOutOfMixer(line, lot, one);
  const lot = line.lots.find(
    (one) => (named.lot === undefined || one.id === named.lot) && one.samples.some((s) => isDue(one, s)),
  );
  const sample = lot?.samples.find((one) => isDue(lot, one));
  if (lot === undefined || sample === undefined) return null;
  line.lots = line.lots.map((one) =>
    one.id === lot.id
      ? {
          ...one,
          samples: one.samples.map((s) => (s.n === sample.n ? { ...s, state: 'taken' as const } : s)),
        }
      : one,
  );
  line.samplesTaken += 1;
  const batch = sample.batch ?? lot.batches[lot.batches.length - 1] ?? 0;
  addMark(work, 'sample', `Sample ${sample.n} of lot ${lot.id} taken from batch ${batch}`);
  return { lot: lot.id, sample: sample.n, batch };
};
