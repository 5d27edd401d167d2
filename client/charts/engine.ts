/** The layout engine in a worker of its own, so that a large chart never holds up the live page. */
import ELK from 'elkjs/lib/elk-api.js';
import workerUrl from 'elkjs/lib/elk-worker.min.js?url';
import type { ChartGraph } from './graph.ts';
import { type ChartLayout, layoutOf } from './layout.ts';

let engine: InstanceType<typeof ELK> | null = null;
const done = new WeakMap<ChartGraph, Promise<ChartLayout>>();

/** The layout of a chart, worked out once; rejects when elk cannot lay it out. */
export const laidOut = (graph: ChartGraph): Promise<ChartLayout> => {
  engine ??= new ELK({ workerUrl });
  const found = done.get(graph) ?? layoutOf(graph, engine);
  done.set(graph, found);
  return found;
};
