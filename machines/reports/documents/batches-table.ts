/** Batches, lots and materials as tables. */
import type { BatchLine, LotLine, MaterialTotal } from '../batches.ts';
import { clockOfStamp } from '../clock.ts';
import type { Table } from '../document.ts';
import { capital } from '../words.ts';

const outcomeOf = (batch: BatchLine): string => {
  if (batch.outcome === 'running') return 'not finished';
  if (batch.dumpedWhy === null) return batch.outcome;
  return `${batch.outcome} by ${batch.dumpedBy}: ${batch.dumpedWhy}`;
};

const outsOf = (batch: BatchLine): number => batch.parts.filter((part) => part.within === false).length;

/** `ofOneLot` leaves out what is the same for all of them. */
export const batchesTable = (batches: readonly BatchLine[], ofOneLot = false): Table => ({
  is: 'table',
  id: 'batches',
  title: 'Batches',
  columns: [
    { key: 'batch', label: 'Batch', unit: '', wide: 7.5 },
    ...(ofOneLot
      ? []
      : [
          { key: 'lot', label: 'Lot', unit: '', wide: 11 },
          { key: 'bay', label: 'Bay', unit: '', wide: 6 },
          { key: 'mix', label: 'Mix', unit: '', wide: 23 },
        ]),
    { key: 'from', label: 'From', unit: '', wide: 11.5 },
    { key: 'to', label: 'To', unit: '', wide: 11.5 },
    { key: 'massKg', label: 'Mass', unit: 'kg', digits: 3, wide: 10 },
    { key: 'mixC', label: 'Mix', unit: '°C', digits: 1, wide: 7 },
    { key: 'mixedS', label: 'Mixed', unit: 's', digits: 0, wide: 8 },
    { key: 'coatedPct', label: 'Coated', unit: '%', digits: 0, wide: 9 },
    { key: 'outs', label: 'Weights out', unit: '', digits: 0, wide: 9.5 },
    { key: 'outcome', label: 'Outcome', unit: '', wide: 14 },
  ],
  rows: batches.map((batch) => [
    batch.batch,
    ...(ofOneLot ? [] : [batch.lot, batch.bay, `${batch.mix} v${batch.mixVersion}`]),
    clockOfStamp(batch.from, true),
    batch.to === null ? null : clockOfStamp(batch.to, true),
    batch.grams / 1000,
    batch.mixC,
    batch.mixedS,
    batch.coatedPct,
    outsOf(batch),
    outcomeOf(batch),
  ]),
  empty: 'No batch.',
  look: batches.flatMap((batch, i) => (batch.dumpedWhy !== null || outsOf(batch) > 0 ? [i] : [])),
});

const kgDigits = (material: string): number =>
  material === 'anti-strip' ? 3 : ['emulsion', 'cutback', 'water'].includes(material) ? 1 : 0;

/** A row a batch: what was weighed of each material, and how far off its target. */
export const weighedTable = (batches: readonly BatchLine[], materials: readonly string[]): Table => ({
  is: 'table',
  id: 'weighed',
  title: 'Weighed, and how far off the target',
  columns: [
    { key: 'batch', label: 'Batch', unit: '', wide: 8 },
    ...materials.flatMap((material) => [
      {
        key: `${material} weighed`,
        label: capital(material),
        unit: 'kg',
        digits: kgDigits(material),
        wide: 11,
      },
      {
        key: `${material} off`,
        label: `${capital(material)} off`,
        unit: 'kg',
        digits: kgDigits(material),
        wide: 10,
      },
    ]),
  ],
  rows: batches.map((batch) => [
    batch.batch,
    ...materials.flatMap((material) => {
      const part = batch.parts.find((one) => one.material === material);
      return [part?.weighedKg ?? null, part?.offKg ?? null];
    }),
  ]),
  empty: 'Nothing was weighed.',
  look: batches.flatMap((batch, i) => (outsOf(batch) > 0 ? [i] : [])),
});

/** A row a weight. `onlyOut` leaves those within their tolerance away. */
export const partsTable = (batches: readonly BatchLine[], onlyOut = false): Table => {
  const rows = batches
    .flatMap((batch) => batch.parts.map((part) => ({ batch, part })))
    .filter(({ part }) => !onlyOut || part.within === false);
  return {
    is: 'table',
    id: 'weights',
    title: onlyOut ? 'Weights outside their tolerance' : 'Weights',
    columns: [
      { key: 'batch', label: 'Batch', unit: '', wide: 6 },
      { key: 'material', label: 'Material', unit: '', wide: 16 },
      { key: 'targetKg', label: 'Target', unit: 'kg', digits: 3, wide: 10 },
      { key: 'weighedKg', label: 'Weighed', unit: 'kg', digits: 3, wide: 10 },
      { key: 'offKg', label: 'Off', unit: 'kg', digits: 3, wide: 9 },
      { key: 'offPct', label: 'Off', unit: '%', digits: 2, wide: 8 },
      { key: 'toleranceKg', label: 'Tolerance ±', unit: 'kg', digits: 3, wide: 14 },
      { key: 'verdict', label: 'Verdict', unit: '', wide: 26 },
    ],
    rows: rows.map(({ batch, part }) => [
      batch.batch,
      part.material,
      part.targetKg,
      part.weighedKg,
      part.offKg,
      part.offPct,
      part.toleranceKg,
      part.within === null
        ? 'no tolerance given'
        : part.within
          ? 'within'
          : part.acceptedBy === null
            ? 'out of tolerance'
            : `out, accepted by ${part.acceptedBy}: ${part.acceptedWhy}`,
    ]),
    empty: onlyOut ? 'Every weight was within its tolerance.' : 'Nothing was weighed.',
    look: rows.flatMap(({ part }, i) => (part.within === false ? [i] : [])),
  };
};

export const lotsTable = (lots: readonly LotLine[]): Table => ({
  is: 'table',
  id: 'lots',
  title: 'Lots',
  columns: [
    { key: 'lot', label: 'Lot', unit: '', wide: 11 },
    { key: 'bay', label: 'Bay', unit: '', wide: 5 },
    { key: 'mix', label: 'Mix', unit: '', wide: 20 },
    { key: 'opened', label: 'Opened', unit: '', wide: 9 },
    { key: 'closed', label: 'Closed', unit: '', wide: 9 },
    { key: 'state', label: 'State', unit: '', wide: 20 },
    { key: 'lotBatches', label: 'Batches', unit: '', digits: 0, wide: 8 },
    { key: 'massKg', label: 'Mass', unit: 'kg', digits: 3, wide: 11 },
    { key: 'samplesTaken', label: 'Samples taken', unit: '', wide: 11 },
  ],
  rows: lots.map((lot) => [
    lot.lot,
    lot.bay,
    `${lot.mix} v${lot.mixVersion}`,
    clockOfStamp(lot.opened),
    lot.closed === null ? null : clockOfStamp(lot.closed),
    lot.why === null ? lot.state : `${lot.state}: ${lot.why}`,
    lot.batches.length,
    lot.grams / 1000,
    `${lot.samples.filter((one) => one.state === 'taken').length} of ${lot.samples.length}`,
  ]),
  empty: 'No lot.',
  look: lots.flatMap((lot, i) => (lot.samples.some((one) => one.state === 'missed') ? [i] : [])),
});

export const materialsTable = (materials: readonly MaterialTotal[]): Table => ({
  is: 'table',
  id: 'materials',
  title: 'Materials, asked for and weighed',
  columns: [
    { key: 'material', label: 'Material', unit: '', wide: 20 },
    { key: 'inBatches', label: 'In batches', unit: '', digits: 0, wide: 10 },
    { key: 'targetKg', label: 'Target', unit: 'kg', digits: 3, wide: 14 },
    { key: 'weighedKg', label: 'Weighed', unit: 'kg', digits: 3, wide: 14 },
    { key: 'offKg', label: 'Off', unit: 'kg', digits: 3, wide: 12 },
    { key: 'offPct', label: 'Off', unit: '%', digits: 3, wide: 10 },
  ],
  rows: materials.map((one) => [
    one.material,
    one.batches,
    one.targetKg,
    one.weighedKg,
    one.offKg,
    one.offPct,
  ]),
  empty: 'Nothing was weighed into a batch.',
});

export const samplesTable = (lots: readonly LotLine[]): Table => ({
  is: 'table',
  id: 'samples',
  title: 'Samples',
  columns: [
    { key: 'lot', label: 'Lot', unit: '', wide: 12 },
    { key: 'sample', label: 'Sample', unit: '', wide: 8 },
    { key: 'atKg', label: 'Drawn by lot at', unit: 'kg', digits: 0, wide: 14 },
    { key: 'state', label: 'State', unit: '', wide: 12 },
    { key: 'batch', label: 'Batch', unit: '', wide: 8 },
    { key: 'taken', label: 'Taken', unit: '', wide: 20 },
    { key: 'by', label: 'By', unit: '', wide: 16 },
  ],
  rows: lots.flatMap((lot) =>
    lot.samples.map((one) => [lot.lot, one.sample, one.atKg, one.state, one.batch, one.taken, one.by ?? '']),
  ),
  empty: 'No sample was asked for.',
  look: lots.flatMap((lot) => lot.samples).flatMap((one, i) => (one.state === 'missed' ? [i] : [])),
});
