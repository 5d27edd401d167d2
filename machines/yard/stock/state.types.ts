/** What the stock book knows: plain JSON, and no larger after ten years than after one. */
import type { Who } from '../../line/facts.ts';
import type { ViscosityPoint } from '../../mix/walther.ts';
import type { Edge } from '../trace/edges.ts';
import type { Parts } from './parts.ts';

export type TankName = 'emulsion' | 'cutback';
/** Where material is kept: a tank, a bin of the line, the yard's heap of a bin's stone, or a shelf of additive. */
export type StoreId = `tank:${TankName}` | `bin:${number}` | `pile:${number}` | 'additive:anti-strip';
/** Where mix lies: a bay, or the stand of filled bags. */
export type PlaceId = `bay:${number}` | 'bags';

export type TankShape = {
  readonly grade: string;
  readonly diameterM: number;
  readonly lengthM: number;
  readonly densityAt15KgM3: number;
  /** Level over which the coil is covered as the plant asks, mm: below it the tank may not be heated. */
  readonly leastMm: number;
};
export type BinShape = {
  readonly bin: number;
  readonly name: string;
  readonly size: string;
  readonly capacityKg: number;
};
export type BayShape = {
  readonly id: number;
  readonly name: string;
  readonly capacityT: number;
  readonly widthM: number;
  readonly depthM: number;
  readonly cover: Cover;
};
export type Cover = 'roof' | 'sheet' | 'open';

export type YardShape = {
  readonly name: string;
  readonly tanks: { readonly [T in TankName]: TankShape };
  readonly bins: readonly BinShape[];
  readonly bays: readonly BayShape[];
  readonly mixes: readonly {
    readonly id: string;
    readonly version: number;
    readonly name: string;
    readonly family: TankName;
    /** Days a lot may lie: by its specification, else usual for its family. */
    readonly shelfDays: number;
    /** Of fresh mix, % by mass. */
    readonly solventPctOfMix: number;
    readonly moleShare: number;
    readonly viscosity: readonly [ViscosityPoint, ViscosityPoint];
  }[];
};

/** What is counted in one store since its last measurement: opening + in − out + adjusted = now by the books. */
export type Period = {
  readonly fromAt: string;
  readonly openGrams: number;
  readonly inGrams: number;
  readonly outGrams: number;
  readonly adjustedGrams: number;
};

export type Store = {
  readonly id: StoreId;
  readonly material: string;
  readonly parts: Parts;
  readonly period: Period;
  /** Grams weighed out by day, the last 28 days of work. */
  readonly use: readonly { readonly date: string; readonly grams: number }[];
  /** Grams that left it though the books had none, and which no delivery covers. */
  readonly uncoveredGrams: number;
  /** The last measurement by dip or count. */
  readonly measured: Measured | null;
};

/** A dip or a count held against the books: what is missing beyond its limit wants an explanation. */
export type Measured = {
  readonly at: string;
  readonly by: Who;
  readonly how: string;
  readonly measuredGrams: number;
  readonly bookGrams: number;
  /** Measured less book: negative is a loss. */
  readonly differenceGrams: number;
  readonly limitGrams: number;
  readonly period: Period;
  readonly booked: boolean;
};

export type Rule = {
  /** Days from ordering to the truck at the gate. */
  readonly leadDays: number;
  /** Days of use kept as a reserve. */
  readonly reserveDays: number;
  readonly orderKg: number;
  /** Loss without explanation allowed, % of what was weighed out. */
  readonly lossPct: number;
  /** Days a delivery keeps; null: it does not spoil. */
  readonly keepsDays: number | null;
};

export type DeliveryState = 'announced' | 'being pumped' | 'received' | 'refused' | 'cancelled';

export type Delivery = {
  readonly id: string;
  readonly material: 'emulsion' | 'cutback' | 'aggregate' | 'anti-strip';
  readonly store: StoreId;
  readonly ticket: string;
  readonly supplier: string;
  /** What the ticket says. */
  readonly ticketGrams: number;
  /** What came in; it is set when the delivery has been received. */
  readonly receivedGrams: number;
  readonly state: DeliveryState;
  readonly at: string;
  readonly by: Who;
  /** Who said at the tank what it is; null as long as nobody did. */
  readonly confirmed: null | { readonly product: string; readonly by: Who; readonly at: string };
  readonly beganAt: string | null;
  readonly keepsUntil: string | null;
  readonly note: string;
};

/** Mix of one lot that came to lie in a place at one go. */
export type Layer = {
  /** Counts up over the whole yard, so that a layer keeps its name. */
  readonly n: number;
  readonly lot: string;
  readonly grams: number;
  readonly origin: 'made' | 'returned' | 'moved' | 'bagged' | 'reversed';
  /** Where it came from: a load, a bay, or empty when the line laid it. */
  readonly from: string;
  readonly laidFrom: string;
  readonly laidTo: string;
  /** Mean temperature when it was laid, °C; null when nobody measured. */
  readonly laidC: number | null;
  /** Filled bags, when it is bags. A bag may hold mix of two layers: only the bags of one filling add up. */
  readonly bags: number;
  /** Of filled bags: the filling they came from, as its movement is named. */
  readonly filling?: string;
  /** Set when it came back from a load: its own node in the tracing. */
  readonly returned: string | null;
};

export type StockLot = {
  readonly lot: string;
  readonly mixId: string;
  readonly mixVersion: number;
  readonly mixName: string;
  readonly family: TankName;
  readonly bay: number;
  readonly openedAt: string;
  readonly closedAt: string | null;
  readonly madeGrams: number;
  readonly batches: number;
  /** Left on vehicles, came back from them, was thrown away, and what stock-takes found (+) or missed (−). */
  readonly loadedGrams: number;
  readonly returnedGrams: number;
  readonly wastedGrams: number;
  readonly adjustedGrams: number;
  /** How often it was worked over again after the lab had rejected it. */
  readonly reworked: number;
};

export type LotShare = { readonly lot: string; readonly grams: number };
/** Drawn from one layer; `returned` names the layer's node in the tracing when it had come back from a load. */
export type Drawn = LotShare & {
  readonly place: PlaceId;
  readonly layer: number;
  readonly bags: number;
  readonly returned: string | null;
};

export type LoadFor = {
  readonly patch: string;
  /** Words of the row: where it is. */
  readonly where: string;
  readonly wantedGrams: number;
};

export type Laid = {
  readonly n: number;
  readonly patch: string;
  readonly where: string;
  readonly grams: number;
  readonly lots: readonly LotShare[];
  readonly layers: readonly number[];
  readonly at: string;
  readonly by: Who;
};

export type LoadState = 'made out' | 'on the road' | 'settled' | 'cancelled';

export type Load = {
  readonly id: string;
  readonly state: LoadState;
  readonly mixId: string;
  readonly mixName: string;
  readonly family: TankName;
  readonly as: 'bulk' | 'bags';
  readonly vehicle: string;
  readonly crew: string;
  readonly list: string;
  readonly route: string;
  readonly for: readonly LoadFor[];
  readonly wantedGrams: number;
  readonly madeOutAt: string;
  readonly by: Who;
  readonly weighed: null | {
    readonly at: string;
    readonly by: Who;
    readonly tareGrams: number;
    readonly grossGrams: number;
    readonly netGrams: number;
    readonly bags: number;
  };
  /** What was drawn, by place and layer, once weighed. */
  readonly drawn: readonly Drawn[];
  readonly laid: readonly Laid[];
  readonly returned: readonly LotShare[];
  readonly wasted: readonly LotShare[];
  /** Still on the vehicle, by lot. */
  readonly aboard: readonly LotShare[];
  /** Lots that left by concession rather than by acceptance. */
  readonly byConcession: readonly string[];
};

/** Something moved by hand that can be reversed, with what it takes to do so. */
export type Movement = {
  readonly id: string;
  readonly at: string;
  readonly by: Who;
  readonly what: string;
  readonly from: string;
  readonly to: string;
  readonly lots: readonly LotShare[];
  readonly grams: number;
  /** Filled bags that went with it; left out when there were none. */
  readonly bags?: number;
  readonly reason: string;
  /** The movement that took it back, or null. */
  readonly reversedBy: string | null;
};

/** Weather of one shift's day as far as the bays feel it. */
export type DayWeather = {
  readonly date: string;
  readonly startC: number;
  readonly warmestC: number;
  readonly rainMm: number;
};

export type StockState = {
  readonly yard: YardShape | null;
  readonly day: DayWeather | null;
  /** Days of work, newest last, at most 400: what the bays have been through. */
  readonly weather: readonly DayWeather[];
  readonly stores: { readonly [id: string]: Store };
  readonly rules: { readonly [id: string]: Rule };
  /** What is on its way through the line, by its accounts. */
  readonly line: { readonly [account: string]: Parts };
  /** Batch in the mixer, as lot/number, and what was made of it. */
  readonly batch: string | null;
  readonly places: { readonly [place: string]: readonly Layer[] };
  readonly lots: { readonly [lot: string]: StockLot };
  /** What came to lots that are open, counted into `lots` when they are closed: heard often, and copied with little. */
  readonly filling: { readonly [lot: string]: Pick<StockLot, 'madeGrams' | 'batches'> };
  readonly deliveries: { readonly [id: string]: Delivery };
  readonly loads: { readonly [id: string]: Load };
  readonly movements: readonly Movement[];
  /** Reconciliations kept: the last 60. */
  readonly measurements: readonly (Measured & { readonly store: StoreId })[];
  readonly wasteGrams: number;
  /** Counters behind the ids, by kind and day. */
  readonly counted: { readonly [kindAndDay: string]: number };
  readonly layers: number;
  /** What the newest thing heard moved, for the tracing; nothing older. */
  readonly edges: readonly Edge[];
};

export const EMPTY_STOCK: StockState = {
  yard: null,
  day: null,
  weather: [],
  stores: {},
  rules: {},
  line: {},
  batch: null,
  places: {},
  lots: {},
  filling: {},
  deliveries: {},
  loads: {},
  movements: [],
  measurements: [],
  wasteGrams: 0,
  counted: {},
  layers: 0,
  edges: [],
};
