/** What is known of each bin: the plant file, then what a person described anew, then the lab's newest tests. */
import type { BinSpec } from '../../scenario/plant.schema.ts';
import type { BinDescription } from './facts.ts';
import type { LabSeen } from './lab.types.ts';
import type { MixesState } from './state.ts';

export type LabAnalysis = {
  readonly worksheet: string;
  readonly at: string;
  readonly grading: BinDescription['grading'];
  readonly absorptionPct: number | null;
};

export type BinFigures = BinDescription & {
  /** Number of the bin, from 1. */
  readonly bin: number;
  readonly name: string;
  readonly size: string;
  readonly moisturePct: number;
  readonly moistureSource: string;
  /** What the line corrects its weights for just now. */
  readonly lineMoisturePct: number;
  /** Whether a person described it, or the plant file stands. */
  readonly described: boolean;
  /** The lab's newest sieve analysis of the bin, for a person to take over; null when there is none. */
  readonly analysis: LabAnalysis | null;
};

/** 2026-05-13 06:10 */
const minute = (at: string): string => at.slice(0, 16).replace('T', ' ');

const PASSING = 'passing:';

/** The newest sieve analysis the lab made of a bin. */
export const analysisOf = (lab: LabSeen, bin: number): LabAnalysis | null => {
  const sheets = (lab.others ?? []).filter(
    (one) => one.aside === null && one.subject?.kind === 'bin' && one.subject.id === String(bin),
  );
  const sieved = sheets.findLast((one) => one.results.some(({ property }) => property.startsWith(PASSING)));
  if (sieved === undefined) return null;
  const soaked = sheets.findLast((one) => one.results.some(({ property }) => property === 'absorptionPct'));
  return {
    worksheet: sieved.id,
    at: sieved.testedAt,
    grading: sieved.results
      .filter(({ property }) => property.startsWith(PASSING))
      .map(({ property, value }) => ({ sieveMm: Number(property.slice(PASSING.length)), passingPct: value }))
      .sort((a, b) => b.sieveMm - a.sieveMm),
    absorptionPct: soaked?.results.find(({ property }) => property === 'absorptionPct')?.value ?? null,
  };
};

const figuresOf = (
  spec: BinSpec,
  bin: number,
  described: BinDescription | undefined,
  lab: LabSeen,
  openedAt: string,
): BinFigures => {
  // A test from before the shift is older than this morning's figure.
  const test = lab.moisture?.find((one) => one.bin === bin && one.at >= openedAt);
  return {
    bin,
    name: spec.name,
    size: spec.size,
    kind: described?.kind ?? 'crushed stone',
    grading: described?.grading ?? spec.grading ?? [],
    absorptionPct: described?.absorptionPct ?? spec.absorptionPct,
    ownBinderPct: described?.ownBinderPct ?? 0,
    source: described?.source ?? 'plant file',
    moisturePct: test?.moisturePct ?? spec.testedMoisturePct,
    moistureSource: test === undefined ? 'what the line weighs for' : `${test.worksheet}, ${minute(test.at)}`,
    lineMoisturePct: spec.testedMoisturePct,
    described: described !== undefined,
    analysis: analysisOf(lab, bin),
  };
};

/** Figures of every bin of the plant; none before a shift was opened. */
export const binFigures = (
  state: Pick<MixesState, 'plant' | 'bins' | 'morning'>,
  lab: LabSeen,
): BinFigures[] => {
  const openedAt = state.morning === null ? '' : `${state.morning.date}T${state.morning.startsAt}`;
  return (state.plant?.bins ?? []).map((spec, i) =>
    figuresOf(spec, i + 1, state.bins[String(i + 1)], lab, openedAt),
  );
};
