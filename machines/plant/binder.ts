/** What a binder is made of and how thick it is: constants the plant takes from tank and mix files. */
import { type WaltherLine, waltherLine } from '../mix/walther.ts';
import type { Mix } from '../scenario/mix.schema.ts';
import type { TankSpec } from '../scenario/plant.schema.ts';

export type Binder = {
  /** Mass shares; what is neither water nor solvent is bitumen residue. */
  readonly waterShare: number;
  readonly solventShare: number;
  /** Specific gravity for the heat capacity of the petroleum part. */
  readonly residueSg: number;
  /** Viscosity of the binder as delivered, ASTM D341. */
  readonly line: WaltherLine;
  /** Mixing beyond this many seconds begins to strip the stone. */
  readonly wearsAfterS: number;
};

/** When no mix of the family is given: order of size for slow-setting emulsion and MC-800 (from memory). */
const FALLBACK = {
  emulsion: { residueMassPct: 60, cool: { tempC: 25, mm2S: 80 }, hot: { tempC: 60, mm2S: 25 } },
  cutback: { residueMassPct: 84, cool: { tempC: 60, mm2S: 1200 }, hot: { tempC: 100, mm2S: 110 } },
} as const;

/** The binder in a tank; its viscosity and residue come from the first mix of that family. */
export const binderIn = (tank: TankSpec, mixes: readonly Mix[]): Binder => {
  const family = tank.contents;
  const mix = mixes.find((one) => one.family === family);
  const [cool, hot] = mix?.binder.viscosity ?? [FALLBACK[family].cool, FALLBACK[family].hot];
  const residueShare = (mix?.binder.residueMassPct ?? FALLBACK[family].residueMassPct) / 100;
  const solventShare = tank.solventMassPct / 100;
  return {
    waterShare: family === 'emulsion' ? Math.max(0, 1 - residueShare - solventShare) : 0,
    solventShare,
    residueSg: family === 'emulsion' ? 1.02 : tank.densityAt15KgM3 / 1000,
    line: waltherLine(cool, hot),
    wearsAfterS: mix?.times.longestMixS ?? 300,
  };
};
