/** Titles and instructions as the charts themselves give them. */
import type { ChartId, Line } from '../line.types.ts';
import { machineOf } from '../machines.ts';

type Meta = { readonly title?: string; readonly instruction?: string };

/** The title (or instruction) of a chart's node by its path, '' when it has none. */
export const chartTitle = (
  line: Line,
  chart: ChartId,
  path: string,
  what: 'title' | 'instruction' = 'title',
): string => {
  let node = machineOf(line, chart).root;
  for (const key of path.split('.')) {
    const next = node.states[key];
    if (next === undefined) return '';
    node = next;
  }
  return (node.meta as Meta | undefined)?.[what] ?? '';
};

/** Title of the innermost active state of a chart without parallel regions. */
export const activeTitle = (line: Line, chart: ChartId): string => {
  const nodes = line.charts[chart]?._nodes ?? [];
  for (let i = nodes.length - 1; i >= 0; i -= 1) {
    const title = (nodes[i]?.meta as Meta | undefined)?.title;
    if (title !== undefined) return title;
  }
  return '';
};
