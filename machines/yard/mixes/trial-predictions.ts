/** What a sheet predicts of a trial batch, by the property ids of the lab, so that both can be laid side by side. */
import { propertyOf } from '../../scenario/lab-tests.ts';
import type { MixSheet } from './sheet.ts';

export type Prediction = {
  readonly property: string;
  readonly words: string;
  readonly unit: string;
  /** Null where a sheet cannot know it: bond, workability, coating. */
  readonly predicted: number | null;
};

const UNKNOWN = ['coatedPct', 'workable', 'bondKgCm2'] as const;

const round2 = (value: number): number => Math.round(value * 100) / 100;

/** Predictions in the order a trial is looked at. */
export const predictions = (sheet: MixSheet): Prediction[] => {
  const named = (property: string, predicted: number | null): Prediction[] => {
    const known = propertyOf(property);
    return known === null ? [] : [{ property, words: known.words, unit: known.unit, predicted }];
  };
  return [
    ...named('residualBinderMixPct', round2(sheet.binder.residueOfMixPct)),
    ...sheet.blend.sieves.flatMap((one) => named(`passing:${one.sieveMm}`, round2(one.passingPct))),
    ...named(
      'moisturePct',
      sheet.binder.fluids === null
        ? null
        : round2(sheet.binder.fluids.waterInStonePct + sheet.binder.fluids.waterAddedPct),
    ),
    { property: 'mixC', words: 'mix temperature', unit: '°C', predicted: round2(sheet.temperatures.mixC) },
    ...UNKNOWN.flatMap((property) => named(property, null)),
  ];
};
