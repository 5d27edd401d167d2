/** What is told in the patches book, in the past tense and complete. */
import type { Basis } from './basis.ts';
import type { ListSource, Measured, TakeOff } from './patch.types.ts';

export type ListedPatch = Measured & { readonly row: number; readonly takeOff: TakeOff };

export type PatchesFact =
  | {
      readonly is: 'listTaken';
      readonly list: string;
      readonly name: string;
      readonly source: ListSource;
      readonly patches: number;
    }
  /** So many patches of a list as fit an entry; a list has as many of these as it needs. */
  | { readonly is: 'patchesListed'; readonly list: string; readonly patches: readonly ListedPatch[] }
  | {
      readonly is: 'patchChanged';
      readonly list: string;
      readonly was: ListedPatch;
      readonly now: ListedPatch;
      readonly reason: string;
    }
  | {
      readonly is: 'patchTakenOut';
      readonly list: string;
      readonly was: ListedPatch;
      readonly reason: string;
    }
  | { readonly is: 'patchPutBack'; readonly list: string; readonly row: number; readonly reason: string }
  | { readonly is: 'listTakenBack'; readonly list: string; readonly reason: string }
  | { readonly is: 'listDone'; readonly list: string; readonly mixKg: number; readonly laidKg: number }
  | { readonly is: 'basisChanged'; readonly was: Basis; readonly now: Basis; readonly reason: string }
  | {
      readonly is: 'orderMade';
      readonly order: string;
      readonly lists: readonly string[];
      readonly route: string | null;
      readonly mix: string;
      readonly family: 'emulsion' | 'cutback';
      readonly neededBy: string;
      readonly needKg: number;
      readonly fromStockKg: number;
      readonly rounding: 'batches' | 'lots';
      readonly batches: number;
      readonly makeKg: number;
    }
  | {
      readonly is: 'orderChanged';
      readonly order: string;
      readonly was: { readonly neededBy: string; readonly batches: number; readonly makeKg: number };
      readonly now: { readonly neededBy: string; readonly batches: number; readonly makeKg: number };
      readonly reason: string;
    }
  | { readonly is: 'orderWithdrawn'; readonly order: string; readonly reason: string }
  | { readonly is: 'orderPutBack'; readonly order: string; readonly reason: string }
  | { readonly is: 'orderDelivered'; readonly order: string; readonly kg: number }
  | {
      readonly is: 'weekArranged';
      readonly was: readonly string[] | null;
      readonly now: readonly string[] | null;
      readonly reason: string;
    }
  | {
      readonly is: 'hoursSet';
      readonly date: string;
      readonly was: number;
      readonly now: number;
      readonly reason: string;
    };
