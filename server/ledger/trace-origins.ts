/** What a trace starts from, found in the store: the nodes it means, and words for them. */
import type { NodeRef } from '../../machines/yard/trace/edges.ts';
import { batchNode } from '../../machines/yard/trace/nodes.ts';
import type { Suggestion, TraceFrom } from '../../machines/yard/trace/traced.types.ts';
import { PlainError } from '../plain-error.ts';
import type { Store } from '../store/store.ts';
import type { BatchRow } from '../store/trace-tables.ts';

/** Batches one operator or scale period may mean: a year of one person's. */
const BATCHES_AT_MOST = 20_000;
const SCALES_LOOKED_AT = 100_000;

/** Nothing on record is meant. */
export class NothingTraced extends PlainError {
  override name = 'NothingTraced';
}

export type Origins = { readonly origins: readonly NodeRef[]; readonly words: string };

const SCALE_WORDS: { readonly [scale: string]: string } = {
  hopper: 'weigh hopper',
  bucket: 'binder bucket',
};
export const scaleWords = (scale: string): string => SCALE_WORDS[scale] ?? scale;

/** A time a person gave, as far as they gave it: filled up to the last second when it ends a period. */
const endOf = (time: string | undefined): string | undefined =>
  time === undefined ? undefined : `${time}${'9999-12-31T23:59:59'.slice(time.length)}`;

const nodesOfBatches = (batches: readonly BatchRow[], what: string): readonly NodeRef[] => {
  if (batches.length === 0) throw new NothingTraced(`The record has no batch ${what}.`);
  if (batches.length >= BATCHES_AT_MOST)
    throw new NothingTraced(`There are more than ${BATCHES_AT_MOST} batches ${what}: give a shorter time.`);
  return batches.map(({ lot, batch }) => batchNode(lot, batch));
};

const between = (from: string | undefined, to: string | undefined): string =>
  `${from === undefined ? '' : ` from ${from.replace('T', ' ')}`}${to === undefined ? '' : ` to ${to.replace('T', ' ')}`}`;

const ofOperator = async (
  store: Store,
  { id, from, to }: TraceFrom & { kind: 'operator' },
): Promise<Origins> => {
  const until = endOf(to);
  const batches = await store.traces.batches({
    person: id,
    ...(from === undefined ? {} : { from }),
    ...(until === undefined ? {} : { to: until }),
    limit: BATCHES_AT_MOST,
  });
  const what = `started by ${id}${between(from, to)}`;
  return { origins: nodesOfBatches(batches, what), words: `Batches ${what}` };
};

/** `id` is the scale, or '<scale> <entry>' for the period that began when it was set to zero at that entry. */
const ofScale = async (store: Store, { id, from, to }: TraceFrom & { kind: 'scale' }): Promise<Origins> => {
  const [scale = '', entry] = id.split(' ');
  if (SCALE_WORDS[scale] === undefined)
    throw new NothingTraced(
      `There is no scale ${scale}: there are ${Object.keys(SCALE_WORDS).join(' and ')}.`,
    );
  let [since, until] = [from, endOf(to)];
  let words = `the ${scaleWords(scale)}${between(from, to)}`;
  if (entry !== undefined) {
    const marks = (await store.traces.scales(SCALES_LOOKED_AT))
      .filter((mark) => mark.scale === scale)
      .reverse();
    const at = marks.findIndex((mark) => mark.seq === Number(entry));
    const mark = marks[at];
    if (mark === undefined)
      throw new NothingTraced(`The ${scaleWords(scale)} was not set to zero at entry ${entry}.`);
    const next = marks[at + 1];
    [since, until] = [mark.at, next?.at];
    words = `the ${scaleWords(scale)} from ${mark.at.replace('T', ' ')}${next === undefined ? ' on' : ` to ${next.at.replace('T', ' ')}`}`;
  }
  const batches = await store.traces.batches({
    ...(since === undefined ? {} : { from: since }),
    ...(until === undefined ? {} : { to: until }),
    limit: BATCHES_AT_MOST,
  });
  return {
    origins: nodesOfBatches(batches, `weighed with ${words}`),
    words: `Batches weighed with ${words}`,
  };
};

const KIND_WORDS: { readonly [K in NodeRef['kind']]: string } = {
  delivery: 'delivery',
  batch: 'batch',
  lot: 'lot',
  load: 'load',
  returned: 'return',
  patch: 'patch',
  waste: 'waste of',
  air: 'loss of',
  adjustment: 'adjustment',
};

type Delivery = { readonly ticket?: string; readonly material?: string; readonly supplier?: string };
const deliveriesOf = async (store: Store): Promise<{ readonly [id: string]: Delivery }> => {
  const stock = (await store.books()).ledger.stock as {
    readonly deliveries?: { readonly [id: string]: Delivery };
  };
  return stock.deliveries ?? {};
};

/** What is known of a node beside its name, from the books and the trace tables. */
export const wordsFor = async (store: Store, { kind, id }: NodeRef): Promise<string> => {
  const { traces } = store;
  if (kind === 'delivery') {
    if (id === 'MAINS') return 'water from the mains';
    if (id.startsWith('OPENING:')) return `${id.slice(8)} that was there at the beginning`;
    const { material = '', ticket = '', supplier = '' } = (await deliveriesOf(store))[id] ?? {};
    return [material, ticket === '' ? '' : `ticket ${ticket}`, supplier]
      .filter((word) => word !== '')
      .join(', ');
  }
  if (kind === 'batch') {
    const cut = id.lastIndexOf('/');
    const row = await traces.batchOf(id.slice(0, cut), Number(id.slice(cut + 1)));
    return row === null ? '' : `${row.mix} version ${row.mixVersion}, by ${row.person}`;
  }
  if (kind === 'patch') return (await traces.laid(id))[0]?.place ?? '';
  return '';
};

/** Deliveries are asked for by their own id or by the number of their ticket. */
const deliveryNamed = async (store: Store, id: string): Promise<string> => {
  if (await store.traces.has({ kind: 'delivery', id })) return id;
  const found = Object.entries(await deliveriesOf(store)).find(([, { ticket }]) => ticket === id);
  return found?.[0] ?? id;
};

export const originsOf = async (store: Store, from: TraceFrom): Promise<Origins> => {
  if (from.kind === 'operator') return ofOperator(store, from);
  if (from.kind === 'scale') return ofScale(store, from);
  const id = from.kind === 'delivery' ? await deliveryNamed(store, from.id) : from.id;
  const node: NodeRef = { kind: from.kind, id };
  if (id === 'MAINS')
    throw new NothingTraced('Water from the mains goes into every batch: ask for a batch or a lot instead.');
  if (!(await store.traces.has(node)))
    throw new NothingTraced(
      `The record knows no movement of ${KIND_WORDS[from.kind]} ${id}: see how it is spelled, or nothing of it has been used yet.`,
    );
  const more = await wordsFor(store, node);
  const name = `${KIND_WORDS[from.kind]} ${id}`;
  return {
    origins: [node],
    words: `${name.charAt(0).toUpperCase()}${name.slice(1)}${more === '' ? '' : ` (${more})`}`,
  };
};

const SUGGESTED = 8;

/** Things on record whose name contains the text, newest first. */
export const suggest = async (store: Store, text: string): Promise<readonly Suggestion[]> => {
  const { traces } = store;
  const out: Suggestion[] = [];
  const deliveries = await deliveriesOf(store);
  const byTicket = Object.keys(deliveries).filter((id) => deliveries[id]?.ticket?.includes(text) === true);
  for (const kind of ['delivery', 'lot', 'batch', 'load', 'patch'] as const) {
    const named = await traces.named(kind, text, SUGGESTED);
    const ids =
      kind === 'delivery'
        ? [...new Set([...byTicket, ...named.map(({ id }) => id)])]
        : named.map(({ id }) => id);
    for (const id of ids.filter((one) => one !== 'MAINS').slice(0, SUGGESTED))
      out.push({ kind, id, words: await wordsFor(store, { kind, id }) });
  }
  for (const person of await traces.people())
    if (person.includes(text.toLowerCase()))
      out.push({ kind: 'operator', id: person, words: 'batches started' });
  const marks = (await traces.scales(SUGGESTED * 4)).filter(
    ({ scale, at }) =>
      scale.includes(text) || scaleWords(scale).includes(text.toLowerCase()) || at.includes(text),
  );
  for (const { scale, seq, at, person } of marks.slice(0, SUGGESTED))
    out.push({
      kind: 'scale',
      id: `${scale} ${seq}`,
      words: `${scaleWords(scale)}, set to zero ${at.replace('T', ' ')} by ${person}`,
    });
  return out;
};
