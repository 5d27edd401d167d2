/** With every fault healed and a sensible operator in the seat, the yard makes a batch again within its time. */
import type { CommandEnvelope } from '../../../machines/line/commands.ts';
import { advance, type World } from '../../../machines/world/world.ts';

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
  // Whoever sits at the controls leaves them, as far as the line will have it.
  for (const console of ['console-1', 'console-2', 'console-3'])
    for (const role of ['operator', 'supervisor'] as const) {
      const holder = world.line.seat.holder;
      if (holder !== null && holder.console === console && holder.role === role)
        give({ do: 'releaseControls' }, console, role);
    }
  give({ do: 'takeControls' }, 'console-1', 'operator');
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
