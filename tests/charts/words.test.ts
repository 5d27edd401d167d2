/** Every state of the safety charts says in words what it is. */
import { describe, expect, it } from 'vitest';
import type { AnyStateNode } from 'xstate';
import { MACHINES } from '../explore/charts.ts';

const leavesOf = (node: AnyStateNode): readonly AnyStateNode[] => {
  const children = Object.values(node.states) as AnyStateNode[];
  return children.length === 0 ? [node] : children.flatMap(leavesOf);
};

describe('words of the charts', () => {
  it.each(Object.keys(MACHINES) as (keyof typeof MACHINES)[])(
    '%s: each state a person can find it in',
    (name) => {
      for (const leaf of leavesOf(MACHINES[name].root)) {
        if (leaf.key === 'judging') continue;
        const { title, instruction } = (leaf.meta ?? {}) as { title?: string; instruction?: string };
        expect(title, leaf.id).toMatch(/^[A-Z].{2,}[^.]$/);
        if (instruction !== undefined) expect(instruction, leaf.id).toMatch(/^[A-Z].*\.$/);
      }
    },
  );

  it('lockouts, trips and held heat tell a person what to do', () => {
    for (const [name, path] of [
      ['burner', 'lockedOut'],
      ['oilHeater', 'lockedOut'],
      ['interlock', 'trip.tripped'],
    ] as const) {
      let node = MACHINES[name].root as AnyStateNode;
      for (const key of path.split('.')) node = node.states[key] as AnyStateNode;
      expect((node.meta as { instruction?: string }).instruction).toMatch(/reset/);
    }
  });
});
