/** Each entry of the gate's lists of elements dropped, and each tank cause blind or holding one element fewer. */
import {
  CLOSED_BY_A_TRIP,
  FUEL,
  STOPPED_BY_EMERGENCY,
} from '../../../machines/charts/flame-interlock/flame-interlock.elements.ts';
import {
  TANK_CAUSES,
  type TankCause,
  type TankRegion,
} from '../../../machines/charts/tank-interlock/tank-interlock.causes.ts';
import { gate } from '../../../machines/line/gate.ts';
import { huntAsking } from './asking-hunt.ts';
import { withChanged, withDropped } from './changed.ts';
import { huntGate } from './gate-hunt.ts';
import type { Mutation } from './mutation.ts';

export const GATE_LISTS = { CLOSED_BY_A_TRIP, STOPPED_BY_EMERGENCY, FUEL } as const;

const LISTED: readonly Mutation[] = Object.entries(GATE_LISTS).flatMap(([name, list]) =>
  list.map((key): Mutation => {
    const changed = <R>(run: () => R): R => withDropped(list, key, run);
    return {
      of: `list ${name}: ${key}`,
      broken: `${key} dropped from ${name}`,
      hunt: () => changed(() => huntGate(gate)),
    };
  }),
);

/** Both tanks are judged by the rows of the first; those of the second only word what is held, so a cause is broken for both. */
const rows = TANK_CAUSES.filter((one) => one.tank === 'emulsion');

/** A row that looks at a region its fellows look at already is as good as not there. */
const elsewhere = (one: TankCause): TankRegion => (one.region === 'vent' ? 'flow' : 'vent');

const TANK: readonly Mutation[] = rows.flatMap((one): Mutation[] => [
  {
    of: `tank cause ${one.id}`,
    broken: `nobody looks at ${one.region}, which ${one.id} and its like of the other tank stand for`,
    hunt: () => withChanged(one, 'region', elsewhere(one), () => huntGate(gate)),
  },
  ...one.holds
    .filter((key) => key === 'oilBurner')
    .map(
      (key): Mutation => ({
        of: `tank cause ${one.id} holds ${key}`,
        broken: `${one.id} and its like do not hold ${key}`,
        hunt: () =>
          withChanged(
            one,
            'holds',
            one.holds.filter((other) => other !== key),
            () => huntGate(gate),
          ),
      }),
    ),
  ...(one.comesWithHeat
    ? []
    : [
        {
          of: `tank cause ${one.id} and the asking for heat`,
          broken: `heat may be asked for although ${one.id} stands against it`,
          hunt: () => withChanged(one, 'comesWithHeat', true, huntAsking),
        },
      ]),
]);

export const GATE_LIST_MUTATIONS: readonly Mutation[] = [...LISTED, ...TANK];
