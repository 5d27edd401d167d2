/** What a blend is: its grading against the band, its surface, what it drinks, and what rules bind its bins. */
import { blendGrading, type Grading, passingPct } from '../../mix/gradation.ts';
import { specificSurfaceM2Kg } from '../../mix/specific-surface.ts';
import type { Mix } from '../../scenario/mix.schema.ts';
import type { BinFigures } from './bins.ts';
import { insidePct } from './blend.ts';
import type { BandSieve } from './blend-problem.ts';
import { type Finding, figure } from './findings.ts';

export type BlendSheet = {
  readonly grading: Grading;
  readonly sieves: readonly (BandSieve & { readonly passingPct: number; readonly insidePct: number })[];
  readonly surfaceM2Kg: number;
  /** Water the blend drinks, % of dry stone. */
  readonly absorptionPct: number;
  readonly naturalSandPct: number;
  readonly reclaimedPct: number;
  /** Old binder of the reclaimed part, % of dry aggregate as fed. */
  readonly oldBinderPct: number;
  readonly findings: readonly Finding[];
};

/** Binder on dry reclaimed pavement alone, % of it: special emulsion. Common practice, no source. */
export const RECLAIMED_DOSE_PCT = { from: 1.5, to: 2.5 } as const;

type Fed = { readonly figures: BinFigures; readonly share: number };

const sum = (fed: readonly Fed[], of: (figures: BinFigures) => number): number =>
  fed.reduce((total, { figures, share }) => total + share * of(figures), 0);

const findingsOf = (mix: Mix, sheet: Omit<BlendSheet, 'findings'>): Finding[] => {
  const found: Finding[] = [];
  const say = (weight: Finding['weight'], words: string) => found.push({ weight, part: 'blend', words });
  for (const sieve of sheet.sieves)
    if (sieve.insidePct < -0.05)
      say(
        'warn',
        `${figure(sieve.passingPct, 1)} % pass ${sieve.sieveMm} mm: the band runs from ${sieve.fromPct} to ${sieve.toPct} %.`,
      );
  if (sheet.naturalSandPct > 0)
    say(
      'warn',
      `${figure(sheet.naturalSandPct, 1)} % is natural sand: round grains lock poorly, so patching mix is made of crushed fines only (common practice, no source).`,
    );
  if (sheet.reclaimedPct > 0 && mix.family === 'cutback')
    say(
      'warn',
      'Reclaimed pavement must not go through the lit dryer as new stone does: its old binder smokes and can catch fire (common practice, no source). Ask the maker of the dryer.',
    );
  if (sheet.reclaimedPct >= 90) {
    const { from, to } = RECLAIMED_DOSE_PCT;
    if (mix.binder.dosePct < from || mix.binder.dosePct > to)
      say(
        'warn',
        `On dry reclaimed pavement ${from}–${to} % of special emulsion is usual (common practice, no source), the mix asks for ${figure(mix.binder.dosePct)} %.`,
      );
  } else if (sheet.reclaimedPct > 0)
    say(
      'note',
      `The reclaimed part brings ${figure(sheet.oldBinderPct)} % of old binder on dry aggregate: it is not counted as new coating.`,
    );
  if (sheet.absorptionPct > 2)
    say(
      'warn',
      `The blend drinks ${figure(sheet.absorptionPct)} % water: above 2 % stone is taken only when soundness and wet stripping pass (IRC:SP:100 Table 6.9).`,
    );
  return found;
};

/** The blend of a mix from the figures of the bins; bins without a sieve analysis are named. */
export const blendSheet = (mix: Mix, bins: readonly BinFigures[], band: readonly BandSieve[]): BlendSheet => {
  const fed = mix.aggregates.flatMap((part): Fed[] => {
    const figures = bins.find((one) => one.bin === part.bin);
    return figures === undefined ? [] : [{ figures, share: part.dryPct / 100 }];
  });
  const stone = sum(fed, (figures) => 1 - figures.ownBinderPct / 100);
  const grading = blendGrading(
    fed.map(({ figures, share }) => ({
      share: stone > 0 ? (share * (1 - figures.ownBinderPct / 100)) / stone : 0,
      grading: figures.grading,
    })),
  );
  const sheet = {
    grading,
    sieves: band.map((sieve) => {
      const value = passingPct(grading, sieve.sieveMm);
      return { ...sieve, passingPct: value, insidePct: insidePct(sieve, value) };
    }),
    surfaceM2Kg: specificSurfaceM2Kg(grading),
    absorptionPct: sum(fed, (figures) => figures.absorptionPct),
    naturalSandPct: 100 * sum(fed, (figures) => (figures.kind === 'natural sand' ? 1 : 0)),
    reclaimedPct: 100 * sum(fed, (figures) => (figures.kind === 'reclaimed' ? 1 : 0)),
    oldBinderPct: sum(fed, (figures) => figures.ownBinderPct),
  };
  const unknown = fed
    .filter(({ figures }) => figures.grading.length === 0)
    .map(
      ({ figures }): Finding => ({
        weight: 'warn',
        part: 'blend',
        words: `Bin ${figures.bin} has no sieve analysis: have one made, or describe the bin.`,
      }),
    );
  return { ...sheet, findings: [...unknown, ...findingsOf(mix, sheet)] };
};
