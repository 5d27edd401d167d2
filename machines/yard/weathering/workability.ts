/**
 * Whether mix will be workable on a cold morning. Teaching model: it plans the morning and judges no lot; a spade in
 * the heap decides.
 */
import { type ViscosityPoint, viscosityMm2S, waltherLine } from '../../mix/walther.ts';

/** °C at which a sample of stored mix must still break up readily (PennDOT type workability test, from memory). */
export const TEST_C = -7;
const TEST_WORDS = `−${-TEST_C} °C`;
/** °C below which emulsion mix is not laid (from memory). */
export const EMULSION_LAY_FROM_C = 10;
/** mm²/s of the residue at 60 °C: middle of 300–1200 P, AASHTO M 82 Table 1, over 1 g/cm³. */
const RESIDUE_60C_MM2_S = 75_000;
/** Times the stiffness of fresh mix at −7 °C up to which mix is stiff but can be worked (teaching value). */
const STIFF_TIMES = 8;

export type Workability = {
  readonly word: 'workable' | 'stiff' | 'too stiff';
  readonly atC: number;
  /** Viscosity of its binder against that of fresh mix at −7 °C; null for emulsion mix. */
  readonly times: number | null;
  readonly why: string;
};

const loglog = (mm2S: number): number => Math.log10(Math.log10(mm2S + 0.7));

/**
 * Cutback mix at atC that has lost so much of its solvent: viscosity by ASTM D341 through the two points of the binder,
 * moved towards that of its residue in proportion to the loss (a mixing rule on the D341 scale).
 */
export const cutbackWorkability = (
  [cool, hot]: readonly [ViscosityPoint, ViscosityPoint],
  solventLostPct: number,
  atC: number,
): Workability => {
  const line = waltherLine(cool, hot);
  const shift = (solventLostPct / 100) * (loglog(RESIDUE_60C_MM2_S) - loglog(viscosityMm2S(line, 60)));
  const binder = { ...line, a: line.a + shift };
  const times = viscosityMm2S(binder, atC) / viscosityMm2S(line, TEST_C);
  const word = times <= 1 ? 'workable' : times <= STIFF_TIMES ? 'stiff' : 'too stiff';
  const lost = `${Math.round(solventLostPct)} % of its solvent gone`;
  const why =
    word === 'workable'
      ? `no stiffer than fresh mix at ${TEST_WORDS}, where the test must be passed (${lost})`
      : `${times.toFixed(times < 10 ? 1 : 0)} times as stiff as fresh mix at ${TEST_WORDS} (${lost}): ${
          word === 'stiff'
            ? 'dig from the middle of the heap'
            : 'keep a load under cover over night, or use a fresher lot'
        }`;
  return { word, atC, times, why };
};

/** Emulsion mix: by the air it would be laid in, and by how much of its shelf life is over. */
export const emulsionWorkability = (shelfShare: number, atC: number): Workability => {
  if (atC <= 0) return { word: 'too stiff', atC, times: null, why: 'its water freezes: do not lay it' };
  if (shelfShare >= 1)
    return { word: 'too stiff', atC, times: null, why: 'its shelf life is over: have it tested first' };
  if (atC < EMULSION_LAY_FROM_C)
    return {
      word: 'stiff',
      atC,
      times: null,
      why: `emulsion mix is not laid below ${EMULSION_LAY_FROM_C} °C: wait until it is warmer`,
    };
  if (shelfShare > 0.75)
    return { word: 'stiff', atC, times: null, why: 'most of its shelf life is over: it sets, use it first' };
  return { word: 'workable', atC, times: null, why: 'fresh enough, and warm enough to lay' };
};
