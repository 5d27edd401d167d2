/** The properties that worksheets give results in; names, units and digits are those of machines/scenario/lab-tests.ts. */
import { propertyOf } from '../../scenario/lab-tests.ts';

/** passing:<sieveMm> and distillate:<°C> are families of properties; the number is written as plain as can be. */
export type Property =
  | `passing:${number}`
  | `distillate:${number}`
  | 'residualBinderMixPct'
  | 'residualBinderAggPct'
  | 'bondKgCm2'
  | 'bondMPa'
  | 'workable'
  | 'breakUpS'
  | 'coatedPct'
  | 'wetCoatedPct'
  | 'immersionCoatedPct'
  | 'countCoatedPct'
  | 'moisturePct'
  | 'mixMoisturePct'
  | 'residuePct'
  | 'residueVolumePct'
  | 'viscosityMm2S'
  | 'furolS'
  | 'flashC'
  | 'waterPct'
  | 'densityKgM3'
  | 'flakinessElongationPct'
  | 'impactPct'
  | 'abrasionPct'
  | 'soundnessPct'
  | 'soundnessMagnesiumPct'
  | 'absorptionPct'
  | 'fracturedPct'
  | 'sandEquivalentPct';

/** Name as a heading, unit and digits of a property; the id itself when it is unknown. */
export const propertyNamed = (
  property: string,
): { readonly label: string; readonly unit: string; readonly decimals: number } => {
  const known = propertyOf(property);
  if (known === null) return { label: property, unit: '', decimals: 2 };
  const { words, unit, decimals } = known;
  return { label: words.charAt(0).toUpperCase() + words.slice(1), unit, decimals };
};

/** Property id of % passing a sieve. */
export const passingOf = (sieveMm: number): `passing:${number}` => `passing:${sieveMm}`;
