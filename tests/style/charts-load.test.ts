/** Every file of machines/ loads, and every chart in it is whole: XState throws on a misspelt target only then. */
import { describe, expect, it } from 'vitest';
import { createMachine, StateMachine, type StateNode } from 'xstate';
import { CODE } from './sources.ts';

const files = CODE.filter((path) => /^machines\/.*\.ts$/.test(path));
const chartFiles = files.filter((path) => path.endsWith('.machine.ts'));

/** Builds every transition of every state; throws when one leads nowhere. */
function unfold(node: StateNode): number {
  void node.transitions;
  return Object.values(node.states).reduce((count, child) => count + unfold(child), 1);
}

describe('machines/', () => {
  it.each(files)('%s loads', async (path) => {
    expect(await import(`../../${path}`)).toBeTypeOf('object');
  });

  it.each(chartFiles)('%s holds a whole chart', async (path) => {
    const exported = Object.values<unknown>(await import(`../../${path}`));
    // A file may hold one chart, or a few of one kind by name.
    const machines = exported
      .flatMap((value) => (value instanceof StateMachine ? [value] : Object.values<unknown>(Object(value))))
      .filter((value) => value instanceof StateMachine);
    expect(machines.length).toBeGreaterThan(0);
    for (const machine of machines) expect(unfold(machine.root as StateNode)).toBeGreaterThan(1);
  });

  it('caught: a chart with a misspelt target', () => {
    const broken = () => createMachine({ initial: 'a', states: { a: { on: { go: 'bb' } }, b: {} } });
    expect(() => unfold(broken().root as unknown as StateNode)).toThrow(/bb/);
  });
});
