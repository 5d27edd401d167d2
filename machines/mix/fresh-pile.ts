/**
 * A pile of fresh cutback mix through a day: it cools, and solvent leaves its skin ever more slowly.
 *
 * Standard physics: Newton's cooling; Raoult's law; a mass-transfer correlation in series with diffusion
 * through the skin that has dried already (a receding front). Teaching model: the pile is one temperature, its skin half way
 * to the air; skin and heat-loss figures are of the order of size only.
 */
import { evaporationKgSM2, solventDiffusionM2S, solventTransferMS } from './evaporation.ts';
import { integrate, type Rates } from './ode.ts';
import { solventKPa, vapourKgM3 } from './solvent.ts';

/** kJ/kg·K, asphalt mixture; handbook table of specific heats of solids. */
const MIX_CP_KJ_KG_K = 0.92;
/** kg/m³, loose cold mix (from memory). */
const LOOSE_KG_M3 = 1600;
/** Share of the skin that is air (teaching value); diffusion through it falls as its power 4/3 (Millington, from memory). */
const VOIDS = 0.25;
/** W/m²·K lost to still air, and more with each m/s of wind (teaching values). */
const LOSS_W_M2_K = { still: 10, perMS: 4 } as const;
/** Height in m of the air that carries the vapour away, within which it is taken as mixed (teaching value). */
const MIXED_HEIGHT_M = 0.5;
const STEP_S = 60;

export type Pile = {
  readonly massKg: number;
  readonly startC: number;
  /** Solvent in the fresh mix, % of its mass. */
  readonly solventPctOfMix: number;
  /** Mole share of solvent in the binder. */
  readonly moleShare: number;
  readonly windMS: number;
  /** Air in °C at a time in s from when the pile was laid. */
  readonly airC: (atS: number) => number;
};

/** Base radius and slope area of a cone of so much loose mix at 38° of repose, m and m² (plane geometry). */
export const coneOf = (massKg: number): { readonly radiusM: number; readonly areaM2: number } => {
  const slope = (38 * Math.PI) / 180;
  const radiusM = Math.cbrt((3 * (massKg / LOOSE_KG_M3)) / (Math.PI * Math.tan(slope)));
  return { radiusM, areaM2: (Math.PI * radiusM * radiusM) / Math.cos(slope) };
};

const skinC = (pile: Pile, tempC: number, atS: number): number => (tempC + pile.airC(atS)) / 2;

/** Evaporation in kg/s·m² once lostKgM2 has left each m² of its skin. */
const leavingKgSM2 = (pile: Pile, tempC: number, lostKgM2: number, atS: number): number => {
  const skin = skinC(pile, tempC, atS);
  const wet = solventTransferMS(pile.windMS, 2 * coneOf(pile.massKg).radiusM, skin);
  const dryM = lostKgM2 / ((LOOSE_KG_M3 * pile.solventPctOfMix) / 100);
  const resistance = 1 / wet + dryM / (solventDiffusionM2S(skin) * VOIDS ** (4 / 3));
  return evaporationKgSM2(vapourKgM3(solventKPa(skin, pile.moleShare), skin), resistance);
};

/** Rates of change of a pile's temperature in °C and of what each m² has lost in kg. */
export const pileRates = (pile: Pile): Rates => {
  const { areaM2 } = coneOf(pile.massKg);
  const lossWPerK = areaM2 * (LOSS_W_M2_K.still + LOSS_W_M2_K.perMS * pile.windMS);
  return (atS, [tempC = 0, lostKgM2 = 0]) => [
    (-lossWPerK * (tempC - pile.airC(atS))) / (pile.massKg * MIX_CP_KJ_KG_K * 1000),
    leavingKgSM2(pile, tempC, lostKgM2, atS),
  ];
};

export type PileMoment = {
  readonly atS: number;
  readonly airC: number;
  readonly tempC: number;
  readonly leavingKgH: number;
  readonly lostKg: number;
  /** Vapour in the air just behind the pile, kg/m³. */
  readonly behindKgM3: number;
};

/** The pile every everyS seconds (a multiple of 60) for so many hours from being laid. */
export const pileThrough = (pile: Pile, hours: number, everyS: number): readonly PileMoment[] => {
  const { areaM2, radiusM } = coneOf(pile.massKg);
  const wind = Math.max(0.1, pile.windMS);
  return integrate(pileRates(pile), [pile.startC, 0], hours * 3600, STEP_S, everyS / STEP_S).map(
    ({ atS, y: [tempC = 0, lostKgM2 = 0] }) => {
      const leaving = leavingKgSM2(pile, tempC, lostKgM2, atS) * areaM2;
      return {
        atS,
        airC: pile.airC(atS),
        tempC,
        leavingKgH: leaving * 3600,
        lostKg: lostKgM2 * areaM2,
        behindKgM3: leaving / (wind * 2 * radiusM * MIXED_HEIGHT_M),
      };
    },
  );
};
