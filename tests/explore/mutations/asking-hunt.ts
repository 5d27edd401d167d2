/** Whether a tank would be told it may ask for heat where it may not, in every state of its interlock. */
import {
  TANK_REGIONS,
  type TankRegion,
} from '../../../machines/charts/tank-interlock/tank-interlock.causes.ts';
import { tankMayAskForHeat } from '../../../machines/charts/tank-interlock/tank-interlock.guards.ts';
import { TANK_SAFE } from './gate-judge.ts';
import type { Kill } from './mutation.ts';

const NAMES = Object.keys(TANK_REGIONS) as readonly TankRegion[];

/** NR-41: the flow of the oil comes only with the heat; all else must be safe before. */
export const huntAsking = (): Kill | null => {
  for (let bits = 0; bits < 1 << NAMES.length; bits++) {
    const value = Object.fromEntries(
      NAMES.map((name, bit): [string, string] => [name, TANK_REGIONS[name][(bits >> bit) & 1] as string]),
    );
    const stands = NAMES.filter((name) => name !== 'flow' && value[name] !== TANK_SAFE[name]);
    if (stands.length > 0 && tankMayAskForHeat(value))
      return { rule: 'NR-41', story: `NR-41: heat may be asked for with ${stands.join(', ')} not safe` };
  }
  return null;
};
