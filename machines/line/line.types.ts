/** The line as one plain value: everything it knows between two moments. */
import type { AnyMachineSnapshot } from 'xstate';
import type { InterlockCauseId } from '../charts/flame-interlock/flame-interlock.causes.ts';
import type { Signals } from '../charts/signals.ts';
import type { Outputs } from '../field/outputs.ts';
import type { Readings } from '../field/tags.ts';
import type { Role } from '../scenario/people.schema.ts';
import type { Scenario, Skill } from '../scenario/shift.schema.ts';
import type { Account, WeighedPart, Who } from './facts.ts';
import type { HeldElement } from './gate.ts';
import type { RibbonBlock, RibbonMark } from './view.types.ts';

export const TICK_MS = 100;

export type ChartId =
  | 'interlock'
  | 'burner'
  | 'oilHeater'
  | 'emulsionTank'
  | 'cutbackTank'
  | 'emulsionTankInterlock'
  | 'cutbackTankInterlock'
  | 'aggregateWeigher'
  | 'dryWeigher'
  | 'binderWeigher'
  | 'batch'
  | 'campaign'
  | 'lot'
  | 'seat'
  | `alarm:${string}`;

/** A delayed event some chart waits for. While its chart is frozen, `leftTicks` stands still. */
export type Timer = {
  readonly chart: ChartId;
  readonly id: string;
  readonly eventType: string;
  readonly leftTicks: number;
  readonly ofTicks: number;
};

/** One thing to be weighed on a scale; targets are cumulative readings of that scale, kg. */
export type WeighTask = {
  readonly material: string;
  /** Cold bin number, or 0 for a tank or the holding bin. */
  readonly bin: number;
  readonly targetKg: number;
  readonly toleranceKg: number;
};

export type Weigher = {
  readonly tasks: readonly WeighTask[];
  /** Index of the present task; equals tasks.length when all are done. */
  readonly at: number;
  /** Scale reading when the present task began, kg. */
  readonly fromKg: number;
  readonly done: readonly WeighedPart[];
  /** The most gained in the present task, kg, and when the scale last gained while it was fed. */
  readonly bestKg: number;
  readonly gainTick: number;
  /** The present task was out of tolerance once. */
  readonly outBefore: boolean;
  /** What the weighing is for. */
  readonly purpose: 'batch' | 'dryer' | null;
  /** Learned mass still falling when the gate shuts from dribble, by material, kg. */
  readonly inFlightKg: { readonly [material: string]: number };
};

export type WeigherId = 'aggregateWeigher' | 'dryWeigher' | 'binderWeigher';

export type Batch = {
  readonly n: number;
  readonly mixId: string;
  readonly lot: string;
  readonly bay: number;
  readonly startedTick: number;
  readonly waterTargetL: number;
  readonly antiStripTargetKg: number;
  /** Meter readings when the metering began; null before. */
  readonly waterFromL: number | null;
  readonly antiStripFromKg: number | null;
  /** Ticks since binder first met the aggregate; 0 before. */
  readonly mixedTicks: number;
  readonly parts: readonly WeighedPart[];
  readonly coatedPct: number | null;
  /** Its discharge has begun. */
  readonly discharging: boolean;
  readonly dumping: null | {
    readonly reason: string;
    readonly by: { readonly person: string; readonly role: Role };
  };
};

/** A batch that has left the mixer, as its sheet shows it. */
export type BatchDone = {
  readonly n: number;
  readonly lot: string;
  readonly bay: number;
  readonly fromTick: number;
  readonly toTick: number;
  readonly grams: number;
  readonly mixC: number;
  readonly mixedS: number;
  /** What the operator saw through the hatch when confirming, %; null when it was dumped. */
  readonly coatedPct: number | null;
  readonly parts: readonly WeighedPart[];
  readonly dumped: string | null;
};

export type Campaign = {
  readonly n: number;
  readonly mixId: string;
  readonly batches: number;
  readonly wantedKg: number;
  readonly charges: number;
  /** Holding bin reading when the present charge began to fall, kg. */
  readonly binFromKg: number;
  readonly fuelTicks: number;
};

export type Lot = {
  readonly id: string;
  readonly mixId: string;
  readonly mixVersion: number;
  readonly family: 'emulsion' | 'cutback';
  readonly bay: number;
  readonly ofKg: number;
  readonly grams: number;
  readonly batches: readonly number[];
  readonly state: 'open' | 'closed' | 'closed short';
  /** Its sealed sampling plan; null where the line itself drew the samples. */
  readonly plan: null | {
    readonly commitment: string;
    readonly opened: boolean;
  };
  readonly samples: readonly {
    readonly n: number;
    /** Null while a sealed plan holds it back. */
    readonly atKg: number | null;
    /** What it is for; '' where no specification says. */
    readonly test: string;
    /** The batch it falls due from; null while it is ahead, or when that batch went to waste. */
    readonly batch: number | null;
    /** When it first fell due; null before. */
    readonly dueTick: number | null;
    readonly state: 'ahead' | 'due' | 'taken' | 'missed' | 'not reached';
  }[];
};

export type Order = {
  readonly n: number;
  readonly mixId: string;
  readonly tonnes: number;
  readonly bay: number;
  readonly madeGrams: number;
};

export type Seat = {
  readonly holder: null | { readonly person: string; readonly role: Role; readonly console: string };
  readonly askedBy: null | { readonly person: string; readonly role: Role; readonly console: string };
  readonly standIn: Skill | null;
};

export type AlarmMemo = {
  readonly sinceTick: number;
  readonly untilTick: number | null;
};

export type Refusal = {
  readonly tick: number;
  readonly by: string;
  readonly command: string;
  readonly because: readonly string[];
};

/** How long each signal-forming condition has lasted, and what must be remembered between readings. */
export type Watch = {
  readonly purgeVolumes: number;
  readonly hopperEmptyTicks: number;
  readonly bucketEmptyTicks: number;
  readonly mixerEmptyTicks: number;
  /** The most the bucket can hold by how long it was fed and drained, whatever its scale says, kg. */
  readonly bucketAtMostKg: number;
  /** Ticks the gate has been open with the mill turning since it was charged; emptied by the next charge. */
  readonly mixerGateTicks: number;
  /** Seconds a tank has been heated without its thermometer moving. */
  readonly emulsionStillS: number;
  readonly cutbackStillS: number;
  /** Seconds the vapour detector has shown vapour in clean air, and nothing over mix that gives it off. */
  readonly cleanAirS: number;
  readonly noVapourS: number;
  /** Dips that foam is told by, mm: what the tank showed when this count of five minutes began. */
  readonly emulsionDipFromMm: number;
  readonly cutbackDipFromMm: number;
  readonly holdingBinPeakKg: number;
  readonly holdingBinStillTicks: number;
  /** Ticks the drum's meter has shown flow with its fan asked off. */
  readonly fanOffFlowTicks: number;
};

/** The last proof test of a cause on record. */
export type ProofMemo = {
  /** YYYY-MM-DD. */
  readonly on: string;
  readonly result: 'passed' | 'failed';
  readonly by: string;
  readonly remark: string;
};

/** A cause taken out of force for testing: asked for by one person, in force once another has confirmed it. */
export type InhibitMemo = {
  readonly minutes: number;
  readonly reason: string;
  readonly by: Who;
  readonly confirmedBy: Who | null;
  readonly untilTick: number | null;
};

export type PermitMemo = {
  readonly n: number;
  readonly where: string;
  readonly reason: string;
  readonly by: Who;
  readonly openedTick: number;
  readonly untilTick: number;
};

export type Maintenance = {
  readonly proofs: { readonly [C in InterlockCauseId]?: ProofMemo };
  readonly inhibits: { readonly [C in InterlockCauseId]?: InhibitMemo };
  readonly permit: PermitMemo | null;
  readonly permits: number;
  /** Why the vapour detector is not believed although its calibration date has not passed; null when it is. */
  readonly drift: string | null;
};

export type Product = 'emulsion' | 'cutback';

export type DeliveryMemo = {
  readonly product: Product;
  readonly kg: number;
  readonly ticket: string;
  readonly by: Who;
  readonly sinceTick: number;
  /** When so much should be in by the rate of the delivery pump. */
  readonly doneTick: number;
  readonly confirmedAs: Product | null;
  readonly confirmedBy: Who | null;
};

/** What is known of a tank's contents by paper and by people, since no instrument tells one binder from another. */
export type TankMemo = {
  /** What it is taken to hold; 'not known' while a delivery runs or a doubt stands. */
  readonly holds: Product | 'not known';
  readonly why: string;
  readonly delivery: DeliveryMemo | null;
  /** It has foamed since it was last proved dry. */
  readonly foamed: boolean;
};

export type Line = {
  readonly scenario: Scenario;
  readonly tick: number;
  readonly random: number;
  readonly readings: Readings;
  readonly signals: Signals;
  readonly watch: Watch;
  readonly charts: { readonly [id: string]: AnyMachineSnapshot };
  /** Charts of the alarms, apart from the few that are asked about all the time. */
  readonly alarmCharts: { readonly [id: string]: AnyMachineSnapshot };
  readonly timers: readonly Timer[];
  /** What the charts asked for, before the gate. */
  readonly wanted: Outputs;
  readonly outputs: Outputs;
  readonly held: readonly HeldElement[];
  /** Outputs changed in the last tick: what follows from them is still to be heard. */
  readonly unsettled: boolean;
  readonly weighers: { readonly [K in WeigherId]: Weigher };
  readonly batch: Batch | null;
  readonly batchesDone: number;
  /** Every batch of the shift that is over, in order. */
  readonly sheets: readonly BatchDone[];
  /** Batches dumped. */
  readonly spoilt: number;
  /** Batches still to start by themselves after the present one. */
  readonly batchesAhead: number;
  readonly campaign: Campaign | null;
  readonly campaigns: number;
  readonly lots: readonly Lot[];
  readonly orders: readonly Order[];
  readonly order: number;
  readonly books: { readonly [A in Account]?: number };
  readonly seat: Seat;
  readonly alarms: { readonly [id: string]: AlarmMemo };
  readonly shelveMinutes: { readonly [id: string]: number };
  /** Moisture set by a newer test than this morning's, by number of the bin, % of dry mass. */
  readonly moisturePct?: { readonly [bin: string]: number };
  readonly ended: boolean;
  readonly trips: number;
  readonly samplesTaken: number;
  /** Readings that were called zero by a person, by scale, kg. */
  readonly zeros: { readonly hopperKg: number; readonly bucketKg: number };
  /** When the present step of batch and stage of campaign were entered. */
  readonly stepTick: number;
  readonly stageTick: number;
  readonly faults: { readonly [target: string]: string };
  readonly maintenance: Maintenance;
  readonly tankMemos: { readonly [T in Product]: TankMemo };
  readonly blocks: readonly RibbonBlock[];
  readonly marks: readonly RibbonMark[];
  readonly refusals: readonly Refusal[];
};
