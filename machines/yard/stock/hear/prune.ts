/** Keeps the book small: what is over and done is found in the record, not here. */
import type { StockState } from '../state.types.ts';

/** Loads that are settled or cancelled, lots that are gone, deliveries used up: so many of each stay. */
const KEEP = { loads: 400, lots: 200, deliveries: 300, movements: 200, measurements: 60 } as const;

const newest = <T>(
  all: { readonly [id: string]: T },
  keep: number,
  must: (id: string, one: T) => boolean,
) => {
  const ids = Object.keys(all);
  const done = ids.filter((id) => !must(id, all[id] as T));
  if (done.length <= keep) return all;
  const gone = new Set(done.slice(0, done.length - keep));
  return Object.fromEntries(ids.filter((id) => !gone.has(id)).map((id) => [id, all[id] as T]));
};

export const pruned = (s: StockState): Partial<StockState> => {
  const loads = newest(s.loads, KEEP.loads, (_, load) => ['made out', 'on the road'].includes(load.state));
  const lying = new Set(Object.values(s.places).flatMap((layers) => layers.map((layer) => layer.lot)));
  for (const load of Object.values(loads)) for (const { lot } of load.aboard) lying.add(lot);
  const held = new Set(Object.values(s.stores).flatMap((store) => store.parts.map((part) => part.source)));
  return {
    loads,
    lots: newest(s.lots, KEEP.lots, (id, lot) => lying.has(id) || lot.closedAt === null),
    deliveries: newest(
      s.deliveries,
      KEEP.deliveries,
      (id, one) => held.has(id) || ['announced', 'being pumped'].includes(one.state),
    ),
    movements: s.movements.slice(-KEEP.movements),
    measurements: s.measurements.slice(-KEEP.measurements),
  };
};
