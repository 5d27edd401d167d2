/** What is said to be permitted where it may not be: judged from the states of the flame interlock themselves. */
import {
  binderMayFlow,
  burnerMayFire,
  burnerMayLight,
  type ChartValue,
  cutbackMayFeed,
} from '../../../machines/charts/flame-interlock/flame-interlock.guards.ts';
import { BASES, stateValueOf } from '../interlock-space.ts';
import { SAFE, TRIP_VALUES } from './gate-hunt.ts';
import type { Kill } from './mutation.ts';

const mayNotLight = (value: { readonly [region: string]: ChartValue }): boolean =>
  !['purgeDue', 'airing', 'purged'].includes(String(value.dryer)) ||
  value.valve !== 'shut' ||
  value.bucket !== 'noCutback' ||
  value.mixer !== 'noCutback' ||
  value.trip !== 'watching';

/** NR-40, in every state of the regions there could be, the safest first; the first state in which it is broken. */
export const huntLighting = (): Kill | null => {
  for (let base = BASES - 1; base >= 0; base--) {
    const value = stateValueOf(base, 1) as { [region: string]: ChartValue };
    if (mayNotLight(value) && burnerMayLight(value))
      return { rule: 'NR-40', story: `NR-40: lighting is accepted in ${JSON.stringify(value)}` };
  }
  return null;
};

/** NR-42: with everything else as it should be, nothing is said to be permitted unless the interlock watches. */
export const huntPermitted = (): Kill | null => {
  for (const trip of TRIP_VALUES) {
    const value = { ...SAFE, trip };
    const said = [binderMayFlow, cutbackMayFeed, burnerMayFire, burnerMayLight].some((ask) => ask(value));
    if (said && trip !== 'watching')
      return {
        rule: 'NR-42',
        story: `NR-42: something is said to be permitted with ${JSON.stringify(trip)}`,
      };
  }
  return null;
};
