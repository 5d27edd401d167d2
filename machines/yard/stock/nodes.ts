/** How the stock names the nodes of the tracing. */
import type { NodeRef } from '../trace/edges.ts';
import type { Drawn, Layer } from './state.types.ts';

/** Water from the mains: it has no delivery and no end. */
export const MAINS = 'MAINS';
/** Sources that begin so are no delivery but what a count, a scale or missing papers put in. */
const NO_DELIVERY = 'A-';

export const openingSource = (material: string): string => `OPENING:${material}`;
export const uncoveredSource = (material: string): string => `${NO_DELIVERY}UNCOVERED:${material}`;
export const scaleSource = (material: string): string => `${NO_DELIVERY}SCALE:${material}`;

export const sourceNode = (source: string): NodeRef => ({
  kind: source.startsWith(NO_DELIVERY) ? 'adjustment' : 'delivery',
  id: source,
});

/** The node mix in a layer hangs on: its lot, or the layer itself when it came back from a load. */
export const layerNode = (layer: Pick<Layer | Drawn, 'lot' | 'returned'>): NodeRef =>
  layer.returned === null ? { kind: 'lot', id: layer.lot } : { kind: 'returned', id: layer.returned };
