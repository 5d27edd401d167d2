/** What the thermal-oil heater chart asks of pump and burner in each state. */
import type { Outputs } from '../../field/outputs.ts';
import type { ChartValue } from '../flame-interlock/flame-interlock.guards.ts';

export type OilHeaterDemands = Pick<Outputs, 'oilPump' | 'oilBurner'>;

const STILL: OilHeaterDemands = { oilPump: false, oilBurner: false };
const PUMP: OilHeaterDemands = { oilPump: true, oilBurner: false };
const PUMP_AND_FIRE: OilHeaterDemands = { oilPump: true, oilBurner: true };

const WITH_PUMP = ['waitingForTrip', 'waitingForLimit', 'startingFlow', 'hot', 'runningOn'];

/** Pump and burner the heater asks for; a state it does not know asks for nothing. */
export const oilHeaterDemands = (value: ChartValue): OilHeaterDemands => {
  if (typeof value === 'string') return WITH_PUMP.includes(value) ? PUMP : STILL;
  if (value.firing !== undefined) return PUMP_AND_FIRE;
  // Hot oil goes on moving unless the pump itself is what failed.
  const cause = value.lockedOut;
  return cause === undefined || cause === 'noFlow' || cause === 'flowLost' ? STILL : PUMP;
};

export const heaterIsLockedOut = (value: ChartValue): boolean =>
  typeof value !== 'string' && value.lockedOut !== undefined;
