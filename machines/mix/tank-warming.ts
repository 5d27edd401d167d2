/** How long a heated tank takes to reach a temperature (standard lumped heat balance). */

export type Warming = {
  readonly massKg: number;
  readonly cpKjKgK: number;
  readonly coilWPerK: number;
  readonly lossWPerK: number;
  readonly oilC: number;
  readonly airC: number;
  /** The heater gives no more than this, W. */
  readonly mostW: number;
};

/**
 * Seconds from fromC to toC: at full heater power while the coil could take more, then as the coil lets it.
 * 0 when it is there already, null when losses hold it below for ever.
 */
export const warmingS = (tank: Warming, fromC: number, toC: number): number | null => {
  if (toC <= fromC) return 0;
  const kjPerK = tank.massKg * tank.cpKjKgK;
  /** Above this temperature the coil, not the heater, is the limit. */
  const borderC = tank.oilC - tank.mostW / tank.coilWPerK;
  let seconds = 0;
  let nowC = fromC;
  if (nowC < borderC) {
    const untilC = Math.min(toC, borderC);
    const phase =
      tank.lossWPerK > 0
        ? phaseS(kjPerK, tank.lossWPerK, tank.airC + tank.mostW / tank.lossWPerK, nowC, untilC)
        : (kjPerK * 1000 * (untilC - nowC)) / tank.mostW;
    if (phase === null) return null;
    seconds += phase;
    nowC = untilC;
  }
  if (nowC >= toC) return seconds;
  const conductance = tank.coilWPerK + tank.lossWPerK;
  const endC = (tank.coilWPerK * tank.oilC + tank.lossWPerK * tank.airC) / conductance;
  const phase = phaseS(kjPerK, conductance, endC, nowC, toC);
  return phase === null ? null : seconds + phase;
};

/** Approach to endC with a conductance in W/K: −τ·ln of what is left over what was. */
const phaseS = (
  kjPerK: number,
  conductanceWPerK: number,
  endC: number,
  fromC: number,
  toC: number,
): number | null => {
  if (toC >= endC) return null;
  return -((kjPerK * 1000) / conductanceWPerK) * Math.log((endC - toC) / (endC - fromC));
};

export type Circuit = {
  readonly oilKg: number;
  readonly oilCpKjKgK: number;
  readonly oilLossWPerK: number;
  /** Oil as the heater is switched on, °C. */
  readonly fromC: number;
};

const STEP_S = 10;
const LONGEST_S = 7 * 24 * 3600;

/**
 * The same with the oil circuit cold at first: heater at full power until the oil is at its setting, then as much as is
 * taken. Both balances are stepped together, as neither waits for the other. Null when it takes over a week.
 */
export const heatUpS = (tank: Warming, circuit: Circuit, fromC: number, toC: number): number | null => {
  let tankC = fromC;
  let oilC = circuit.fromC;
  let seconds = 0;
  while (tankC < toC) {
    if (seconds >= LONGEST_S) return null;
    const coilW = Math.max(0, tank.coilWPerK * (oilC - tankC));
    const lostW = coilW + circuit.oilLossWPerK * (oilC - tank.airC);
    const firedW = oilC < tank.oilC ? tank.mostW : Math.min(tank.mostW, lostW);
    oilC = Math.min(
      tank.oilC,
      oilC + ((firedW - lostW) * STEP_S) / (1000 * circuit.oilKg * circuit.oilCpKjKgK),
    );
    tankC += ((coilW - tank.lossWPerK * (tankC - tank.airC)) * STEP_S) / (1000 * tank.massKg * tank.cpKjKgK);
    seconds += STEP_S;
  }
  return seconds;
};
