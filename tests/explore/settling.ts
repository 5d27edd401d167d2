/**
 * Offering signals as they stand must come to an end, in whatever order they are offered: for every
 * combination of its signals, the moves a chart can make on them form no circle.
 */
import type { ChartTable } from './chart-table.ts';

/** A circle of states a chart would run round in for ever, in words; null when there is none. */
export const endlessOffer = (table: ChartTable): string | null => {
  const signals = [
    ...new Set(
      table.events.filter((type) => /^(on|off)\./.test(type)).map((type) => type.replace(/^(on|off)\./, '')),
    ),
  ];
  for (let truth = 0; truth < 1 << signals.length; truth++) {
    const offered = signals.map((signal, bit) => `${truth & (1 << bit) ? 'on' : 'off'}.${signal}`);
    const columns = offered.map((type) => table.events.indexOf(type)).filter((column) => column >= 0);
    // 0 not seen, 1 on the path being walked, 2 known to end.
    const seen = new Uint8Array(table.names.length);
    const walk = (state: number): number | null => {
      if (seen[state] === 2) return null;
      if (seen[state] === 1) return state;
      seen[state] = 1;
      for (const column of columns) {
        const to = table.next[state * table.events.length + column] as number;
        if (to === state) continue;
        const circle = walk(to);
        if (circle !== null) return circle;
      }
      seen[state] = 2;
      return null;
    };
    for (let state = 0; state < table.names.length; state++) {
      const circle = walk(state);
      if (circle !== null)
        return `${table.names[circle]} comes round again while ${offered.join(', ')} stand`;
    }
  }
  return null;
};
