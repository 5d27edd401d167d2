/** What the binder of a mix comes to: residue, absorbed, effective, film; water, total fluids and anti-strip. */
import { type BinderContent, binderContent, doseForResiduePct } from '../../mix/binder-content.ts';
import { filmUm } from '../../mix/specific-surface.ts';
import type { Mix } from '../../scenario/mix.schema.ts';
import type { Range } from './band.ts';
import type { BlendSheet } from './blend-sheet.ts';
import type { Factors } from './factors.ts';
import { type Finding, figure } from './findings.ts';

export type Fluids = {
  /** All in % of dry aggregate. */
  readonly binderPct: number;
  /** Water in the aggregate as it goes into the mixer. */
  readonly waterInStonePct: number;
  readonly waterAddedPct: number;
  readonly totalPct: number;
  readonly mostPct: number;
};

export type BinderSheet = BinderContent & {
  /** What the specification asks of residual binder, % of mix, at this absorption. */
  readonly asked: Range;
  /** Doses that would give the least and most residue asked for. */
  readonly doseFromPct: number | null;
  readonly doseToPct: number | null;
  readonly filmUm: number;
  readonly antiStripPct: number;
  readonly fluids: Fluids | null;
  readonly findings: readonly Finding[];
};

/** Rounded as a result is reported, so that 4.4996 % is not called too little. */
const reported = (value: number): number => Math.round(value * 100) / 100;

const findingsOf = (mix: Mix, sheet: Omit<BinderSheet, 'findings'>, absorptionPct: number): Finding[] => {
  const found: Finding[] = [];
  const say = (weight: Finding['weight'], words: string) => found.push({ weight, part: 'binder', words });
  const { asked, fluids } = sheet;
  const residue = reported(sheet.residueOfMixPct);
  if (asked.from !== null && asked.to !== null && asked.from > asked.to)
    say(
      'warn',
      `At ${figure(absorptionPct)} % absorption the specification asks for at least ${asked.from} % and at most ${asked.to} % of residual binder: no dose meets both.`,
    );
  if (asked.from !== null && residue < asked.from)
    say(
      'warn',
      `Residual binder of ${figure(residue)} % of mix lies below the ${asked.from} % asked for: dose ${figure(sheet.doseFromPct ?? 0)} % on dry aggregate at least.`,
    );
  if (asked.to !== null && residue > asked.to)
    say(
      'warn',
      `Residual binder of ${figure(residue)} % of mix lies above the ${asked.to} % asked for: dose ${figure(sheet.doseToPct ?? 0)} % on dry aggregate at most.`,
    );
  if (fluids !== null && fluids.totalPct > fluids.mostPct)
    say(
      'warn',
      `Total fluids of ${figure(fluids.totalPct, 1)} % on dry aggregate are above ${figure(fluids.mostPct, 1)} %: binder may run off in truck and bay. Use drier stone or less pre-wet water.`,
    );
  if (fluids !== null && fluids.waterInStonePct > mix.preWetPct && mix.preWetPct > 0)
    say(
      'note',
      `The stone brings ${figure(fluids.waterInStonePct, 1)} % water, more than the ${figure(mix.preWetPct, 1)} % wanted: no water is added.`,
    );
  return found;
};

/** moisturePct: water the aggregate brings into the mixer, % of dry mass; 0 for dried aggregate. */
export const binderSheet = (
  mix: Mix,
  blend: BlendSheet,
  moisturePct: number,
  asked: Range,
  factors: Factors,
): BinderSheet => {
  const { dosePct, residueMassPct } = mix.binder;
  const content = binderContent(
    dosePct,
    residueMassPct,
    blend.absorptionPct,
    factors.absorbedPerWater,
    blend.oldBinderPct,
  );
  const addedPct = Math.max(0, mix.preWetPct - moisturePct);
  const fluids: Fluids | null =
    mix.family === 'emulsion'
      ? {
          binderPct: dosePct,
          waterInStonePct: moisturePct,
          waterAddedPct: addedPct,
          totalPct: dosePct + moisturePct + addedPct,
          mostPct: factors.fluidsMaxPct,
        }
      : null;
  const sheet = {
    ...content,
    asked,
    doseFromPct: asked.from === null ? null : doseForResiduePct(asked.from, residueMassPct),
    doseToPct: asked.to === null ? null : doseForResiduePct(asked.to, residueMassPct),
    // The residue weighs about as much as the binder at 15 °C: within a few per cent.
    filmUm: filmUm(content.effectivePct, mix.binder.densityAt15KgM3, blend.surfaceM2Kg),
    antiStripPct: (dosePct * mix.antiStripPctOfBinder) / 100,
    fluids,
  };
  return { ...sheet, findings: findingsOf(mix, sheet, blend.absorptionPct) };
};
