/** What a tank heater chart asks of its coil valve and stirrer, and what it says of itself. */
import type { Outputs } from '../../field/outputs.ts';
import type { ChartValue } from '../flame-interlock/flame-interlock.guards.ts';
import type { TankId } from './tank-heater.events.ts';

export type TankHeaterDemands = Partial<
  Pick<Outputs, 'emulsionCoil' | 'cutbackCoil' | 'emulsionStir' | 'cutbackStir'>
>;

/** The coil valve is open in this state and no other. */
export const isCoilOpen = (value: ChartValue): boolean => value === 'heating';

/** The tank asks the oil heater for heat: it waits for hot oil, or takes it. Feeds the signal heatWanted. */
export const heatIsWanted = (value: ChartValue): boolean => value === 'wanted' || value === 'heating';

const demandsOf = (open: boolean): { readonly [T in TankId]: TankHeaterDemands } => ({
  emulsion: { emulsionCoil: open, emulsionStir: open },
  cutback: { cutbackCoil: open, cutbackStir: open },
});
const OPEN = demandsOf(true);
const SHUT = demandsOf(false);

/** Coil valve and stirrer of one tank; it is stirred while it is heated. */
export const tankHeaterDemands = (tank: TankId, value: ChartValue): TankHeaterDemands =>
  (isCoilOpen(value) ? OPEN : SHUT)[tank];

export type TankHeating = 'off' | 'wanted' | 'heating' | 'held' | 'at set';

/** The word a screen shows for the state. */
export const tankHeating = (value: ChartValue): TankHeating => {
  if (typeof value !== 'string') return 'held';
  if (value === 'wanted' || value === 'heating') return value;
  return value === 'atSet' ? 'at set' : 'off';
};
