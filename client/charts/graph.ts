/** Reads a machine's states and transitions into plain nested boxes and arrows in the operator's words. */
import type { AnyStateMachine, AnyStateNode } from 'xstate';
import { eventWords, stateWords } from './words.ts';

export type Box = {
  /** Path below the machine, joined by dots; '' is the machine itself. */
  readonly path: string;
  readonly title: string;
  readonly instruction: string;
  readonly kind: 'atomic' | 'compound' | 'parallel' | 'final';
  /** Path of the child a compound state begins in. */
  readonly begins: string | null;
  readonly children: readonly Box[];
};

export type Arrow = {
  readonly id: string;
  readonly from: string;
  readonly to: string;
  /** One line of words per transition that this arrow stands for. */
  readonly labels: readonly string[];
};

export type ChartGraph = { readonly root: Box; readonly arrows: readonly Arrow[] };

const pathOf = (node: AnyStateNode): string => node.path.join('.');

const metaText = (node: AnyStateNode, key: 'title' | 'instruction'): string => {
  const meta: unknown = node.meta;
  if (typeof meta !== 'object' || meta === null) return '';
  const text = (meta as { readonly [key: string]: unknown })[key];
  return typeof text === 'string' ? text : '';
};

const kindOf = (node: AnyStateNode): Box['kind'] =>
  node.type === 'parallel' || node.type === 'compound' || node.type === 'final' ? node.type : 'atomic';

const boxOf = (node: AnyStateNode): Box => {
  const begins = node.type === 'compound' ? node.initial?.target[0] : undefined;
  return {
    path: pathOf(node),
    title: metaText(node, 'title') || stateWords(node.key),
    instruction: metaText(node, 'instruction'),
    kind: kindOf(node),
    begins: begins === undefined ? null : pathOf(begins),
    children: Object.values(node.states).map((child) => boxOf(child as AnyStateNode)),
  };
};

const guardWords = (guard: unknown): string => {
  if (guard === undefined || guard === null) return '';
  if (typeof guard === 'string') return ` if ${guard}`;
  if (typeof guard === 'object' && 'type' in guard && typeof guard.type === 'string')
    return ` if ${guard.type}`;
  return ' on a condition';
};

const arrowsOf = (node: AnyStateNode, into: Map<string, { from: string; to: string; labels: string[] }>) => {
  const transitions = [...[...node.transitions.values()].flat(), ...(node.always ?? [])];
  for (const transition of transitions) {
    const label = eventWords(transition.eventType) + guardWords(transition.guard);
    for (const target of transition.target ?? []) {
      const from = pathOf(node);
      const to = pathOf(target as AnyStateNode);
      const id = `${from}→${to}`;
      const arrow = into.get(id) ?? { from, to, labels: [] };
      if (!arrow.labels.includes(label)) arrow.labels.push(label);
      into.set(id, arrow);
    }
  }
  for (const child of Object.values(node.states)) arrowsOf(child as AnyStateNode, into);
};

/** Boxes and arrows of a machine; transitions between the same two states share one arrow. */
export const graphOf = (machine: AnyStateMachine): ChartGraph => {
  const arrows = new Map<string, { from: string; to: string; labels: string[] }>();
  arrowsOf(machine.root, arrows);
  return { root: boxOf(machine.root), arrows: [...arrows].map(([id, arrow]) => ({ id, ...arrow })) };
};

/** Every box, parents before children. */
export const boxesOf = (box: Box): readonly Box[] => [box, ...box.children.flatMap(boxesOf)];

/**
 * Paths that are active, from node ids such as "burner.purging.airing": the part before the first
 * dot names the chart; parents of an active state are active with it.
 */
export const activePaths = (active: readonly string[]): ReadonlySet<string> => {
  const paths = new Set<string>(['']);
  for (const id of active) {
    const parts = id.split('.').slice(1);
    for (let n = 1; n <= parts.length; n++) paths.add(parts.slice(0, n).join('.'));
  }
  return paths;
};

/** Active boxes that have no active box inside them: where the chart stands, one per region. */
export const leavesOf = (root: Box, paths: ReadonlySet<string>): readonly Box[] =>
  boxesOf(root).filter(
    (box) => box.path !== '' && paths.has(box.path) && !box.children.some((child) => paths.has(child.path)),
  );
