/** Random but possible histories of a yard, as edges: what a node gives it had before. For the property tests of tracing. */
import fc from 'fast-check';
import type { Edge, NodeRef } from '../../machines/yard/trace/edges.ts';

export type History = { readonly edges: readonly Edge[]; readonly patches: readonly NodeRef[] };

const ref = (kind: NodeRef['kind'], id: string): NodeRef => ({ kind, id });

type Step = { readonly what: number; readonly a: number; readonly b: number; readonly grams: number };

const step: fc.Arbitrary<Step> = fc.record({
  what: fc.integer({ min: 0, max: 99 }),
  a: fc.nat(1_000_000),
  b: fc.nat(1_000_000),
  grams: fc.integer({ min: 1, max: 3_000_000 }),
});

/** Plays steps as far as they are possible; a step that is not does nothing. */
export const play = (steps: readonly Step[]): History => {
  const edges: Edge[] = [];
  const has = new Map<string, number>();
  const key = ({ kind, id }: NodeRef) => `${kind} ${id}`;
  const held = (node: NodeRef) => has.get(key(node)) ?? 0;
  let seq = 0;
  const move = (from: NodeRef, to: NodeRef, asked: number, material?: string): number => {
    const isFree = from.kind === 'delivery' || from.kind === 'adjustment';
    const grams = isFree ? asked : Math.min(asked, held(from));
    if (grams <= 0) return 0;
    // The same way taken twice at one entry is one edge, as in the tables.
    const same = edges.findIndex(
      (one) =>
        one.seq === seq &&
        key(one.from) === key(from) &&
        key(one.to) === key(to) &&
        one.material === material,
    );
    const before = same < 0 ? 0 : (edges.splice(same, 1)[0]?.grams ?? 0);
    edges.push({ from, to, grams: before + grams, seq, ...(material === undefined ? {} : { material }) });
    if (!isFree) has.set(key(from), held(from) - grams);
    has.set(key(to), held(to) + grams);
    return grams;
  };
  let [batches, loads, returns] = [0, 0, 0];
  const patches = new Map<string, NodeRef>();
  const lot = (n: number) => ref('lot', `26051${n % 3}-${1 + (n % 2)}`);
  const pick = (n: number) => ref('load', `L-${n % Math.max(1, loads)}`);
  for (const { what, a, b, grams } of steps) {
    seq += 1 + (a % 3);
    if (what < 40) {
      const batch = ref('batch', `b/${++batches}`);
      const parts: [string, number][] = [
        [`STONE-${a % 3}`, 1 + (grams % 700_000)],
        [`STONE-${b % 2}`, 1 + (grams % 90_001)],
        [`BINDER-${b % 4}`, 1 + (grams % 55_003)],
      ];
      let made = 0;
      for (const [id, part] of parts) made += move(ref('delivery', id), batch, part, id.split('-')[0]);
      move(batch, what === 0 ? ref('waste', batch.id) : lot(a), made);
    } else if (what < 45) move(lot(a), ref('air', lot(a).id), grams % 900);
    else if (what < 70) {
      const load = ref('load', `L-${loads++}`);
      move(lot(a), load, grams);
      move(lot(b), load, grams % 1_000_003);
      if (returns > 0 && a % 4 === 0) move(ref('returned', `R-${b % returns}`), load, grams % 77_777);
    } else if (what < 95) {
      const patch = ref('patch', `PL-1/${1 + (b % 9)}`);
      if (move(pick(a), patch, 1 + (grams % 400_000)) > 0) patches.set(patch.id, patch);
    } else if (what < 98) {
      if (move(pick(a), ref('returned', `R-${returns}`), grams % 200_000) > 0) returns += 1;
    } else if (what === 98) {
      const [from, to] = [ref('patch', `PL-1/${1 + (b % 9)}`), pick(a)];
      const there = edges.filter((one) => key(one.from) === key(to) && key(one.to) === key(from));
      const back = edges.filter((one) => key(one.from) === key(from) && key(one.to) === key(to));
      const sum = (all: readonly Edge[]) => all.reduce((total, one) => total + one.grams, 0);
      // Taken back where it had come from, and no more than had.
      move(from, to, Math.min(grams % 90_000, sum(there) - sum(back)));
    } else move(ref('adjustment', 'A-FOUND'), lot(a), 1 + (grams % 1000));
  }
  return { edges, patches: [...patches.values()] };
};

export const histories = (steps: number): fc.Arbitrary<History> =>
  fc.array(step, { minLength: 5, maxLength: steps }).map(play);

/** The edges again in another order: nothing may depend on the order they are given in. */
export const shuffled = (edges: readonly Edge[], seed: number): Edge[] =>
  edges
    .map((edge, i) => ({ edge, at: ((i + 1) * 2_654_435_761 + seed * 97) % 4_294_967_296 }))
    .sort((a, b) => a.at - b.at)
    .map(({ edge }) => edge);
