/** Seals, countersignatures and changes of key of a record, as they stand in it. */
import type { Entry } from '../../machines/record/entry.ts';
import type { Store } from '../store/store.ts';
import { lostKeysOf } from './lost-key.ts';

export type SealEntry = Extract<Entry, { kind: 'seal' }>;
export type CountersignatureEntry = Extract<Entry, { kind: 'countersignature' }>;
export type KeyRotatedEntry = Extract<Entry, { kind: 'keyRotated' }>;

/** More than a hundred years of shifts. */
const LIMIT = 100_000;

const ofKind = async <K extends Entry['kind']>(
  store: Store,
  kind: K,
): Promise<Extract<Entry, { kind: K }>[]> => {
  if ((await store.tail()).seq === 0) return [];
  const entries = await store.read({ after: 0, limit: LIMIT, kind });
  return entries.filter((entry): entry is Extract<Entry, { kind: K }> => entry.kind === kind);
};

export const sealsOf = (store: Store): Promise<SealEntry[]> => ofKind(store, 'seal');
export const countersignaturesOf = (store: Store): Promise<CountersignatureEntry[]> =>
  ofKind(store, 'countersignature');
export const rotationsOf = (store: Store): Promise<KeyRotatedEntry[]> => ofKind(store, 'keyRotated');

/** Fingerprint of the key in force at the end of the record; null when nothing was ever sealed. */
export const expectedKey = async (store: Store): Promise<string | null> => {
  const rotation = (await rotationsOf(store)).at(-1);
  const lost = (await lostKeysOf(store)).at(-1);
  if (lost !== undefined && lost.seq > (rotation?.seq ?? 0)) return lost.key;
  if (rotation !== undefined) return rotation.body.to;
  return (await sealsOf(store)).at(-1)?.body.key ?? null;
};
