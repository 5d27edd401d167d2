/** Sizes the boxes and labels of a chart and states them as a layout problem for elkjs. */
import type { ElkExtendedEdge, ElkNode } from 'elkjs/lib/elk-api.js';
import { textWidthPx, wrap } from '../drawing/text.ts';
import type { Arrow, Box, ChartGraph } from './graph.ts';

export const TITLE_PX = 13.5;
export const LABEL_PX = 12.5;
export const TITLE_LINE_PX = 17;
export const LABEL_LINE_PX = 15.5;
export const PAD_PX = 11;
/** Room before a title for the "●" of an active state. */
export const MARK_PX = 16;

const TITLE_ROOM_PX = 190;
const LABEL_ROOM_PX = 190;
const TITLE_LINES = 6;
const LABEL_LINES = 4;
const START_PX = 9;

export const titleLines = (title: string): readonly string[] =>
  wrap(title, TITLE_ROOM_PX, TITLE_PX, TITLE_LINES, true);

export const labelLines = (labels: readonly string[]): readonly string[] =>
  labels.flatMap((label) => wrap(label, LABEL_ROOM_PX, LABEL_PX, LABEL_LINES));

const widest = (lines: readonly string[], sizePx: number, bold = false): number =>
  Math.max(0, ...lines.map((line) => textWidthPx(line, sizePx, bold)));

/** Id of the dot from which a compound state begins. */
export const startId = (path: string): string => `start:${path}`;
/** Id of the invisible wrapper of a region. */
export const packetId = (path: string): string => `packet:${path}`;
/** Elk wants a name for every node; the machine itself has the empty path. */
export const nodeId = (path: string): string => (path === '' ? 'chart' : path);

const FLOW_OPTIONS = {
  'elk.algorithm': 'layered',
  'elk.hierarchyHandling': 'INCLUDE_CHILDREN',
  'elk.edgeRouting': 'ORTHOGONAL',
  'elk.layered.spacing.nodeNodeBetweenLayers': '26',
  'elk.layered.spacing.edgeNodeBetweenLayers': '14',
  'elk.spacing.nodeNode': '26',
  'elk.spacing.edgeNode': '16',
  'elk.spacing.edgeEdge': '12',
  'elk.spacing.edgeLabel': '5',
  'elk.layered.nodePlacement.strategy': 'NETWORK_SIMPLEX',
  'elk.layered.cycleBreaking.strategy': 'DEPTH_FIRST',
  'elk.layered.thoroughness': '3',
};

const paddingOf = (lines: number) =>
  `[top=${PAD_PX + lines * TITLE_LINE_PX + 12},left=16,bottom=16,right=16]`;

/** A region in a wrapper of its own: elk needs one around arrows from a region to its own states. */
const packetOf = (node: ElkNode, direction: 'RIGHT' | 'DOWN'): ElkNode => ({
  id: packetId(node.id),
  layoutOptions: {
    ...FLOW_OPTIONS,
    'elk.direction': direction,
    'elk.padding': '[top=0,left=0,bottom=0,right=0]',
  },
  children: [node],
});

const nodeOf = (box: Box, direction: 'RIGHT' | 'DOWN', packed: boolean): ElkNode => {
  const lines = titleLines(box.title);
  const titleW = widest(lines, TITLE_PX, true) + 2 * PAD_PX + MARK_PX;
  if (box.children.length === 0)
    return { id: nodeId(box.path), width: titleW, height: lines.length * TITLE_LINE_PX + 2 * PAD_PX - 2 };
  const start: readonly ElkNode[] =
    box.begins === null
      ? []
      : [
          {
            id: startId(box.path),
            width: START_PX,
            height: START_PX,
            layoutOptions: { 'elk.layered.layering.layerConstraint': 'FIRST' },
          },
        ];
  const isPacked = packed && box.path === '';
  return {
    id: nodeId(box.path),
    layoutOptions: {
      ...(isPacked
        ? {
            'elk.algorithm': 'rectpacking',
            'elk.hierarchyHandling': 'SEPARATE_CHILDREN',
            'elk.spacing.nodeNode': '18',
            'elk.aspectRatio': '1.5',
          }
        : { ...FLOW_OPTIONS, 'elk.direction': direction }),
      'elk.padding': paddingOf(lines.length),
      'elk.nodeSize.constraints': 'MINIMUM_SIZE',
      'elk.nodeSize.minimum': `(${Math.ceil(titleW)},40)`,
    },
    children: [
      ...start,
      ...box.children.map((child) => {
        const node = nodeOf(child, direction, packed);
        return isPacked ? packetOf(node, direction) : node;
      }),
    ],
  };
};

const regionOf = (path: string): string => path.split('.')[0] ?? '';

/** Regions can be laid out each by itself when no arrow crosses from one to another. */
export const isPackable = (graph: ChartGraph): boolean =>
  graph.root.kind === 'parallel' &&
  graph.arrows.every((arrow) => arrow.from !== '' && regionOf(arrow.from) === regionOf(arrow.to));

const edgeOf = (arrow: Arrow): ElkExtendedEdge => {
  const lines = labelLines(arrow.labels);
  return {
    id: arrow.id,
    sources: [nodeId(arrow.from)],
    targets: [nodeId(arrow.to)],
    labels: [
      {
        id: `label:${arrow.id}`,
        text: lines.join('\n'),
        width: widest(lines, LABEL_PX) + 8,
        height: lines.length * LABEL_LINE_PX + 4,
        layoutOptions: { 'elk.edgeLabels.inline': 'true', 'elk.edgeLabels.placement': 'CENTER' },
      },
    ],
  };
};

const startEdges = (box: Box): readonly ElkExtendedEdge[] => [
  ...(box.begins === null
    ? []
    : [
        {
          id: `${startId(box.path)}→${box.begins}`,
          sources: [startId(box.path)],
          targets: [nodeId(box.begins)],
        },
      ]),
  ...box.children.flatMap(startEdges),
];

/** Elk id of the node that must list an edge: the region when regions stand apart, else the chart. */
const holderOf = (edge: ElkExtendedEdge, packed: boolean): string => {
  if (!packed) return nodeId('');
  return packetId(regionOf((edge.sources[0] ?? '').replace(/^start:/, '')));
};

/** The layout problem: coordinates of the answer count from the chart's top left corner. */
export const elkGraphOf = (graph: ChartGraph, direction: 'RIGHT' | 'DOWN'): ElkNode => {
  const packed = isPackable(graph);
  const root = nodeOf(graph.root, direction, packed);
  const edges = [...graph.arrows.map(edgeOf), ...startEdges(graph.root)];
  for (const holder of [root, ...(packed ? (root.children ?? []) : [])])
    holder.edges = edges.filter((edge) => holderOf(edge, packed) === holder.id);
  return {
    id: 'page',
    layoutOptions: {
      'elk.algorithm': 'layered',
      'elk.direction': direction,
      'elk.hierarchyHandling': packed ? 'SEPARATE_CHILDREN' : 'INCLUDE_CHILDREN',
      'elk.json.edgeCoords': 'ROOT',
      'elk.json.shapeCoords': 'ROOT',
      'elk.padding': '[top=2,left=2,bottom=2,right=2]',
    },
    children: [root],
  };
};
