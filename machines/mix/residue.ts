/** Residual binder: what stays of an emulsion or a cutback once its water or solvent has gone. */

/** Residual binder as % of the finished mix (residue and dry aggregate), from the dose on dry aggregate. */
export const residueOfMixPct = (dosePctOfAggregate: number, residueMassPct: number): number => {
  const residue = (dosePctOfAggregate * residueMassPct) / 100;
  return (100 * residue) / (100 + residue);
};

/** Residual binder as % of the dry aggregate. */
export const residueOfAggregatePct = (dosePctOfAggregate: number, residueMassPct: number): number =>
  (dosePctOfAggregate * residueMassPct) / 100;

/** From % of mix to % of aggregate: 5.00 % of mix is 5.26 % of aggregate. */
export const onAggregatePct = (ofMixPct: number): number => (100 * ofMixPct) / (100 - ofMixPct);

/** From % of aggregate to % of mix. */
export const onMixPct = (ofAggregatePct: number): number => (100 * ofAggregatePct) / (100 + ofAggregatePct);

/**
 * Mass % of a part whose volume % is known, from both densities (same unit). Cutback residue by
 * distillation (ASTM D402, D2027) is printed in volume %; a recipe by mass must convert it.
 */
export const massPctOfVolumePct = (volumePct: number, partDensity: number, restDensity: number): number => {
  const part = volumePct * partDensity;
  return (100 * part) / (part + (100 - volumePct) * restDensity);
};
