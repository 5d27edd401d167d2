/**
 * A well-mixed space with a source of vapour and air drawn through it, solved exactly (standard physics):
 * dM/dt = exchange·(saturated − M/V) − flow·M/V.
 */

export type Space = {
  readonly volumeM3: number;
  /** Air drawn through, leaks included. */
  readonly flowM3S: number;
  /** How readily the source gives vapour to the air: m³/s of air it would saturate. */
  readonly exchangeM3S: number;
  /** Vapour in air in equilibrium with the source. */
  readonly saturatedKgM3: number;
};

/** Vapour in kg/m³ that the space settles at; that of the source when nothing is drawn through. */
export const settlesAtKgM3 = ({ flowM3S, exchangeM3S, saturatedKgM3 }: Space): number =>
  exchangeM3S === 0 ? 0 : (exchangeM3S * saturatedKgM3) / (exchangeM3S + flowM3S);

const perSecond = ({ volumeM3, flowM3S, exchangeM3S }: Space): number => (flowM3S + exchangeM3S) / volumeM3;

/** Vapour in kg/m³ after seconds, from startKgM3. */
export const vapourAfterKgM3 = (space: Space, startKgM3: number, seconds: number): number => {
  const settled = settlesAtKgM3(space);
  const rate = perSecond(space);
  return rate === 0 ? startKgM3 : settled + (startKgM3 - settled) * Math.exp(-rate * seconds);
};

/** Seconds until a level in kg/m³ is first reached from startKgM3; 0 when it is there, null when it never is. */
export const secondsUntilKgM3 = (space: Space, startKgM3: number, levelKgM3: number): number | null => {
  if (startKgM3 >= levelKgM3) return 0;
  const settled = settlesAtKgM3(space);
  const rate = perSecond(space);
  if (settled <= levelKgM3 || rate === 0) return null;
  return Math.log((settled - startKgM3) / (settled - levelKgM3)) / rate;
};

/** Solvent leaving its source in kg/s while the space holds so much vapour. */
export const sourceKgS = (space: Space, vapourKgM3: number): number =>
  space.exchangeM3S * (space.saturatedKgM3 - vapourKgM3);
