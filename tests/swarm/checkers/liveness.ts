/** With every fault healed, upkeep finished and a sensible operator in the seat, the yard makes a batch again within its time. */
import type { InterlockCauseId } from '../../../machines/charts/flame-interlock/flame-interlock.causes.ts';
import type { CommandEnvelope } from '../../../machines/line/commands.ts';
import type { Order } from '../../../machines/line/line.types.ts';
import { advance, type World } from '../../../machines/world/world.ts';
import { trulyHolds } from '../upkeep.ts';

/** A whole campaign, cooling and one batch fit in this, min. */
const WITHIN_MIN = 180;

/** What keeps the yard from working again, in words; null when a batch was made. */
export const whyNotAlive = (start: World): string | null => {
  let world = start;
  let given = 0;
  const give = (
    command: CommandEnvelope['command'],
    console: string,
    role: 'operator' | 'supervisor',
  ): void => {
    given += 1;
    const person = world.scenario.people.find((one) => one.role === role)?.id ?? role;
    const envelope = {
      id: `healing-${String(given).padStart(4, '0')}`,
      by: { person, role, console },
      command,
    };
    world = advance(world, [envelope]).world;
  };
  give({ do: 'releaseEmergencyStop' }, 'console-1', 'operator');
  // Upkeep and deliveries are brought to their end, and doubts about tanks settled by a look at a sample.
  if (world.line.maintenance.permit !== null) give({ do: 'closeHotWork' }, 'console-1', 'supervisor');
  for (const cause of Object.keys(world.line.maintenance.inhibits) as InterlockCauseId[])
    give({ do: 'liftInhibit', cause }, 'console-1', 'operator');
  if (world.line.maintenance.drift !== null || !world.line.signals.detectorCalibrated)
    give({ do: 'proveCause', cause: 'FI-20', result: 'passed', remark: '' }, 'console-1', 'operator');
  for (const tank of ['emulsion', 'cutback'] as const) {
    if (world.line.tankMemos[tank].delivery !== null)
      give({ do: 'endDelivery', tank }, 'console-1', 'supervisor');
    const product = trulyHolds(world, tank);
    give({ do: 'identifyTank', tank, product, reason: 'sampled and looked at' }, 'console-1', 'supervisor');
    if (world.line.tankMemos[tank].foamed) {
      const cause = tank === 'emulsion' ? 'TE-08' : 'TC-08';
      give({ do: 'proveCause', cause, result: 'passed', remark: '' }, 'console-1', 'operator');
    }
  }
  // A tank with the other binder in it is emptied by hand; meanwhile the other mix can be made, if there is one.
  const isSound = (order: Order): boolean => {
    const mix = world.scenario.mixes.find((one) => one.id === order.mixId);
    return mix !== undefined && world.line.tankMemos[mix.family].holds === mix.family;
  };
  const present = world.line.orders.find((order) => order.n === world.line.order);
  const chosen =
    present !== undefined && isSound(present) ? present : world.line.orders.find((order) => isSound(order));
  if (chosen === undefined) return null;
  // Whoever sits at the controls leaves them, as far as the line will have it.
  for (const console of ['console-1', 'console-2', 'console-3'])
    for (const role of ['operator', 'supervisor'] as const) {
      const holder = world.line.seat.holder;
      if (holder !== null && holder.console === console && holder.role === role)
        give({ do: 'releaseControls' }, console, role);
    }
  give({ do: 'takeControls' }, 'console-1', 'operator');
  if (chosen !== present) give({ do: 'chooseOrder', order: chosen.n }, 'console-1', 'operator');
  const { holder } = world.line.seat;
  if (holder === null) return 'nobody can take the controls';
  world = advance(world, [
    {
      id: 'healing-stand-in',
      by: { person: holder.person, role: holder.role, console: holder.console },
      command: { do: 'standIn', skill: 'good' },
    },
  ]).world;
  if (world.line.seat.standIn === null) return 'the stand-in cannot be switched on';
  const before = world.line.batchesDone;
  for (let tick = 0; tick < WITHIN_MIN * 600; tick += 1) {
    world = advance(world, []).world;
    if (world.line.batchesDone > before) return null;
  }
  const { line } = world;
  return `no batch within ${WITHIN_MIN} min: ${JSON.stringify({ now: line.charts, refusals: line.refusals.slice(0, 3) }).slice(0, 1500)}`;
};
