/** Where temperatures meet when stone, water and binder come together (standard heat balance, nothing lost). */
import { petroleumCpKjKgK } from './petroleum.ts';
import { STONE_CP_KJ_KG_K, WATER_CP_KJ_KG_K } from './published.ts';

export type Body = { readonly massKg: number; readonly cpKjKgK: number; readonly tempC: number };

/** Temperature in °C of bodies that met: weighted by heat capacity. Throws RangeError when none has any. */
export const contactC = (bodies: readonly Body[]): number => {
  const kjPerK = bodies.reduce((sum, body) => sum + body.massKg * body.cpKjKgK, 0);
  if (!(kjPerK > 0)) throw new RangeError('nothing that holds heat: give a mass above 0');
  return bodies.reduce((sum, body) => sum + body.massKg * body.cpKjKgK * body.tempC, 0) / kjPerK;
};

export const stoneBody = (massKg: number, tempC: number): Body => ({
  massKg,
  cpKjKgK: STONE_CP_KJ_KG_K,
  tempC,
});

export const waterBody = (massKg: number, tempC: number): Body => ({
  massKg,
  cpKjKgK: WATER_CP_KJ_KG_K,
  tempC,
});

/** Specific heat of a binder in kJ/kg·K: petroleum (NBS MP 97) and water by mass. */
export const binderCpKjKgK = (waterShare: number, sg: number, tempC: number): number =>
  (1 - waterShare) * petroleumCpKjKgK(tempC, sg) + waterShare * WATER_CP_KJ_KG_K;

/** Temperature in °C that one body must bring so that all meet at wantedC; null when it has no heat capacity. */
export const tempForContactC = (
  others: readonly Body[],
  mover: Omit<Body, 'tempC'>,
  wantedC: number,
): number | null => {
  const capacity = mover.massKg * mover.cpKjKgK;
  if (!(capacity > 0)) return null;
  const needed = others.reduce((sum, body) => sum + body.massKg * body.cpKjKgK * (wantedC - body.tempC), 0);
  return wantedC + needed / capacity;
};
