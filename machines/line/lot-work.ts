/** Lots: opened by their first batch, filled to 10 t, closed when full, at a change of mix or at shift end. */

import type { Lot } from './line.types.ts';
import { openLot, presentMix, presentOrder } from './lookup.ts';
import { drawUnit } from './random.ts';
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
  const samples = lot.samples.map((sample) => {
    if (sample.state === 'due') return { ...sample, state: 'missed' as const };
    return sample.state === 'ahead' ? { ...sample, state: 'not reached' as const } : sample;
  });
  replaceLast(work, { ...lot, samples, state: short ? 'closed short' : 'closed' });
  tell(work, { is: 'lotClosed', lot: lot.id, grams: lot.grams, batches: lot.batches.length, short, why });
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
  const at = sampleTonnages(work, mix.lotKg, mix.samplesPerLot);
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
    samples: at.map((atKg, i) => ({ n: i + 1, atKg, batch: null, state: 'ahead' })),
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
    samplesAtKg: at,
  });
  addMark(work, 'lot opened', `Lot ${id} opened: ${mix.name}`);
  return lot;
};

/** Samples whose tonnage the next discharge reaches fall due. */
export const raiseSamples = (work: Work, nextKg: number): void => {
  const lot = openLot(work.line);
  if (lot === null) return;
  const reachedKg = lot.grams / 1000 + nextKg;
  const due = lot.samples.filter((sample) => sample.state === 'ahead' && sample.atKg <= reachedKg);
  if (due.length === 0) return;
  replaceLast(work, {
    ...lot,
    samples: lot.samples.map((sample) =>
      due.includes(sample) ? { ...sample, batch: work.line.batch?.n ?? null, state: 'due' as const } : sample,
    ),
  });
  for (const sample of due) tell(work, { is: 'sampleDue', lot: lot.id, sample: sample.n });
};

/** Books a batch to the lot it was started in and closes the lot when it is full. */
export const bookToLot = (work: Work, lotId: string, batch: number, grams: number): void => {
  const { line } = work;
  line.lots = line.lots.map((lot) =>
    lot.id === lotId ? { ...lot, grams: lot.grams + grams, batches: [...lot.batches, batch] } : lot,
  );
  const open = openLot(line);
  if (open !== null && open.id === lotId && open.grams >= open.ofKg * 1000)
    closeLot(work, 'line.massReached');
};

/** Marks the first due sample of any lot as taken; returns it, or null when none is due. */
export const takeDueSample = (work: Work): { lot: string; sample: number; batch: number } | null => {
  const { line } = work;
  const lot = line.lots.find((one) => one.samples.some((sample) => sample.state === 'due'));
  const sample = lot?.samples.find((one) => one.state === 'due');
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
