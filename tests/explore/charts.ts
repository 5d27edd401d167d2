/** The charts as tables, worked out once a process when first asked for. */
import type { AnyStateMachine } from 'xstate';
import { alarmMachine } from '../../machines/charts/alarm/alarm.machine.ts';
import { cutbackBatchMachine } from '../../machines/charts/batch/cutback-batch.machine.ts';
import { emulsionBatchMachine } from '../../machines/charts/batch/emulsion-batch.machine.ts';
import { warmEmulsionBatchMachine } from '../../machines/charts/batch/warm-emulsion-batch.machine.ts';
import { burnerMachine } from '../../machines/charts/burner/burner.machine.ts';
import { campaignMachine } from '../../machines/charts/campaign/campaign.machine.ts';
import { flameInterlockMachine } from '../../machines/charts/flame-interlock/flame-interlock.machine.ts';
import { lotMachine } from '../../machines/charts/lot/lot.machine.ts';
import { oilHeaterMachine } from '../../machines/charts/oil-heater/oil-heater.machine.ts';
import { seatMachine } from '../../machines/charts/seat/seat.machine.ts';
import { tankHeaterMachines } from '../../machines/charts/tank-heater/tank-heater.machine.ts';
import { tankInterlockMachines } from '../../machines/charts/tank-interlock/tank-interlock.machine.ts';
import { weigherMachine } from '../../machines/charts/weigher/weigher.machine.ts';
import { type ChartTable, tableOf } from './chart-table.ts';
import { type InterlockSpace, spaceOf } from './interlock-space.ts';

export const MACHINES = {
  interlock: flameInterlockMachine as unknown as AnyStateMachine,
  burner: burnerMachine as unknown as AnyStateMachine,
  oilHeater: oilHeaterMachine as unknown as AnyStateMachine,
  emulsionTankInterlock: tankInterlockMachines.emulsion as unknown as AnyStateMachine,
  cutbackTankInterlock: tankInterlockMachines.cutback as unknown as AnyStateMachine,
  emulsionTank: tankHeaterMachines.emulsion as unknown as AnyStateMachine,
  cutbackTank: tankHeaterMachines.cutback as unknown as AnyStateMachine,
  alarm: alarmMachine as unknown as AnyStateMachine,
  emulsionBatch: emulsionBatchMachine as unknown as AnyStateMachine,
  warmEmulsionBatch: warmEmulsionBatchMachine as unknown as AnyStateMachine,
  cutbackBatch: cutbackBatchMachine as unknown as AnyStateMachine,
  campaign: campaignMachine as unknown as AnyStateMachine,
  weigher: weigherMachine as unknown as AnyStateMachine,
  lot: lotMachine as unknown as AnyStateMachine,
  seat: seatMachine as unknown as AnyStateMachine,
} as const;

const once = <T>(make: () => T): (() => T) => {
  let made: T | undefined;
  return () => {
    made ??= make();
    return made;
  };
};

export const tankInterlockTable = {
  emulsion: once(() => tableOf(MACHINES.emulsionTankInterlock, 600)),
  cutback: once(() => tableOf(MACHINES.cutbackTankInterlock, 600)),
};
export const burnerTable: () => ChartTable = once(() => tableOf(MACHINES.burner));
export const interlockSpace: () => InterlockSpace = once(() => spaceOf(MACHINES.interlock));
