/** What the lab book takes from a shift that opens: its mixes and specifications, and the air outside. */
import type { HeardAt } from '../record/book.types.ts';
import type { Scenario } from '../scenario/shift.schema.ts';
import type { LabState } from './state.ts';

/** Files of one id and version are one thing: a change of content without a change of version is the newest. */
const byVersion = <T extends { readonly id: string; readonly version: number }>(
  known: { readonly [key: string]: T },
  more: readonly T[],
): { readonly [key: string]: T } =>
  more.length === 0
    ? known
    : { ...known, ...Object.fromEntries(more.map((one) => [`${one.id}@${one.version}`, one])) };

export const hearOpening = (state: LabState, scenario: Scenario, heard: HeardAt): LabState => ({
  ...state,
  shift: { seq: heard.shift === 0 ? heard.seq : heard.shift, date: scenario.shift.date },
  now: {
    ...state.now,
    airC: String(scenario.shift.weather.startC),
    absorptionPct: (scenario.plant.bins ?? []).map((bin) => bin.absorptionPct),
    gradings: (scenario.plant.bins ?? []).map((bin) => bin.grading ?? null),
  },
  mixes: byVersion(state.mixes, scenario.mixes),
  specifications: byVersion(state.specifications, scenario.specifications ?? []),
});
