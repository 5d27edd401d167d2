/** Newton's law of cooling, and forecasts from it (standard physics, constant surroundings). */

/** Temperature in °C after seconds, from tempC in surroundings at ambientC with time constant tauS. */
export const cooledC = (tempC: number, ambientC: number, tauS: number, seconds: number): number =>
  ambientC + (tempC - ambientC) * Math.exp(-seconds / tauS);

/** Time constant in s of a mass in kg with heat capacity in kJ/kg·K losing through a conductance in W/K. */
export const coolingTauS = (massKg: number, cpKjKgK: number, conductanceWPerK: number): number =>
  (massKg * cpKjKgK * 1000) / conductanceWPerK;

/** Seconds until targetC is reached: 0 when it is there already, null when it is never reached. */
export const timeToReachS = (
  tempC: number,
  ambientC: number,
  tauS: number,
  targetC: number,
): number | null => {
  if (tempC === targetC) return 0;
  const share = (targetC - ambientC) / (tempC - ambientC);
  if (!(share > 0 && share < 1) || !(tauS > 0)) return null;
  return -tauS * Math.log(share);
};

/** Seconds until a window from fromC to toC is entered: 0 inside it, null when cooling never leads there. */
export const timeUntilInsideS = (
  tempC: number,
  ambientC: number,
  tauS: number,
  fromC: number,
  toC: number,
): number | null => {
  if (tempC >= fromC && tempC <= toC) return 0;
  return timeToReachS(tempC, ambientC, tauS, tempC > toC ? toC : fromC);
};

/** Seconds until a window is left again by the far side, or null when it is not inside or never leaves. */
export const timeUntilOutsideS = (
  tempC: number,
  ambientC: number,
  tauS: number,
  fromC: number,
  toC: number,
): number | null => {
  if (tempC < fromC || tempC > toC) return null;
  return timeToReachS(tempC, ambientC, tauS, tempC > ambientC ? fromC : toC);
};
