/** Canaries: one thing broken on purpose for each rule, to see that the explorer finds it. */
import { batchDemands } from '../../machines/charts/batch/batch.guards.ts';
import { TRIPS } from '../../machines/charts/flame-interlock/flame-interlock.causes.ts';
import { feedOpening } from '../../machines/charts/weigher/weigher.guards.ts';
import { GATE_RULES } from '../../machines/line/gate.ts';
import { tableOf } from './chart-table.ts';
import { burnerTable, interlockSpace, MACHINES } from './charts.ts';
import type { Model } from './explorer.ts';
import { honestPlantModel } from './honest-plant.ts';
import { byModel, dead, type Mutant, no, withBurner, withGate, yes } from './hunt.ts';
import { interlockModel, READY } from './interlock-model.ts';
import { TANK_MUTANTS } from './interlock-mutants.ts';
import { spaceOf } from './interlock-space.ts';
import { mutant } from './mutant.ts';
import type { NeverId } from './never-rules.ts';
import { burnerModel } from './product-model.ts';
import { endlessOffer } from './settling.ts';
import { alarmModel, oilModel, tankModel } from './small-models.ts';
import { batchModel, campaignModel, lotModel, seatModel, weigherModel } from './work-models.ts';

export type { Mutant } from './hunt.ts';

const withPlant = (broken: string, build: () => Model): Mutant => byModel('NR-16', broken, build);

const withWork = (
  rule: NeverId,
  broken: string,
  machine: keyof typeof MACHINES,
  model: (table: ReturnType<typeof tableOf>) => Model,
  breakIt: Parameters<typeof mutant>[1] = () => {},
): Mutant => byModel(rule, broken, () => model(tableOf(mutant(MACHINES[machine], breakIt))));

const emulsion = (table: ReturnType<typeof tableOf>): Model => batchModel('emulsion', table);

const WORK_MUTANTS: readonly Mutant[] = [
  withWork('NR-20', 'demands do not look at the procedure', 'emulsionBatch', (table) =>
    batchModel('emulsion', table, (value, ...rest) =>
      batchDemands({ ...value, procedure: 'running' }, ...rest),
    ),
  ),
  withWork('NR-21', 'the binder valve opens while still waiting', 'cutbackBatch', (table) =>
    batchModel('cutback', table, (value, ...rest) => ({
      ...batchDemands(value, ...rest),
      bucketValve: value.procedure === 'running' && value.step === 'waitingForBinder',
    })),
  ),
  withWork('NR-22', 'the look is skipped', 'emulsionBatch', emulsion, (at) => {
    at('step.mixing').after = { binderMix: 'discharging' };
  }),
  withWork('NR-23', 'a reset drops the batch from any step', 'emulsionBatch', emulsion, (at) => {
    at('step').on = { 'operator.reset': '.ready' };
  }),
  withWork('NR-24', 'the burner may be lit from the cautions card', 'campaign', campaignModel, (at) => {
    at('cautions').on = { 'operator.lightBurner': 'lighting' };
  }),
  withWork('NR-25', 'the hopper opens while the drum dries', 'campaign', (table) =>
    campaignModel(table, (state) => (state === 'drying' ? { hopperTo: 'dryer' } : {})),
  ),
  withWork('NR-26', 'a held scale goes on filling', 'weigher', (table) =>
    weigherModel(table, (state) => feedOpening(state, false)),
  ),
  withWork('NR-27', 'a light weight passes by itself', 'weigher', weigherModel, (at) => {
    at('light').on = { 'scale.light': 'weighed' };
  }),
  withWork('NR-28', 'a full lot takes more', 'lot', lotModel, (at) => {
    at('closed').on = { 'line.massReached': 'open' };
  }),
  withWork('NR-29', 'a request throws the holder out', 'seat', seatModel, (at) => {
    at('asked').on = { 'operator.askForControls': 'free' };
  }),
];

export const MUTANTS: readonly Mutant[] = [
  ...WORK_MUTANTS,
  ...TANK_MUTANTS,
  withGate('NR-01', 'gate lets flame and an open way pass together', { flameGivesWay: false }),
  withGate('NR-02', 'gate does not ask whether the burner may fire', { burnerMayFire: yes }),
  withGate('NR-03', 'gate does not ask whether cutback may feed', { cutbackMayFeed: yes }),
  withGate('NR-04', 'gate does not ask whether binder may flow', { binderMayFlow: yes }),
  withGate('NR-05', 'gate does not look at the trip', { isTripped: no }),
  withGate('NR-06', 'gate does not look at the burner', { burnerMayAdmitFuel: yes }),
  withGate('NR-19', 'gate does not look at the binder valve to light', { pilotMayOpen: yes }),
  withBurner('NR-07', 'burner takes an old purge for a new one', (at) => {
    at('purging.startingFan').on = { 'on.drumFanProved': 'airing' };
  }),
  withBurner('NR-07', 'burner purges until the fan is proved, no longer', (at) => {
    at('purging.startingFan').on = { 'on.drumFanProved': '#burner.pilotTrial' };
  }),
  withBurner('NR-07', 'burner goes on counting through a loss of air', (at) => {
    at('purging.airing').on = { 'on.purged': '#burner.pilotTrial', 'on.drumFanProved': '#burner.pilotTrial' };
  }),
  byModel('NR-08', 'trip leaves by itself when the emergency stop is released', () =>
    interlockModel(
      spaceOf(
        mutant(MACHINES.interlock, (at) => {
          const { on } = at('trip.tripped');
          at('trip.tripped').on = { ...on, 'off.emergencyStop': 'watching' };
        }),
      ),
      READY,
    ),
  ),
  byModel('NR-08', 'reset accepted with a cause standing, and the vapour trip blind', () =>
    interlockModel(
      spaceOf(MACHINES.interlock.provide({ guards: { 'no cause stands': yes, 'FT-02': no } } as never)),
      READY,
    ),
  ),
  ...TRIPS.map(({ id }) => id).map(
    (trip): Mutant =>
      byModel('NR-09', `trip ${trip} never latches`, () =>
        interlockModel(spaceOf(MACHINES.interlock.provide({ guards: { [trip]: no } } as never)), READY),
      ),
  ),
  withBurner('NR-10', 'lockout left by lighting again', (at) => {
    at('lockedOut').on = { 'operator.resetBurner': 'postPurging', 'operator.lightBurner': 'purging' };
  }),
  withBurner('NR-10', 'lockout reset straight to off, unpurged', (at) => {
    at('lockedOut').on = { 'operator.resetBurner': 'off' };
  }),
  {
    rule: 'NR-11',
    broken: 'trip cannot be reset',
    hunt: () => {
      const space = spaceOf(
        mutant(MACHINES.interlock, (at) => {
          at('trip.tripped').on = {};
        }),
      );
      const model = interlockModel(space, READY);
      // Emergency stop and vapour alone are enough to see it, and soon explored.
      const few = model.events.flatMap((type, event) =>
        /emergencyStop|vapour|reset/.test(type) ? [event] : [],
      );
      return dead(
        {
          ...model,
          events: few.map((event) => model.events[event] as string),
          next: (state, event) => model.next(state, few[event] as number),
          rules: [],
        },
        (state) => state === READY,
      );
    },
  },
  {
    rule: 'NR-11',
    broken: 'burner lockout cannot be reset',
    hunt: () =>
      dead(
        burnerModel(
          tableOf(
            mutant(MACHINES.burner, (at) => {
              at('lockedOut').on = {};
            }),
          ),
        ),
        (state) => state === 0,
      ),
  },
  byModel('NR-12', 'heat asked for opens the coil without asking for cover', () =>
    tankModel(
      'cutback',
      tableOf(
        mutant(MACHINES.cutbackTank, (at) => {
          at('off').on = { 'operator.heatOn': 'wanted' };
        }),
      ),
    ),
  ),
  byModel('NR-12', 'coil stays open above the limit', () =>
    tankModel(
      'emulsion',
      tableOf(
        mutant(MACHINES.emulsionTank, (at) => {
          delete at('heating').on?.['on.emulsionOverLimit'];
        }),
      ),
    ),
  ),
  byModel('NR-13', 'oil goes on being fired when its flow is lost', () =>
    oilModel(
      tableOf(
        mutant(MACHINES.oilHeater, (at) => {
          delete at('firing').on?.['off.oilFlowing'];
        }),
      ),
    ),
  ),
  byModel('NR-14', 'oil heater lockout left when heat is wanted again', () =>
    oilModel(
      tableOf(
        mutant(MACHINES.oilHeater, (at) => {
          at('lockedOut').on = { 'operator.resetHeater': 'off', 'on.heatWanted': 'waitingForTrip' };
        }),
      ),
    ),
  ),
  {
    rule: 'NR-15',
    broken: 'burner restarts its purge count instead of waiting for the fan',
    hunt: () =>
      endlessOffer(
        tableOf(
          mutant(MACHINES.burner, (at) => {
            at('purging.airing').on = {
              'on.purged': '#burner.pilotTrial',
              'off.drumFanProved': 'restartingCount',
            };
          }),
        ),
      ),
  },
  withPlant('gate lets flame and an open way pass together', () =>
    honestPlantModel(interlockSpace(), burnerTable(), { ...GATE_RULES, flameGivesWay: false }),
  ),
  withPlant('interlock never hears that cutback is in the bucket', () =>
    honestPlantModel(
      spaceOf(
        mutant(MACHINES.interlock, (at) => {
          at('bucket.noCutback').on = {};
        }),
      ),
      burnerTable(),
    ),
  ),
  withPlant('interlock neither hears that fuel is asked for nor that a purge begins again', () =>
    honestPlantModel(
      spaceOf(
        mutant(MACHINES.interlock, (at) => {
          delete at('dryer.purged').on?.['off.purged'];
          for (const state of ['purgeDue', 'airing', 'purged'])
            delete at(`dryer.${state}`).on?.['on.fuelAskedOpen'];
        }),
      ),
      burnerTable(),
    ),
  ),
  withPlant('interlock asks for no purge after fuel', () =>
    honestPlantModel(
      spaceOf(
        mutant(MACHINES.interlock, (at) => {
          at('dryer.fuelOpen').on = { 'on.flameSeen': 'firing', 'on.fuelShut': 'purged' };
          delete at('dryer.purged').on?.['off.purged'];
        }),
      ),
      burnerTable(),
    ),
  ),
  byModel('NR-18', 'emergency stop forgotten when something else had tripped before', () =>
    interlockModel(
      spaceOf(
        mutant(MACHINES.interlock, (at) => {
          delete at('trip.tripped').on?.['on.emergencyStop'];
        }),
      ),
      READY,
    ),
  ),
  byModel('NR-17', 'alarm comes back from the shelf as normal whatever stands', () =>
    alarmModel(
      tableOf(
        mutant(MACHINES.alarm, (at) => {
          at('handling.shelved').on = { 'operator.unshelve': 'inService.normal' };
        }),
      ),
    ),
  ),
];
