/** The burner beside what was last heard of air, fuel valve and scanner, to see that it acts on each at once. */
import { burnerMayAdmitFuel } from '../../../machines/charts/burner/burner.guards.ts';
import type { ChartValue } from '../../../machines/charts/flame-interlock/flame-interlock.guards.ts';
import type { ChartTable } from '../chart-table.ts';
import type { Model } from '../explorer.ts';
import { NEVER_MORE } from '../never-more.ts';

const AIR = 1;
const FUEL_SHUT = 2;
const FLAME = 4;
const BITS = 8;
const MOVES: { readonly [type: string]: (bits: number) => number } = {
  'on.drumFanProved': (bits) => bits | AIR,
  'off.drumFanProved': (bits) => bits & ~AIR,
  'on.fuelShut': (bits) => bits | FUEL_SHUT,
  'off.fuelShut': (bits) => bits & ~FUEL_SHUT,
  'on.flameSeen': (bits) => bits | FLAME,
  'off.flameSeen': (bits) => bits & ~FLAME,
};

export const burnerWatchModel = (burner: ChartTable): Model => {
  const events = [...burner.events, ...Object.keys(MOVES).filter((type) => !burner.events.includes(type))];
  const width = burner.events.length;
  const chartOf = (state: number): number => Math.floor(state / BITS);
  const topOf = (state: number): string => {
    const value = burner.values[chartOf(state)] as ChartValue;
    return typeof value === 'string' ? value : (Object.keys(value)[0] ?? '');
  };
  const admits = burner.values.map(burnerMayAdmitFuel);
  return {
    name: 'burner beside what it last heard',
    size: burner.names.length * BITS,
    // Off, the scanner dark and the fuel valve proved shut, the fan still.
    start: FUEL_SHUT,
    events,
    next: (state, event) => {
      const chart = chartOf(state);
      const to = event < width ? (burner.next[chart * width + event] as number) : chart;
      const move = MOVES[events[event] as string];
      return to * BITS + (move === undefined ? state % BITS : move(state % BITS));
    },
    describe: (state) =>
      `${burner.names[chartOf(state)]} having heard ${state & AIR ? 'air' : 'no air'}, fuel ${state & FUEL_SHUT ? 'shut' : 'open'}, ${state & FLAME ? 'a flame' : 'no flame'}`,
    charts: (state) => ({ burner: burner.values[chartOf(state)] as ChartValue }),
    rules: [
      {
        id: 'NR-55',
        says: NEVER_MORE['NR-55'],
        broken: (from, event, to) => {
          const type = events[event];
          const lights = admits[chartOf(to)] === true && admits[chartOf(from)] !== true;
          if (lights && ((to & FLAME) !== 0 || (to & FUEL_SHUT) === 0 || type !== 'on.purged')) return true;
          if (admits[chartOf(to)] === true && (to & AIR) === 0) return true;
          if (topOf(from) === 'mainTrial' && type === 'off.flameSeen' && admits[chartOf(to)] === true)
            return true;
          const rests = topOf(from) !== 'off' && topOf(to) === 'off';
          return rests && topOf(from) !== 'purging' && type !== 'on.purged';
        },
      },
    ],
  };
};
