/** What a tank interlock allows, as pure questions about the state its chart is in. */
import type { ChartValue } from '../flame-interlock/flame-interlock.guards.ts';
import type { TankId } from '../tank-heater/tank-heater.events.ts';
import { TANK_CAUSES, TANK_REGIONS, type TankCause, type TankCauseId } from './tank-interlock.causes.ts';

const OF_TANK: { readonly [T in TankId]: readonly TankCause[] } = {
  emulsion: TANK_CAUSES.filter((one) => one.tank === 'emulsion'),
  cutback: TANK_CAUSES.filter((one) => one.tank === 'cutback'),
};

/** A region that is missing is in no state, so its cause holds. */
const isMet = (value: ChartValue, cause: TankCause): boolean =>
  typeof value !== 'string' && value[cause.region] === TANK_REGIONS[cause.region][1];

export type TankStanding = { readonly id: TankCauseId; readonly met: boolean };

export const tankPermissives = (tank: TankId, value: ChartValue): readonly TankStanding[] =>
  OF_TANK[tank].map((one) => ({ id: one.id, met: isMet(value, one) }));

type Verdict = { readonly heat: boolean; readonly ask: boolean; readonly fire: boolean };
const verdicts = new WeakMap<object, Verdict>();
const NOTHING: Verdict = { heat: false, ask: false, fire: false };

/** State values are shared objects, so each is judged once. Regions have the same names in both tanks. */
const verdictOf = (value: ChartValue): Verdict => {
  if (typeof value !== 'object') return NOTHING;
  const known = verdicts.get(value);
  if (known !== undefined) return known;
  const causes = OF_TANK.emulsion;
  const verdict = {
    heat: causes.every((one) => isMet(value, one)),
    ask: causes.every((one) => one.comesWithHeat || isMet(value, one)),
    fire: causes.every((one) => !one.holds.includes('oilBurner') || isMet(value, one)),
  };
  verdicts.set(value, verdict);
  return verdict;
};

/** The coil of this tank may be open. */
export const tankMayBeHeated = (value: ChartValue): boolean => verdictOf(value).heat;
/** The tank may ask for heat: what the signals emulsionMayHeat and cutbackMayHeat say. */
export const tankMayAskForHeat = (value: ChartValue): boolean => verdictOf(value).ask;
/** Nothing about this tank stands against a fire in the oil heater. */
export const oilMayBeFired = (value: ChartValue): boolean => verdictOf(value).fire;

export const heatBlockedBy = (tank: TankId, value: ChartValue): readonly TankCauseId[] =>
  OF_TANK[tank].filter((one) => !isMet(value, one)).map((one) => one.id);
export const fireBlockedBy = (tank: TankId, value: ChartValue): readonly TankCauseId[] =>
  OF_TANK[tank].filter((one) => one.holds.includes('oilBurner') && !isMet(value, one)).map((one) => one.id);
