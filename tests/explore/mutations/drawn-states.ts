/** NR-48: what is drawn in a chart can be reached: the states of its config that no event leads to. */
import type { AnyStateMachine } from 'xstate';
import { type ChartTable, tableOf } from '../chart-table.ts';

type Drawn = { readonly states?: { readonly [key: string]: Drawn }; readonly always?: unknown };

const leaves = (node: Drawn, path: string): string[] =>
  Object.entries(node.states ?? {}).flatMap(([key, child]) => {
    const here = path === '' ? key : `${path}.${key}`;
    // A state left in the same step is never rested in.
    if (child.always !== undefined && child.states === undefined) return [];
    return child.states === undefined ? [here] : leaves(child, here);
  });

const active = (value: unknown, path = ''): string[] =>
  typeof value === 'string'
    ? [path === '' ? value : `${path}.${value}`]
    : Object.entries(value as { [key: string]: unknown }).flatMap(([key, part]) =>
        active(part, path === '' ? key : `${path}.${key}`),
      );

export const unreached = (
  machine: AnyStateMachine,
  table: ChartTable = tableOf(machine, 700),
): readonly string[] => {
  const reached = new Set(table.values.flatMap((value) => active(value)));
  return leaves(machine.config as Drawn, '').filter((leaf) => !reached.has(leaf));
};
