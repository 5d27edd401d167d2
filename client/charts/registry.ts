/** Every chart the console can draw, by the id of its machine. A new chart is one line here. */
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

export type Known = { readonly name: string; readonly machine: AnyStateMachine };

export const KNOWN: readonly Known[] = [
  { name: 'Emulsion batch', machine: emulsionBatchMachine },
  { name: 'Warmed emulsion batch', machine: warmEmulsionBatchMachine },
  { name: 'Cutback batch', machine: cutbackBatchMachine },
  { name: 'Drying campaign', machine: campaignMachine },
  { name: 'Flame interlock', machine: flameInterlockMachine },
  { name: 'Burner', machine: burnerMachine },
  { name: 'Thermal-oil heater', machine: oilHeaterMachine },
  { name: 'Emulsion tank interlock', machine: tankInterlockMachines.emulsion },
  { name: 'Cutback tank interlock', machine: tankInterlockMachines.cutback },
  { name: 'Emulsion tank heater', machine: tankHeaterMachines.emulsion },
  { name: 'Cutback tank heater', machine: tankHeaterMachines.cutback },
  { name: 'Weigher', machine: weigherMachine },
  { name: 'Lot', machine: lotMachine },
  { name: 'Control seat', machine: seatMachine },
  { name: 'Alarm', machine: alarmMachine },
];

/** The chart of a machine id ("emulsionBatch" or "emulsion-batch"), or null when none is known by it. */
export const knownBy = (machineId: string): Known | null => {
  const plain = (id: string) => id.replace(/[-_ ]/g, '').toLowerCase();
  return KNOWN.find((each) => plain(each.machine.id) === plain(machineId)) ?? null;
};
