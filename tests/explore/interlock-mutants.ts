/** Canaries of the tank interlocks, of the regions no trip looks at, of a lost supply and of fuel without a flame. */
import {
  type ChartValue,
  regionState,
} from '../../machines/charts/flame-interlock/flame-interlock.guards.ts';
import { REGIONS } from '../../machines/charts/flame-interlock/flame-interlock.regions.ts';
import { TANK_REGIONS, type TankRegion } from '../../machines/charts/tank-interlock/tank-interlock.causes.ts';
import { GATE_RULES } from '../../machines/line/gate.ts';
import { tableOf } from './chart-table.ts';
import { MACHINES } from './charts.ts';
import { freeModel } from './free-regions.ts';
import { freeGateSweep, gateSweep } from './gate-space.ts';
import { byModel, firstOf, type Mutant, withBurner, withGate, yes } from './hunt.ts';
import { interlockModel, READY } from './interlock-model.ts';
import { FREE, type FreeRegion, spaceOf } from './interlock-space.ts';
import { mutant } from './mutant.ts';
import type { NeverId } from './never-rules.ts';
import { tankModel } from './small-models.ts';
import { tankGateSweep, tankSafetyModel } from './tank-models.ts';

const withTank = (
  rule: NeverId,
  broken: string,
  breakInterlock: Parameters<typeof mutant>[1],
  breakHeater: Parameters<typeof mutant>[1] = () => {},
): Mutant =>
  byModel(rule, broken, () => {
    const interlock = tableOf(mutant(MACHINES.cutbackTankInterlock, breakInterlock), 600);
    const heater = tableOf(mutant(MACHINES.cutbackTank, breakHeater));
    return rule === 'NR-35' ? tankModel('cutback', heater) : tankSafetyModel('cutback', interlock, heater);
  });

/** What each region no trip looks at keeps shut: a gate that takes its state for safe must be caught. */
const blindTo = (region: FreeRegion): Mutant => {
  const seeing = (value: ChartValue): ChartValue =>
    typeof value === 'string' ? value : { ...value, [region]: REGIONS[region][1] };
  return {
    rule: region === 'binder' ? 'NR-04' : 'NR-30',
    broken: `gate does not look at ${region}`,
    hunt: () =>
      firstOf(
        region === 'binder' ? 'NR-04' : 'NR-30',
        freeGateSweep(
          {
            ...GATE_RULES,
            binderMayFlow: (value) => GATE_RULES.binderMayFlow(seeing(value)),
            cutbackMayFeed: (value) => GATE_RULES.cutbackMayFeed(seeing(value)),
            emulsionMayFeed: (value) => GATE_RULES.emulsionMayFeed(seeing(value)),
            burnerMayFire: (value) => GATE_RULES.burnerMayFire(seeing(value)),
          },
          5,
        ).breaches,
      ),
  };
};

export const TANK_MUTANTS: readonly Mutant[] = [
  ...FREE.map(blindTo),
  ...FREE.map(
    (region): Mutant =>
      byModel('NR-30', `interlock never hears ${region} turn unsafe`, () =>
        freeModel(
          mutant(MACHINES.interlock, (at) => {
            at(`${region}.${REGIONS[region][1]}`).on = {};
          }),
        ),
      ),
  ),
  withGate('NR-31', 'gate fires whatever vapour, extraction and detector say', {
    burnerMayFire: (value) => {
      const blind =
        typeof value === 'string'
          ? value
          : { ...value, vapour: 'low', extraction: 'proved', detector: 'healthy' };
      return GATE_RULES.burnerMayFire(blind);
    },
  }),
  {
    rule: 'NR-32',
    broken: 'gate lets what moves start again when the supply is back',
    hunt: () => {
      const allIsStopped = (value: ChartValue): boolean => regionState(value, 'emergencyStop') !== 'released';
      return firstOf('NR-32', gateSweep({ ...GATE_RULES, allIsStopped }, 5).breaches);
    },
  },
  byModel('NR-32', 'a lost supply is forgotten when something else had tripped before', () =>
    interlockModel(
      spaceOf(
        mutant(MACHINES.interlock, (at) => {
          delete at('trip.tripped').on?.['off.powerOk'];
        }),
      ),
      READY,
    ),
  ),
  byModel('NR-18', 'a lost supply takes the emergency stop off its latch', () =>
    interlockModel(
      spaceOf(
        mutant(MACHINES.interlock, (at) => {
          at('trip.tripped.FT-07').on = {};
        }),
      ),
      READY,
    ),
  ),
  ...(Object.keys(TANK_REGIONS) as TankRegion[]).map((region) =>
    withTank('NR-33', `tank interlock never hears ${region} turn unsafe`, (at) => {
      at(`${region}.${TANK_REGIONS[region][1]}`).on = {};
    }),
  ),
  ...(['flow', 'vent'] as const).map((region) =>
    withTank('NR-34', `oil burner: tank interlock never hears ${region} turn unsafe`, (at) => {
      at(`${region}.${TANK_REGIONS[region][1]}`).on = {};
    }),
  ),
  {
    rule: 'NR-33',
    broken: 'gate does not ask the tank interlocks for heat',
    hunt: () => firstOf('NR-33', tankGateSweep({ ...GATE_RULES, tankMayBeHeated: yes }, 5).breaches),
  },
  {
    rule: 'NR-34',
    broken: 'gate does not ask the tank interlocks for fire',
    hunt: () => firstOf('NR-34', tankGateSweep({ ...GATE_RULES, oilMayBeFired: yes }, 5).breaches),
  },
  withTank(
    'NR-35',
    'heater does not listen to its tank interlock',
    () => {},
    (at) => {
      delete at('wanted').on?.['off.cutbackMayHeat'];
      delete at('heating').on?.['off.cutbackMayHeat'];
    },
  ),
  withBurner('NR-37', 'pilot trial without an end', (at) => {
    at('pilotTrial').after = {};
  }),
  withBurner('NR-37', 'failed flame waited for without an end', (at) => {
    at('running.flame.lost').after = {};
  }),
];
