/** From dose to binder that counts and back: residue on mix and on aggregate, absorbed and effective binder. */
import { onAggregatePct, onMixPct, residueOfAggregatePct } from './residue.ts';

/** Dose of binder as delivered, % of dry aggregate, that leaves a residue of ofMixPct of the cured mix. */
export const doseForResiduePct = (ofMixPct: number, residueMassPct: number): number =>
  (100 * onAggregatePct(ofMixPct)) / residueMassPct;

/** Binder the stone drinks, % of dry aggregate, from the water it drinks and the share of it (a first guess). */
export const absorbedBinderPct = (waterAbsorptionPct: number, absorbedPerWater: number): number =>
  waterAbsorptionPct * absorbedPerWater;

export type BinderContent = {
  /** All in %; on dry aggregate unless the name says mix. */
  readonly dosePct: number;
  readonly residuePct: number;
  readonly residueOfMixPct: number;
  readonly absorbedPct: number;
  /** What stays on the surface of the stone. */
  readonly effectivePct: number;
  readonly effectiveOfMixPct: number;
  /** Old binder that reclaimed pavement brings; it coats nothing anew and is shown apart. */
  readonly oldBinderPct: number;
};

/**
 * Content of a cured mix: effective = residue less absorbed, Pbe = Pb − Pba·Ps/100 on mix (usual volumetric practice,
 * Asphalt Institute MS-2, from memory). Never below 0.
 */
export const binderContent = (
  dosePct: number,
  residueMassPct: number,
  waterAbsorptionPct: number,
  absorbedPerWater: number,
  oldBinderPct = 0,
): BinderContent => {
  const residuePct = residueOfAggregatePct(dosePct, residueMassPct);
  const absorbedPct = Math.min(residuePct, absorbedBinderPct(waterAbsorptionPct, absorbedPerWater));
  const residueOfMixPct = onMixPct(residuePct);
  return {
    dosePct,
    residuePct,
    residueOfMixPct,
    absorbedPct,
    effectivePct: residuePct - absorbedPct,
    effectiveOfMixPct: residueOfMixPct - (absorbedPct * (100 - residueOfMixPct)) / 100,
    oldBinderPct,
  };
};
