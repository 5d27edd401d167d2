/** Field by field, what differs between two versions of a mix. */
import type { Mix } from '../../scenario/mix.schema.ts';

export type Difference = {
  /** Path in the mix file, such as binder.dosePct. */
  readonly path: string;
  /** In words, with the unit where there is one. */
  readonly field: string;
  /** null where the version has no such field. */
  readonly was: string | null;
  readonly now: string | null;
};

const FIELDS: { readonly [path: string]: readonly [words: string, unit: string] } = {
  name: ['Name', ''],
  family: ['Family', ''],
  basis: ['Where the figures come from', ''],
  batchKg: ['Batch', 'kg'],
  lotKg: ['Lot', 'kg'],
  specification: ['Specification', ''],
  samplesPerLot: ['Samples a lot', ''],
  antiStripPctOfBinder: ['Anti-strip, of binder', '%'],
  preWetPct: ['Water wanted before binder, on dry aggregate', '%'],
  'binder.grade': ['Binder', ''],
  'binder.dosePct': ['Dose, on dry aggregate', '%'],
  'binder.residueMassPct': ['Residue of the binder, by mass', '%'],
  'binder.densityAt15KgM3': ['Density of the binder at 15 °C', 'kg/m³'],
  'binder.solventMassPct': ['Solvent in the binder', '%'],
  'binder.flashC': ['Flash point', '°C'],
  'binder.viscosity.1.tempC': ['First viscosity, at', '°C'],
  'binder.viscosity.1.mm2S': ['First viscosity', 'mm²/s'],
  'binder.viscosity.2.tempC': ['Second viscosity, at', '°C'],
  'binder.viscosity.2.mm2S': ['Second viscosity', 'mm²/s'],
  'windows.aggregateC.fromC': ['Aggregate, coldest', '°C'],
  'windows.aggregateC.toC': ['Aggregate, hottest', '°C'],
  'windows.drawAtC': ['Aggregate is drawn at', '°C'],
  'windows.binderC.fromC': ['Binder, coldest', '°C'],
  'windows.binderC.toC': ['Binder, hottest', '°C'],
  'windows.tankSetC': ['Tank held at', '°C'],
  'times.preWetMixS': ['Mixing before the binder', 's'],
  'times.binderMixS': ['Mixing with the binder', 's'],
  'times.extraMixS': ['Further mixing at a time', 's'],
  'times.longestMixS': ['Mixing in all, at most', 's'],
  'tolerance.aggregatePct': ['Tolerance of aggregate', '%'],
  'tolerance.binderPct': ['Tolerance of binder', '%'],
  'tolerance.waterPct': ['Tolerance of water', '%'],
  'drying.chargeKg': ['Dryer charge', 'kg'],
  'drying.outC': ['Stone leaves the dryer at', '°C'],
};

/** Words and unit of a field by its path in the mix file. */
export const wordsOf = (path: string): readonly [string, string] => {
  const bin = /^aggregates\.(\d+)$/.exec(path);
  if (bin !== null) return [`Share of bin ${bin[1]}`, '%'];
  return FIELDS[path] ?? [path, ''];
};

type Leaves = { [path: string]: string | number };

const collect = (value: unknown, path: string, into: Leaves): void => {
  if (typeof value === 'string' || typeof value === 'number') into[path] = value;
  else if (Array.isArray(value))
    value.forEach((one, i) => {
      const share = one as { bin?: number; dryPct?: number };
      if (path === 'aggregates') into[`aggregates.${share.bin}`] = share.dryPct ?? 0;
      else collect(one, `${path}.${i + 1}`, into);
    });
  else if (typeof value === 'object' && value !== null)
    for (const [key, inner] of Object.entries(value))
      collect(inner, path === '' ? key : `${path}.${key}`, into);
};

/** Fields of a mix file as plain values by path; null fields are left out, as are kind, id and version. */
export const leavesOf = (mix: Mix): { readonly [path: string]: string | number } => {
  const leaves: Leaves = {};
  collect(mix, '', leaves);
  for (const path of ['kind', 'id', 'version']) delete leaves[path];
  return leaves;
};

const shown = (value: string | number | undefined, unit: string): string | null =>
  value === undefined ? null : unit === '' ? String(value) : `${value} ${unit}`;

/** Fields that differ, in the order of the mix file; none when both say the same. */
export const differences = (was: Mix, now: Mix): Difference[] => {
  const before = leavesOf(was);
  const after = leavesOf(now);
  const paths = [...new Set([...Object.keys(after), ...Object.keys(before)])];
  return paths
    .filter((path) => before[path] !== after[path])
    .map((path) => {
      const [field, unit] = wordsOf(path);
      return { path, field, was: shown(before[path], unit), now: shown(after[path], unit) };
    });
};

/** Every path that has words of its own: a test holds this against the mix schema. */
export const NAMED_PATHS = Object.keys(FIELDS);
