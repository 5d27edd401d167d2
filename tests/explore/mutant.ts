/** Builds a chart with one thing broken on purpose, without touching its file. */
import { type AnyStateMachine, createMachine } from 'xstate';

/** One node of a chart's config, as far as a mutant touches it. */
export type Node = {
  on?: Record<string, unknown>;
  after?: Record<string, unknown>;
  always?: unknown;
  initial?: string;
  states?: Record<string, Node>;
};

/** A copy of a chart whose config was changed by `breakIt`; `at` finds a node by its path. */
export const mutant = (
  machine: AnyStateMachine,
  breakIt: (at: (path: string) => Node) => void,
): AnyStateMachine => {
  const config = structuredClone(machine.config) as Node;
  breakIt((path) => {
    let node: Node | undefined = config;
    for (const key of path.split('.')) node = node?.states?.[key];
    if (node === undefined) throw new Error(`no state ${path}`);
    return node;
  });
  return createMachine(config as never, machine.implementations as never) as unknown as AnyStateMachine;
};
