/** Seals shifts, countersigns seals, and finds those that still want a seal. What it makes, others append. */

import type { PlantKey } from '../../machines/record/crypto.types.ts';
import type { CountersignatureBody, EntryContent, SealBody, Signer } from '../../machines/record/entry.ts';
import { countersign } from '../../machines/record/seal.ts';
import { PlainError } from '../plain-error.ts';
import type { Store } from '../store/store.ts';
import { lostKeysOf, mustNotBeLost } from './lost-key.ts';
import { sealFold } from './make-seal.ts';
import { countersignaturesOf, sealsOf } from './seals-of.ts';
import { type Span, spansOf } from './spans.ts';

/** Who ended a shift by its own record; null when nobody did or the line itself. */
export const endedBy = async (store: Store, span: Pick<Span, 'shift' | 'last'>): Promise<Signer | null> => {
  const [end] = await store.read({ after: span.shift, limit: 1, fact: 'shiftEnded' });
  if (end?.kind !== 'fact' || end.seq > span.last || end.body.fact.is !== 'shiftEnded') return null;
  const { person, role } = end.body.fact.by;
  return role === 'line' ? null : { person, role };
};

export type Closing = {
  readonly shift: number;
  readonly closed: SealBody['closed'];
  readonly by: Signer | null;
  readonly remark: string;
};

/**
 * The seal of a shift over all its entries. `end` tells its last entry, and is asked again when that has moved
 * meanwhile: the seal must stand behind all it covers.
 */
export const sealOf = async (
  store: Store,
  key: PlantKey,
  { shift, closed, by, remark }: Closing,
  end: () => Promise<number>,
): Promise<EntryContent> => {
  const fold = sealFold(store, shift);
  const prevSeal = (await sealsOf(store)).at(-1) ?? null;
  // Whoever has the export of this shift alone is to know as well why another key than before seals it.
  const lost = (await lostKeysOf(store)).filter(({ seq }) => seq > (prevSeal?.seq ?? 0));
  const said = [remark, ...lost.map(({ detail }) => detail)].filter((one) => one !== '').join('; ');
  for (let last = 0, next = await end(); next !== last; next = await end()) {
    await fold.upTo(next);
    last = next;
  }
  return { kind: 'seal', body: fold.finish({ key, prevSeal, closed, by, remark: said }) };
};

/** Shifts before the present one that have no seal, the oldest first. Those in an archive file are sealed. */
export const unsealedBefore = async (store: Store, present: number): Promise<readonly Span[]> =>
  (await spansOf(store)).filter(
    (span) => span.shift < present && span.seal === null && span.archivedIn === null,
  );

/** Seal of an older shift: 'in order' when it was ended and only its seal is missing, 'late' when nobody ended it. */
export const lateSealOf = async (
  store: Store,
  key: PlantKey,
  shift: number,
  by: Signer | null,
  remark: string,
): Promise<EntryContent> => {
  const span = (await spansOf(store)).find((one) => one.shift === shift);
  if (span === undefined) throw new PlainError(`There is no shift that entry ${shift} opens.`);
  if (span.seal !== null) throw new PlainError(`The shift is sealed already, by entry ${span.seal}.`);
  if (span.isNewest) throw new PlainError('The shift still runs: end it at the Line page, which seals it.');
  const closed = span.endedWall === null ? 'late' : 'in order';
  if (closed === 'late' && by === null)
    throw new PlainError('A shift that broke off is closed by a person: say who you are first.');
  if (closed === 'late' && remark.length < 3)
    throw new PlainError('Say how the shift broke off, in at least 3 letters.');
  const signer = closed === 'late' ? by : await endedBy(store, span);
  return sealOf(store, key, { shift, closed, by: signer, remark }, async () => span.last);
};

/** Countersignature of a sealed shift by another person than the one who closed it. Throws PlainError when it may not be. */
export const countersignatureOf = async (
  store: Store,
  key: PlantKey,
  shift: number,
  by: Signer,
  remark: string,
): Promise<EntryContent> => {
  const seal = (await sealsOf(store)).find(({ body }) => body.shift === shift);
  if (seal === undefined)
    throw new PlainError('This shift is not sealed yet: there is nothing to countersign.');
  if (by.role !== 'supervisor')
    throw new PlainError(`A seal is countersigned by a supervisor, and you are here as ${by.role}.`);
  if (seal.body.by?.person === by.person)
    throw new PlainError('You closed this shift yourself: another supervisor has to countersign it.');
  mustNotBeLost(await lostKeysOf(store), seal.seq);
  const before = await countersignaturesOf(store);
  if (before.some(({ body }) => body.seal === seal.seq && body.by.person === by.person))
    throw new PlainError('You have countersigned this seal already.');
  const body: CountersignatureBody = countersign({ seal: seal.seq, root: seal.body.root, by, remark }, key);
  return { kind: 'countersignature', body };
};
