/**
 * A binder tank: a lying cylinder, heated by an oil coil, losing heat, stirred or still.
 *
 * Heat balance and volume correction are standard (lumped contents; ASTM D4311, and a plain factor for
 * emulsion from memory). That a still tank takes coil heat less well is a teaching model.
 */
import { dipOfM } from '../mix/cylinder.ts';
import { petroleumCpKjKgK } from '../mix/petroleum.ts';
import { WATER_CP_KJ_KG_K } from '../mix/published.ts';
import { bitumenColumn, densityKgM3, type VolumeColumn } from '../mix/volume-correction.ts';
import { viscosityMm2S } from '../mix/walther.ts';
import type { TankSpec } from '../scenario/plant.schema.ts';
import type { Binder } from './binder.ts';
import type { TankDelivery } from './tank-contents.ts';
import { approach, lagShare, STEP_S, STEPS_PER_S } from './time.ts';

const STIR_SHARE = lagShare(3);
const FEED_SHARE = lagShare(0.25);
/** Heat a coil gives in a still tank against a stirred one. */
const STILL_COIL = 0.55;
/** mm²/s above which a feed pump begins to slow. */
const PUMPS_FREELY_MM2_S = 1500;

/** Looked up once a second, as it changes slowly. */
export type TankSeen = {
  readonly cpKjKgK: number;
  readonly dipM: number;
  /** How freely the binder pumps, 0 to 1. */
  readonly pumpShare: number;
};

export type Tank = {
  readonly massKg: number;
  readonly tempC: number;
  readonly stirShare: number;
  /** Feed flow towards the bucket, kg/s, and what it gave in this step. */
  readonly feedKgS: number;
  readonly gaveKg: number;
  readonly seen: TankSeen;
  /** Of what it gave, the part that is the other binder. */
  readonly gaveOtherKg: number;
  /** Heat given by the coil in this step, W: the oil circuit loses as much. */
  readonly coilW: number;
  /** Within massKg: the other binder, mixed in, and free water at the bottom, below what is drawn. */
  readonly otherKg: number;
  readonly waterKg: number;
  readonly waterMm: number;
  /** Foam above the contents, m. */
  readonly foamM: number;
  readonly delivery: TankDelivery | null;
  /** Since the start, for the balance of the tank. */
  readonly deliveredKg: number;
  readonly spilledKg: number;
  readonly boiledKg: number;
  readonly drawnOffKg: number;
  readonly ventLelPct: number;
};

/** What is not as usual in a tank when a shift begins. */
export type TankThisMorning = {
  readonly waterKg?: number | undefined;
  readonly otherBinderKg?: number | undefined;
};

/** Volume correction that holds for a tank: column A or B of ASTM D4311, or the factor for emulsion. */
export const columnOf = (spec: TankSpec): VolumeColumn =>
  spec.contents === 'emulsion' ? 'emulsion' : bitumenColumn(spec.densityAt15KgM3);

/** Specific heat of what is in the tank, kJ/kg·K: by mass of residue and water, or as petroleum (NBS MP 97). */
export const binderCpKjKgK = (binder: Binder, tempC: number): number =>
  (1 - binder.waterShare) * petroleumCpKjKgK(tempC, binder.residueSg) + binder.waterShare * WATER_CP_KJ_KG_K;

const lookedUp = (massKg: number, tempC: number, nearM: number, spec: TankSpec, binder: Binder): TankSeen => {
  const rho = densityKgM3(columnOf(spec), spec.densityAt15KgM3, tempC);
  return {
    cpKjKgK: binderCpKjKgK(binder, tempC),
    dipM: dipOfM(spec.diameterM, spec.lengthM, massKg / rho, nearM),
    pumpShare: Math.min(1, Math.max(0.05, PUMPS_FREELY_MM2_S / viscosityMm2S(binder.line, tempC))),
  };
};

/** A tank as filled and warm as its file says, still, nothing flowing. */
export const createTank = (spec: TankSpec, binder: Binder, morning: TankThisMorning = {}): Tank => {
  const otherKg = morning.otherBinderKg ?? 0;
  const waterKg = morning.waterKg ?? 0;
  const massKg = spec.startMassKg + otherKg + waterKg;
  return {
    massKg,
    tempC: spec.startC,
    stirShare: 0,
    feedKgS: 0,
    gaveKg: 0,
    gaveOtherKg: 0,
    coilW: 0,
    otherKg,
    waterKg,
    waterMm: waterKg === 0 ? 0 : dipOfM(spec.diameterM, spec.lengthM, waterKg / 1000) * 1000,
    foamM: 0,
    delivery: null,
    deliveredKg: 0,
    spilledKg: 0,
    boiledKg: 0,
    drawnOffKg: 0,
    ventLelPct: 0,
    seen: lookedUp(massKg, spec.startC, spec.diameterM / 2, spec, binder),
  };
};

/** How far a coil is under product, 0 to 1. */
const coilUnder = (dipM: number, spec: TankSpec): number => Math.min(1, dipM / spec.coilTopM);

/**
 * One step: feed out towards wantedKgS (kg/s), heat in by the coil from oil at oilC and out to air at airC.
 * Lumped heat balance (standard physics); the slower still coil and the slowing pump are a teaching model.
 */
export const stepTank = (
  tank: Tank,
  spec: TankSpec,
  binder: Binder,
  tick: number,
  wantedKgS: number,
  oilC: number,
  oilFlowShare: number,
  stir: boolean,
  airC: number,
): Tank => {
  const seen =
    tick % STEPS_PER_S === 0 ? lookedUp(tank.massKg, tank.tempC, tank.seen.dipM, spec, binder) : tank.seen;
  const stirShare = approach(tank.stirShare, stir ? 1 : 0, STIR_SHARE, 1e-3);
  const feedKgS = approach(tank.feedKgS, wantedKgS * seen.pumpShare, FEED_SHARE, 1e-3);
  const binderKg = tank.massKg - tank.waterKg;
  const gaveKg = Math.min(feedKgS * STEP_S, binderKg);
  const gaveOtherKg = tank.otherKg === 0 || gaveKg === 0 ? 0 : (gaveKg * tank.otherKg) / binderKg;
  const coilW =
    oilFlowShare === 0
      ? 0
      : spec.coilWPerK *
        oilFlowShare *
        (STILL_COIL + (1 - STILL_COIL) * stirShare) *
        coilUnder(seen.dipM, spec) *
        (oilC - tank.tempC);
  const kJPerK = Math.max(tank.massKg, 50) * seen.cpKjKgK;
  const netW = coilW - spec.lossWPerK * (tank.tempC - airC);
  return {
    massKg: tank.massKg - gaveKg,
    tempC: tank.tempC + (netW * STEP_S) / (1000 * kJPerK),
    stirShare,
    feedKgS,
    gaveKg,
    gaveOtherKg,
    coilW,
    otherKg: tank.otherKg - gaveOtherKg,
    waterKg: tank.waterKg,
    waterMm: tank.waterMm,
    foamM: tank.foamM,
    delivery: tank.delivery,
    deliveredKg: tank.deliveredKg,
    spilledKg: tank.spilledKg,
    boiledKg: tank.boiledKg,
    drawnOffKg: tank.drawnOffKg,
    ventLelPct: tank.ventLelPct,
    seen,
  };
};
