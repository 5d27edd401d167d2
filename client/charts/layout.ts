/** Lays a chart out with elkjs, once per machine: states light up without moving. */
import type { ELK, ElkNode, ElkPoint } from 'elkjs/lib/elk-api.js';
import { elkGraphOf } from './elk-graph.ts';
import type { ChartGraph } from './graph.ts';

export type Placed = { readonly x: number; readonly y: number; readonly w: number; readonly h: number };

export type ChartLayout = {
  readonly widthPx: number;
  readonly heightPx: number;
  /** By elk node id (see nodeId and startId). */
  readonly boxes: ReadonlyMap<string, Placed>;
  /** By arrow id: corners of the line, and where its words stand. */
  readonly arrows: ReadonlyMap<
    string,
    { readonly points: readonly ElkPoint[]; readonly label: Placed | null }
  >;
};

/** Collects what elk placed; coordinates are already counted from the root. */
const read = (page: ElkNode): ChartLayout => {
  const boxes = new Map<string, Placed>();
  const arrows = new Map<string, { points: ElkPoint[]; label: Placed | null }>();
  const visit = (node: ElkNode) => {
    if (node.id !== 'page')
      boxes.set(node.id, { x: node.x ?? 0, y: node.y ?? 0, w: node.width ?? 0, h: node.height ?? 0 });
    for (const edge of node.edges ?? []) {
      const points = (edge.sections ?? []).flatMap((section) => [
        section.startPoint,
        ...(section.bendPoints ?? []),
        section.endPoint,
      ]);
      const label = edge.labels?.[0];
      arrows.set(edge.id, {
        points,
        label:
          label === undefined
            ? null
            : { x: label.x ?? 0, y: label.y ?? 0, w: label.width ?? 0, h: label.height ?? 0 },
      });
    }
    node.children?.forEach(visit);
  };
  visit(page);
  return { widthPx: page.width ?? 1, heightPx: page.height ?? 1, boxes, arrows };
};

/** How large a layout can be drawn in a window of this shape; the larger the better to read. */
const fitOf = (layout: ChartLayout, aspect: number): number =>
  Math.min(aspect / layout.widthPx, 1 / layout.heightPx);

const PAGE_ASPECT = 1.5;

/**
 * Tries both directions of reading and keeps the one that can be drawn larger; a direction that
 * elk cannot lay out is passed over. Rejects with elk's error when it can do neither.
 */
export const layoutOf = async (graph: ChartGraph, elk: Pick<ELK, 'layout'>): Promise<ChartLayout> => {
  const layouts: ChartLayout[] = [];
  let failure: unknown;
  for (const direction of ['RIGHT', 'DOWN'] as const) {
    try {
      layouts.push(read(await elk.layout(elkGraphOf(graph, direction))));
    } catch (error) {
      failure = error;
    }
  }
  const best = layouts.toSorted((a, b) => fitOf(b, PAGE_ASPECT) - fitOf(a, PAGE_ASPECT))[0];
  if (best === undefined) throw failure;
  return best;
};
