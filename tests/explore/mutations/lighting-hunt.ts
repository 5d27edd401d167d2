/** Whether lighting would be accepted where it may not be: judged from the states of the flame interlock themselves. */
import {
  burnerMayLight,
  type ChartValue,
} from '../../../machines/charts/flame-interlock/flame-interlock.guards.ts';
import { BASES, stateValueOf, TRIP_STATES } from '../interlock-space.ts';
import type { Kill } from './mutation.ts';

const mayNotLight = (value: { readonly [region: string]: ChartValue }): boolean =>
  !['purgeDue', 'airing', 'purged'].includes(String(value.dryer)) ||
  value.valve !== 'shut' ||
  value.bucket !== 'noCutback' ||
  value.mixer !== 'noCutback' ||
  value.trip !== 'watching';

/** NR-40, in every state of the regions there could be; the first state in which it is broken. */
export const huntLighting = (): Kill | null => {
  for (let base = BASES - 1; base >= 0; base--)
    for (const trip of [1, 0, TRIP_STATES - 1]) {
      const value = stateValueOf(base, trip) as { [region: string]: ChartValue };
      if (mayNotLight(value) && burnerMayLight(value))
        return { rule: 'NR-40', story: `NR-40: lighting is accepted in ${JSON.stringify(value)}` };
    }
  return null;
};
