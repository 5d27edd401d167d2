/** What a patch list, its patches and a production order are. */
export const COMPACTED_BY = ['roller', 'hand rammer'] as const;
export type CompactedBy = (typeof COMPACTED_BY)[number];

/** What the sides of the hole, and its bottom where the base is not reached, are made of. */
export const SURFACES = ['bituminous', 'concrete'] as const;
export type Surface = (typeof SURFACES)[number];

/** One hole as measured on the road. */
export type Measured = {
  readonly place: string;
  /** The round it is filled on; '' when none is named. */
  readonly route: string;
  readonly lengthM: number;
  readonly widthM: number;
  /** Down to sound material, below the road around it. */
  readonly depthMm: number;
  /** The hole goes down to, or into, the granular base. */
  readonly baseReached: boolean;
  readonly compactedBy: CompactedBy;
  readonly surface: Surface;
};

/** What one hole takes. */
export type TakeOff = {
  /** After trimming to vertical edges. */
  readonly areaM2: number;
  /** Mix below the road around it; the finish stands above it. */
  readonly mixDepthMm: number;
  readonly finishMm: number;
  /** From the bottom up, compacted, to the level of the road; whole millimetres. */
  readonly layersMm: readonly number[];
  readonly fillDepthMm: number;
  readonly fillLayersMm: readonly number[];
  /** With waste. */
  readonly mixKg: number;
  readonly tackKg: number;
  readonly primeKg: number;
  readonly crusherRunKg: number;
  readonly sandKg: number;
};

export type Patch = Measured & {
  /** Its row in the list, from 1: a patch is named '<list>/<row>'. */
  readonly row: number;
  readonly takeOff: TakeOff;
  /** Taken out of the list, and why; null while it stands. */
  readonly takenOut: string | null;
};

export const LIST_STATES = ['open', 'done', 'taken back'] as const;
export type ListState = (typeof LIST_STATES)[number];

export type ListSource = {
  readonly how: 'typed' | 'pasted' | 'file';
  readonly file: string | null;
  /** Rows of the source a person left out because they were not sound. */
  readonly leftOut: number;
};

export type PatchList = {
  readonly id: string;
  readonly name: string;
  readonly state: ListState;
  readonly takenAt: string;
  readonly by: string;
  readonly source: ListSource;
  /** Emptied when the list is done: `sum` stays. */
  readonly patches: readonly Patch[];
  readonly sum: ListSum;
  /** Kilograms of mix laid, by row, as loads are used up. */
  readonly laidKg: Readonly<Record<string, number>>;
};

export type ListSum = {
  readonly patches: number;
  readonly mixKg: number;
  readonly tackKg: number;
  readonly primeKg: number;
  readonly crusherRunKg: number;
  readonly sandKg: number;
  readonly laidKg: number;
};

export const ORDER_STATES = ['open', 'part made', 'made', 'delivered', 'withdrawn'] as const;
export type OrderState = (typeof ORDER_STATES)[number];

/** Mix to be made for patch lists. */
export type ProductionOrder = {
  readonly id: string;
  readonly lists: readonly string[];
  /** Only the holes of this route; null means all. */
  readonly route: string | null;
  readonly mix: string;
  readonly family: 'emulsion' | 'cutback';
  readonly neededBy: string;
  readonly needKg: number;
  /** Taken from released stock of the same mix. */
  readonly fromStockKg: number;
  readonly rounding: 'batches' | 'lots';
  readonly batches: number;
  /** What is to be made: whole batches. */
  readonly makeKg: number;
  /** Laid into bays by batches of shifts opened for it. */
  readonly madeGrams: number;
  readonly lots: readonly string[];
  readonly deliveredKg: number;
  /** A person said that no more is needed for it, though not every hole is filled. */
  readonly settled: boolean;
  readonly state: OrderState;
  readonly at: string;
  readonly by: string;
};
