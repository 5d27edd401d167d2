/**
 * What a console draws: the whole state of the line in words and numbers, with no
 * knowledge of charts needed to draw it. The same view comes from a running line
 * and from a recorded minute. Plain JSON; sections change independently.
 */

import type { InstrumentFault, Outputs } from '../field/outputs.ts';
import type { Readings, Tag } from '../field/tags.ts';
import type { Role } from '../scenario/people.schema.ts';
import type { Skill } from '../scenario/shift.schema.ts';
import type { Counts } from './facts.ts';
import type { SamplePrompt } from './view/sample-prompt.types.ts';

export type { SamplePrompt } from './view/sample-prompt.types.ts';

/** met: fine. unmet: what the work waits for. alarm: needs a person now. */
export type Standing = 'met' | 'unmet' | 'alarm';

export type WaitLine = {
  readonly id: string;
  /** "Aggregate 71.4 °C" */
  readonly text: string;
  /** "25–65 °C" */
  readonly wanted: string;
  readonly standing: Standing;
};

export type ActionView = {
  /** Command to send (see commands.ts), ready to use. */
  readonly command: { readonly do: string; readonly [key: string]: unknown };
  readonly label: string;
  /** The one big button; at most one is primary. */
  readonly weight: 'primary' | 'plain' | 'danger';
  /** Empty when it would be accepted now from who has the controls; else why not, in words. */
  readonly because: readonly string[];
  /** Ask for a written reason before sending (put in `reason`). */
  readonly needsReason: boolean;
};

export type NowView = {
  /** "Batch 27 · cutback patch mix · step 5 of 8" or "No batch running" */
  readonly over: string;
  /** One sentence: what is happening and why. */
  readonly title: string;
  /** What the person should do, or that there is nothing to do. */
  readonly instruction: string;
  /** Null when nothing is counted. down: to zero; up: since. toRange: forecast until a window is reached. */
  readonly countdown: null | {
    readonly way: 'down' | 'up' | 'forecast';
    readonly seconds: number;
    readonly ofSeconds: number;
    readonly label: string;
  };
  readonly waitingFor: readonly WaitLine[];
  readonly actions: readonly ActionView[];
  /** Names of the steps of the running procedure in order, with the present one. */
  readonly steps: readonly { readonly name: string; readonly state: 'done' | 'now' | 'ahead' }[];
  /** ISA-88 state of the batch. */
  readonly procedure: string;
  /** A card of cautions to acknowledge before going on, or null. */
  readonly cautions: null | { readonly title: string; readonly lines: readonly string[] };
};

/** A bar against target: weights. Units kg unless said. */
export type WeightView = {
  readonly id: string;
  readonly label: string;
  readonly valueKg: number;
  readonly targetKg: number | null;
  readonly lowKg: number | null;
  readonly highKg: number | null;
  readonly capacityKg: number;
  readonly standing: Standing;
  /** "filling from chips, dribble", "settling", "weighed" */
  readonly text: string;
};

/** A bar against window: temperatures. */
export type TempView = {
  readonly id: string;
  readonly label: string;
  readonly valueC: number;
  readonly fromC: number | null;
  readonly toC: number | null;
  readonly scaleC: readonly [number, number];
  readonly standing: Standing;
  /** Seconds until it is inside, or null when it is or no forecast is possible. */
  readonly untilInS: number | null;
  /** Seconds until it falls out, or null. */
  readonly untilOutS: number | null;
};

export type PermissiveView = {
  /** "FI-03" */
  readonly id: string;
  readonly text: string;
  /** "71.4 °C" or "" */
  readonly value: string;
  readonly standing: Standing;
  /** Why it is not met and what clears it; empty when met. */
  readonly cause: string;
};

export type InterlockView = {
  readonly tripped: boolean;
  /** Which causes latched the trip, in words. */
  readonly tripCauses: readonly string[];
  /** What keeps a reset from being accepted now. */
  readonly resetBecause: readonly string[];
  /** "Binder valve held shut" … elements the gate holds back just now. */
  readonly held: readonly { readonly element: string; readonly because: string }[];
  /** Needed before solvent-bearing binder may reach the pug mill. */
  readonly binder: readonly PermissiveView[];
  /** Needed before the burner may light. */
  readonly flame: readonly PermissiveView[];
};

/** Which requirements of the interlocks stand against something at this moment, by ID. */
export type CausesView = {
  /** A permissive that is not met, a trip cause that stands, a lockout, an unmet condition for tank heat. */
  readonly holding: readonly string[];
  /** Latched until a person resets it. */
  readonly latched: readonly string[];
};

export type ProofView = {
  readonly cause: string;
  readonly text: string;
  readonly everyDays: number;
  /** The last proof test, or null when none is on record. */
  readonly last: null | {
    readonly on: string;
    readonly result: 'passed' | 'failed';
    readonly by: string;
    readonly remark: string;
  };
  /** YYYY-MM-DD; null when none is on record. */
  readonly dueOn: string | null;
  readonly standing: 'proved' | 'due soon' | 'overdue' | 'failed' | 'no record';
  readonly mayInhibit: boolean;
  readonly inhibit: null | {
    readonly state: 'waits for a second person' | 'in force';
    readonly reason: string;
    readonly by: string;
    readonly confirmedBy: string;
    readonly minutes: number;
    /** Null while it waits. */
    readonly untilMs: number | null;
  };
};

export type MaintenanceView = {
  readonly proofs: readonly ProofView[];
  readonly overdue: number;
  /** Lines for the banner that stays up while a cause is inhibited. */
  readonly banner: readonly string[];
};

export type PermitView = {
  readonly n: number;
  readonly where: string;
  readonly reason: string;
  readonly by: string;
  readonly openedMs: number;
  readonly untilMs: number;
  /** Its time has run out: see that the work has stopped, then close it. */
  readonly over: boolean;
};

export type TankView = {
  readonly id: 'emulsion' | 'cutback';
  readonly kind: 'thermal-oil' | 'electric' | 'fire-tube';
  readonly identity: 'confirmed' | 'not confirmed' | 'wrong product';
  readonly identityText: string;
  readonly coverMm: number;
  readonly coverNeededMm: number;
  /** Free water found at the bottom, mm; null where nothing measures it. */
  readonly waterMm: number | null;
  readonly ventLelPct: number;
  readonly ventLimitLelPct: number;
  readonly mayHeat: boolean;
  readonly delivery: null | {
    readonly product: 'emulsion' | 'cutback';
    readonly kg: number;
    readonly ticket: string;
    readonly by: string;
    readonly sinceMs: number;
    /** Who confirmed what was delivered, or ''. */
    readonly confirmedBy: string;
  };
  /** What stands against heating it: the tank interlock, by ID. */
  readonly heat: readonly PermissiveView[];
};

export type AlarmView = {
  readonly id: string;
  readonly priority: 'high' | 'medium' | 'low';
  readonly text: string;
  /** What to do. */
  readonly action: string;
  readonly state:
    | 'unacknowledged'
    | 'acknowledged'
    | 'returned unacknowledged'
    | 'shelved'
    | 'suppressed by design'
    | 'out of service';
  readonly sinceMs: number;
  readonly until: number | null;
};

export type LotView = {
  readonly id: string;
  readonly mix: string;
  readonly family: 'emulsion' | 'cutback';
  readonly state: 'open' | 'closed' | 'closed short';
  readonly massKg: number;
  readonly ofKg: number;
  readonly batches: readonly number[];
  readonly bay: number;
  readonly samples: readonly {
    readonly n: number;
    /** What it is for; '' where no specification says. */
    readonly test?: string;
    readonly atKg: number | null;
    /** The batch it falls due from; null while it is ahead. */
    readonly batch?: number | null;
    readonly state: 'ahead' | 'due' | 'taken' | 'missed' | 'not reached';
  }[];
};

/** One batch as its sheet shows it: what was asked for, what was weighed, what came of it. */
export type BatchView = {
  readonly n: number;
  readonly lot: string;
  readonly bay: number;
  readonly fromMs: number;
  readonly toMs: number;
  readonly massKg: number;
  readonly mixC: number;
  readonly mixedS: number;
  readonly coatedPct: number | null;
  readonly parts: readonly {
    readonly material: string;
    readonly targetKg: number;
    readonly weighedKg: number;
    /** Who accepted it outside its tolerance and why, or ''. */
    readonly accepted: string;
  }[];
  /** Why it went to the waste skip, or null. */
  readonly dumped: string | null;
};

export type RibbonBlock = {
  readonly fromMs: number;
  /** Null while it runs. */
  readonly toMs: number | null;
  /** Short word for the step: charge, wet, mix, binder, look, discharge, hold, dry, cool, purge, idle. */
  readonly step: string;
  readonly batch: number | null;
};

export type RibbonMark = {
  readonly atMs: number;
  readonly mark: 'alarm' | 'trip' | 'refusal' | 'sample' | 'person' | 'lot opened' | 'lot closed';
  readonly text: string;
};

export type RibbonView = {
  readonly blocks: readonly RibbonBlock[];
  readonly marks: readonly RibbonMark[];
};

export type PlantView = {
  readonly readings: Readings;
  readonly outputs: Outputs;
  readonly faults: readonly {
    readonly target: Tag | string;
    readonly fault: InstrumentFault['fault'] | 'on';
  }[];
  readonly bins: readonly {
    readonly name: string;
    readonly size: string;
    readonly levelPct: number;
    readonly moisturePct: number;
  }[];
  readonly tanks: readonly {
    readonly id: 'emulsion' | 'cutback';
    readonly grade: string;
    readonly massKg: number;
    readonly litres: number;
    readonly levelShare: number;
    readonly coilCoverMm: number;
    readonly heating: 'off' | 'wanted' | 'heating' | 'held' | 'at set';
    readonly setC: number;
  }[];
  readonly bays: readonly {
    readonly id: number;
    readonly name: string;
    readonly massKg: number;
    readonly capacityKg: number;
  }[];
  readonly wasteKg: number;
  /** What is in the pug mill, in words: "empty", "wet aggregate", "cutback mix, mixing 1:12". */
  readonly mixerText: string;
  readonly burnerText: string;
  readonly purgeVolumes: number;
  readonly purgeVolumesNeeded: number;
  readonly limits: {
    readonly vapourWarnLelPct: number;
    readonly vapourTripLelPct: number;
    readonly aggregateMaxC: number;
    readonly holdingBinKg: number;
    /** What the aggregate in the holding bin must be inside to be drawn; null when nothing waits for it. */
    readonly drawC: { readonly fromC: number; readonly toC: number } | null;
  };
};

export type OrderView = {
  readonly n: number;
  readonly mix: string;
  readonly mixName: string;
  readonly family: 'emulsion' | 'cutback';
  readonly tonnes: number;
  readonly madeKg: number;
  readonly bay: number;
  readonly chosen: boolean;
};

export type SeatView = {
  readonly holder: null | {
    readonly person: string;
    readonly name: string;
    readonly role: Role;
    readonly console: string;
  };
  readonly askedBy: null | { readonly person: string; readonly name: string; readonly console: string };
  readonly standIn: null | Skill;
};

/** One chart as it is being run: node ids of its active states, e.g. "batch.step.charging". */
export type ChartView = { readonly id: string; readonly machine: string; readonly active: readonly string[] };

export type ShiftView = {
  readonly id: string;
  readonly name: string;
  readonly plantName: string;
  readonly date: string;
  readonly startsAt: string;
  readonly hours: number;
  readonly atMs: number;
  readonly ended: boolean;
  readonly batchesDone: number;
  readonly madeKg: number;
};

export type LineView = {
  readonly shift: ShiftView;
  readonly now: NowView;
  readonly campaign: null | {
    readonly n: number;
    readonly step: string;
    readonly batchesWorth: number;
    readonly driedKg: number;
    readonly wantedKg: number;
  };
  readonly weights: readonly WeightView[];
  readonly temps: readonly TempView[];
  readonly plant: PlantView;
  readonly interlock: InterlockView;
  readonly causes: CausesView;
  readonly maintenance: MaintenanceView;
  /** The hot work permit that is open; empty when none is. */
  readonly permits: readonly PermitView[];
  readonly tanks: readonly TankView[];
  readonly alarms: readonly AlarmView[];
  /** The books of the shift so far; left out in views made by hand. */
  readonly counts?: Counts;
  readonly lots: readonly LotView[];
  /** Samples to be taken now, the most urgent first; left out by older programs. */
  readonly samplePrompts?: readonly SamplePrompt[];
  readonly batches: readonly BatchView[];
  readonly orders: readonly OrderView[];
  readonly seat: SeatView;
  readonly ribbon: RibbonView;
  readonly charts: readonly ChartView[];
  /** Last refusals, newest first, at most 20. */
  readonly refusals: readonly {
    readonly atMs: number;
    readonly by: string;
    readonly command: string;
    readonly because: readonly string[];
  }[];
};

export type LineSection = keyof LineView;
