/** What the console is shown of job mixes: versions, trials, bins, factors, and the morning they are planned for. */

import { allLots } from '../../lab/lots.ts';
import type { PlantSpec } from '../../scenario/plant.schema.ts';
import type { Specification } from '../../scenario/specification.schema.ts';
import { type BinFigures, binFigures } from './bins.ts';
import { type FactorRow, factorRows } from './factors.ts';
import type { LabSeen, Others } from './lab.types.ts';
import type { MixesState, MixVersion, Trial } from './state.ts';

/** What the lab found in a lot of a mix. */
export type LotResults = {
  readonly lot: string;
  readonly version: number;
  readonly state: string;
  readonly openedAt: string;
  readonly results: readonly { readonly property: string; readonly value: number }[];
};

export type MixView = {
  readonly id: string;
  readonly name: string;
  readonly family: 'emulsion' | 'cutback';
  /** Version in force, or null. */
  readonly inForce: number | null;
  /** Version the newest shift was opened with, or null. */
  readonly running: number | null;
  /** Newest first. */
  readonly versions: readonly MixVersion[];
  readonly trials: readonly Trial[];
  /** Newest first; lots the lab has results of. */
  readonly lots: readonly LotResults[];
};

export type MixesView = {
  readonly at: string;
  readonly mixes: readonly MixView[];
  readonly bins: readonly BinFigures[];
  readonly factors: readonly FactorRow[];
  /** Specifications the shift was opened with, in order of their ids. */
  readonly specifications: readonly Specification[];
  readonly plant: PlantSpec | null;
  readonly morning: MixesState['morning'];
};

/** Lots shown with a mix. */
export const LOTS_SHOWN = 12;

const lotsOf = (lab: LabSeen, mix: string): LotResults[] =>
  allLots({ lots: lab.lots ?? {}, past: lab.past ?? {} })
    .filter((lot) => lot.mixId === mix && lot.results.length > 0)
    .sort((a, b) => (a.openedAt < b.openedAt ? 1 : a.openedAt > b.openedAt ? -1 : 0))
    .slice(0, LOTS_SHOWN)
    .map(({ lot, mixVersion, state, openedAt, results }) => ({
      lot,
      version: mixVersion,
      state,
      openedAt,
      results: results.map(({ property, value }) => ({ property, value })),
    }));

/** The view at the plant's clock `at`; `others` are the states of the other books. */
export const viewMixes = (state: MixesState, at: string, others: Others = {}): MixesView => {
  const lab = others.lab ?? {};
  return {
    at,
    mixes: Object.keys(state.mixes)
      .sort()
      .map((id) => {
        const versions = [...(state.mixes[id] ?? [])].reverse();
        const shown = versions.find((one) => one.state === 'approved') ?? (versions[0] as MixVersion);
        return {
          id,
          name: shown.content.name,
          family: shown.content.family,
          inForce: shown.state === 'approved' ? shown.content.version : null,
          running: state.running[id] ?? null,
          versions,
          trials: state.trials.filter((trial) => trial.mix === id).reverse(),
          lots: lotsOf(lab, id),
        };
      }),
    bins: binFigures(state, lab),
    factors: factorRows(state.factors),
    specifications: Object.values(lab.specifications ?? {}).sort((a, b) => (a.id < b.id ? -1 : 1)),
    plant: state.plant,
    morning: state.morning,
  };
};
