/** The models of the true charts, each with the state from which work can go on. */

import { tableOf } from './chart-table.ts';
import { burnerTable, interlockSpace, MACHINES, tankInterlockTable } from './charts.ts';
import type { Model } from './explorer.ts';
import { FREE_READY, freeModel } from './free-regions.ts';
import { gateVerdicts } from './gate-space.ts';
import { honestPlantModel } from './honest-plant.ts';
import { interlockModel, READY } from './interlock-model.ts';
import { burnerWatchModel } from './mutations/burner-watch.ts';
import { burnerModel, productModel } from './product-model.ts';
import { alarmModel, oilModel, tankModel } from './small-models.ts';
import { heats, tankSafetyModel } from './tank-models.ts';
import { batchModel, campaignModel, lotModel, seatModel, weigherModel } from './work-models.ts';

export type Task = {
  readonly build: () => Model;
  /** For "no dead state": what must be reachable from everywhere; null where the charts' own models show it. */
  readonly ready: null | ((state: number) => boolean);
};

const first = (state: number): boolean => state === 0;

export const TASKS: readonly Task[] = [
  { build: () => interlockModel(interlockSpace()), ready: (state) => state === READY },
  { build: () => burnerModel(burnerTable()), ready: first },
  { build: () => burnerWatchModel(burnerTable()), ready: null },
  { build: () => oilModel(tableOf(MACHINES.oilHeater)), ready: first },
  { build: () => tankModel('emulsion', tableOf(MACHINES.emulsionTank)), ready: first },
  { build: () => tankModel('cutback', tableOf(MACHINES.cutbackTank)), ready: first },
  { build: () => freeModel(MACHINES.interlock), ready: (state) => state === FREE_READY },
  ...(['emulsion', 'cutback'] as const).map((tank): Task => {
    const heater = tableOf(MACHINES[`${tank}Tank`]);
    return {
      build: () => tankSafetyModel(tank, tankInterlockTable[tank](), heater),
      ready: heats(tank, tankInterlockTable[tank](), heater),
    };
  }),
  { build: () => alarmModel(tableOf(MACHINES.alarm)), ready: first },
  { build: () => batchModel('emulsion', tableOf(MACHINES.emulsionBatch)), ready: first },
  { build: () => batchModel('warmEmulsion', tableOf(MACHINES.warmEmulsionBatch)), ready: first },
  { build: () => batchModel('cutback', tableOf(MACHINES.cutbackBatch)), ready: first },
  { build: () => campaignModel(tableOf(MACHINES.campaign)), ready: first },
  { build: () => weigherModel(tableOf(MACHINES.weigher)), ready: first },
  // A lot once opened is never "none" again: ready is a closed one, so that the next may be opened.
  { build: () => lotModel(tableOf(MACHINES.lot)), ready: null },
  { build: () => seatModel(tableOf(MACHINES.seat)), ready: first },
  { build: () => productModel(interlockSpace(), burnerTable(), gateVerdicts()), ready: null },
  { build: () => honestPlantModel(interlockSpace(), burnerTable()), ready: null },
];
