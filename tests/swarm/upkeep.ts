/**
 * Upkeep and deliveries in a random history: trucks, hot work, inhibits and proof tests come at any time. Whoever
 * looks at ticket and sample says what is truly in the truck or the tank: a person who lies can deceive any line.
 */
import { CAUSE_IDS } from '../../machines/charts/flame-interlock/flame-interlock.causes.ts';
import { INHIBITABLE } from '../../machines/charts/flame-interlock/flame-interlock.upkeep.ts';
import type { Command } from '../../machines/line/commands.ts';
import type { Role } from '../../machines/scenario/people.schema.ts';
import type { World } from '../../machines/world/world.ts';
import type { Draws } from './draws.ts';

type Tank = 'emulsion' | 'cutback';
export type Act = { readonly command: Command; readonly by: Role };

const other = (tank: Tank): Tank => (tank === 'emulsion' ? 'cutback' : 'emulsion');

/** Less of the other binder than this is what clings to a hose, kg. */
const TRACE_KG = 1;

/** What a sample of this tank, or of the truck coupled to it, truly is. */
export const trulyHolds = (world: World, tank: Tank): Tank => {
  const { delivery, otherKg } = world.plant[`${tank}Tank`];
  if (delivery !== null && delivery.product !== tank) return delivery.product;
  return otherKg > TRACE_KG ? other(tank) : tank;
};

type Make = (world: World, draws: Draws) => Act;
const tankOf = (draws: Draws): Tank => draws.pick(['emulsion', 'cutback'] as const);

/** What people do beside the work, by name; each seed leaves some out. */
export const UPKEEP_ACTS: { readonly [name: string]: Make } = {
  receiveDelivery: (_world, draws) => {
    const tank = tankOf(draws);
    const product = draws.unit() < 0.1 ? other(tank) : tank;
    const kg = 200 + Math.round(draws.unit() * 1500);
    return { command: { do: 'receiveDelivery', tank, product, kg, ticket: 'T-4711' }, by: 'storekeeper' };
  },
  confirmDelivery: (world, draws) => {
    const tank = tankOf(draws);
    const by = draws.pick(['operator', 'storekeeper', 'supervisor'] as const);
    return { command: { do: 'confirmDelivery', tank, product: trulyHolds(world, tank) }, by };
  },
  endDelivery: (_world, draws) => ({
    command: { do: 'endDelivery', tank: tankOf(draws) },
    by: 'storekeeper',
  }),
  identifyTank: (world, draws) => {
    const tank = tankOf(draws);
    const product = trulyHolds(world, tank);
    return {
      command: { do: 'identifyTank', tank, product, reason: 'sampled and looked at' },
      by: 'supervisor',
    };
  },
  openHotWork: (_world, draws) => ({
    command: {
      do: 'openHotWork',
      where: 'beside the holding bin',
      reason: 'a bracket is welded',
      minutes: 5 + Math.floor(draws.unit() * 30),
    },
    by: 'supervisor',
  }),
  closeHotWork: () => ({ command: { do: 'closeHotWork' }, by: 'supervisor' }),
  inhibitCause: (_world, draws) => ({
    command: {
      do: 'inhibitCause',
      cause: draws.pick(draws.unit() < 0.5 ? INHIBITABLE : CAUSE_IDS),
      minutes: 1 + Math.floor(draws.unit() * 40),
      reason: 'its proof test is due',
    },
    by: 'operator',
  }),
  confirmInhibit: (_world, draws) => ({
    command: { do: 'confirmInhibit', cause: draws.pick(INHIBITABLE) },
    by: draws.pick(['operator', 'supervisor'] as const),
  }),
  liftInhibit: (_world, draws) => ({
    command: { do: 'liftInhibit', cause: draws.pick(INHIBITABLE) },
    by: 'operator',
  }),
  proveCause: (_world, draws) => ({
    command: {
      do: 'proveCause',
      cause: draws.pick(CAUSE_IDS),
      result: draws.unit() < 0.8 ? 'passed' : 'failed',
      remark: 'tested where it stands',
    },
    by: 'operator',
  }),
};
export const UPKEEP_NAMES = Object.keys(UPKEEP_ACTS);
