/** What the stock book needs of the other books, read only. */
import { lotIn } from '../../lab/lots.ts';

export type LabLot = { readonly state: string };

/** A row of a patch list as the patches book keeps it. */
export type PatchRow = {
  readonly row: number;
  readonly place: string;
  readonly route: string;
  readonly takeOff: { readonly mixKg: number; readonly layersMm: readonly number[] };
  readonly takenOut: string | null;
};
export type PatchListLike = {
  readonly id: string;
  readonly name: string;
  readonly state: string;
  readonly patches: readonly PatchRow[];
  readonly laidKg: { readonly [row: string]: number };
};

export type StockOthers = {
  readonly lab?: unknown;
  readonly patches?: unknown;
};

/** States of a lot in the lab's words that let it leave the yard. */
export const MAY_LEAVE = ['accepted', 'released by concession'] as const;
/** The word for a lot the lab has not heard of. */
export const NOT_TESTED = 'not yet tested';

/** A worksheet of the lab that belongs to no lot. */
export type LabSheet = {
  readonly id: string;
  readonly test: string;
  readonly subject: { readonly kind: string; readonly id: string } | null;
  readonly testedAt: string;
  readonly results: readonly {
    readonly property: string;
    readonly value: number;
    readonly unit: string;
    readonly reported?: string;
  }[];
  readonly aside: unknown;
};

type LabLike = {
  readonly lots?: { readonly [lot: string]: LabLot | undefined };
  readonly past?: { readonly [month: string]: { readonly [lot: string]: LabLot | undefined } };
  readonly others?: readonly LabSheet[];
};
type PatchesLike = { readonly lists?: { readonly [list: string]: PatchListLike | undefined } };

const stateIn = ({ lots = {}, past = {} }: LabLike = {}, lot: string): string | undefined =>
  lotIn({ lots, past }, lot)?.state;

/** The lab's word for a lot. */
export const labStateOf = (others: StockOthers, lot: string): string =>
  stateIn(others.lab as LabLike | undefined, lot) ?? NOT_TESTED;

export const mayLeave = (others: StockOthers, lot: string): boolean =>
  (MAY_LEAVE as readonly string[]).includes(labStateOf(others, lot));

export const listOf = (others: StockOthers, list: string): PatchListLike | undefined =>
  (others.patches as PatchesLike | undefined)?.lists?.[list];

/** The row a patch names as '<list>/<row>': undefined when no list of that name is known, null when it has no such row. */
export const rowOf = (others: StockOthers, patch: string): PatchRow | null | undefined => {
  const cut = patch.lastIndexOf('/');
  const list = cut < 0 ? undefined : listOf(others, patch.slice(0, cut));
  if (list === undefined) return undefined;
  return list.patches.find((one) => String(one.row) === patch.slice(cut + 1)) ?? null;
};

/** Worksheets the lab made on a delivery, newest first; those set aside do not count. */
export const sheetsOn = (others: StockOthers, delivery: string): readonly LabSheet[] =>
  ((others.lab as LabLike | undefined)?.others ?? [])
    .filter((one) => one.aside === null && one.subject?.kind === 'delivery' && one.subject.id === delivery)
    .reverse();
