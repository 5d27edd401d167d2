/**
 * The binder weigh bucket: binder falling into it from either tank, its cell, and its valve to the mixer.
 *
 * What is in it is known by kind, so a mixed-up bucket stays mixed up. The valve takes half a second to
 * travel; its switch proves the seat. A leaking valve does not reach its seat: the switch stays open.
 */
import { BUCKET_CELL, type LoadCell, STILL_CELL, stepLoadCell } from './load-cell.ts';
import { lagShare, STEP_S, travel } from './time.ts';

const FALL_SHARE = lagShare(0.3);
const VALVE_TRAVEL_S = 0.5;
const LEAK_SHARE = 0.04;
const TAIL_S = 1;
const DROPS_KG = 0.002;

export type Bucket = {
  readonly fallingEmulsionKg: number;
  readonly fallingCutbackKg: number;
  readonly emulsionKg: number;
  readonly cutbackKg: number;
  readonly tempC: number;
  readonly valveShare: number;
  readonly cell: LoadCell;
  readonly gaveEmulsionKg: number;
  readonly gaveCutbackKg: number;
};

/** A dry bucket with its valve shut. */
export const EMPTY_BUCKET: Bucket = {
  fallingEmulsionKg: 0,
  fallingCutbackKg: 0,
  emulsionKg: 0,
  cutbackKg: 0,
  tempC: 15,
  valveShare: 0,
  cell: STILL_CELL,
  gaveEmulsionKg: 0,
  gaveCutbackKg: 0,
};

/** Whether the switch of the valve proves it on its seat. */
export const bucketValveProvedShut = (bucket: Bucket): boolean => bucket.valveShare === 0;

/** Binder of both kinds in the bucket and falling into it, kg. */
export const bucketHeldKg = (bucket: Bucket): number =>
  bucket.fallingEmulsionKg + bucket.fallingCutbackKg + bucket.emulsionKg + bucket.cutbackKg;

/** Whether binder stands 5 % above the capacity in kg, so that no more can come in (teaching value). */
export const bucketBlocked = (bucket: Bucket, capacityKg: number): boolean =>
  bucketHeldKg(bucket) >= capacityKg * 1.05;

/**
 * One step: binder in by kind (kg, °C), out through the valve at up to drainKgS. Temperatures meet by mass,
 * as the kinds differ little in heat capacity; fall, valve travel, leak and tail are a teaching model.
 */
export const stepBucket = (
  bucket: Bucket,
  drainKgS: number,
  emulsionInKg: number,
  emulsionC: number,
  cutbackInKg: number,
  cutbackC: number,
  open: boolean,
  leaking: boolean,
  blocked: boolean,
): Bucket => {
  const least = leaking ? LEAK_SHARE : 0;
  const valveShare = travel(bucket.valveShare, open ? 1 : least, STEP_S / VALVE_TRAVEL_S);
  let fallingEmulsionKg = bucket.fallingEmulsionKg + emulsionInKg;
  let fallingCutbackKg = bucket.fallingCutbackKg + cutbackInKg;
  let { emulsionKg, cutbackKg, tempC } = bucket;
  const fallingKg = fallingEmulsionKg + fallingCutbackKg;
  if (fallingKg > 0) {
    const part = fallingKg < DROPS_KG ? 1 : FALL_SHARE;
    const landedEmulsionKg = fallingEmulsionKg * part;
    const landedCutbackKg = fallingCutbackKg * part;
    const heldKg = emulsionKg + cutbackKg;
    const landedKg = landedEmulsionKg + landedCutbackKg;
    const landedC = (landedEmulsionKg * emulsionC + landedCutbackKg * cutbackC) / landedKg;
    tempC = heldKg > 0 ? tempC + ((landedC - tempC) * landedKg) / (heldKg + landedKg) : landedC;
    fallingEmulsionKg = part === 1 ? 0 : fallingEmulsionKg - landedEmulsionKg;
    fallingCutbackKg = part === 1 ? 0 : fallingCutbackKg - landedCutbackKg;
    emulsionKg += landedEmulsionKg;
    cutbackKg += landedCutbackKg;
  }
  let gaveEmulsionKg = 0;
  let gaveCutbackKg = 0;
  const heldKg = emulsionKg + cutbackKg;
  if (valveShare > 0 && heldKg > 0 && !blocked) {
    const wantedKg = Math.min(drainKgS * valveShare, heldKg / TAIL_S) * STEP_S;
    const part = heldKg < DROPS_KG ? 1 : wantedKg / heldKg;
    gaveEmulsionKg = emulsionKg * part;
    gaveCutbackKg = cutbackKg * part;
    emulsionKg = part === 1 ? 0 : emulsionKg - gaveEmulsionKg;
    cutbackKg = part === 1 ? 0 : cutbackKg - gaveCutbackKg;
  }
  const cell = stepLoadCell(bucket.cell, BUCKET_CELL, emulsionKg + cutbackKg);
  if (
    cell === bucket.cell &&
    valveShare === bucket.valveShare &&
    fallingKg === 0 &&
    gaveEmulsionKg === bucket.gaveEmulsionKg &&
    gaveCutbackKg === bucket.gaveCutbackKg &&
    emulsionKg === bucket.emulsionKg &&
    cutbackKg === bucket.cutbackKg
  )
    return bucket;
  return {
    fallingEmulsionKg,
    fallingCutbackKg,
    emulsionKg,
    cutbackKg,
    tempC,
    valveShare,
    cell,
    gaveEmulsionKg,
    gaveCutbackKg,
  };
};
