/** What one pass over a shift's entries brings together for every report. */
import type { Account, Handover, WeighedPart, Who } from '../line/facts.ts';

export type GatheredPart = {
  readonly material: string;
  /** Null when the record of a dumped batch does not name it. */
  readonly targetKg: number | null;
  readonly weighedKg: number;
  readonly accepted: WeighedPart['accepted'];
};

export type GatheredBatch = {
  readonly n: number;
  readonly lot: string;
  readonly mix: string;
  readonly mixVersion: number;
  readonly startedBy: Who;
  /** Who last gave the command to start before it; batches of a run are started by the line. */
  readonly askedBy: Who | null;
  readonly fromMs: number;
  toMs: number | null;
  outcome: 'running' | 'discharged' | 'dumped' | 'broken off';
  bay: number | null;
  /** Into its lot. */
  grams: number;
  dumpedGrams: number;
  dumped: { readonly reason: string; readonly by: Who } | null;
  mixC: number | null;
  mixedS: number | null;
  coatedPct: number | null;
  lookedBy: Who | null;
  extended: number;
  parts: GatheredPart[];
  readonly outs: { atMs: number; material: string; targetKg: number; weighedKg: number }[];
  readonly steps: { step: string; fromMs: number; toMs: number | null }[];
  readonly procedures: { atMs: number; state: string; why: string }[];
};

export type GatheredLot = {
  readonly id: string;
  readonly mix: string;
  readonly mixVersion: number;
  readonly family: 'emulsion' | 'cutback';
  readonly bay: number;
  readonly openedMs: number;
  closedMs: number | null;
  state: 'open' | 'closed' | 'closed short';
  why: string | null;
  /** As the closing fact says; null while open. */
  closedGrams: number | null;
  samples: {
    n: number;
    /** What it is for; '' where no specification says. */
    test: string;
    /** Null while a sealed plan holds it back. */
    atKg: number | null;
    dueMs: number | null;
    takenMs: number | null;
    batch: number | null;
    by: Who | null;
  }[];
};

export type GatheredTrip = {
  readonly atMs: number;
  causes: string[];
  resetMs: number | null;
  resetBy: Who | null;
};

export type Gathered = {
  readonly batches: readonly GatheredBatch[];
  readonly lots: readonly GatheredLot[];
  readonly moves: readonly { atMs: number; from: Account; to: Account; grams: number; material: string }[];
  readonly alarms: readonly {
    atMs: number;
    alarm: string;
    state: string;
    by: Who | null;
    reason: string | null;
  }[];
  readonly refusals: readonly {
    seq: number;
    atMs: number;
    command: string;
    by: Who;
    because: readonly string[];
  }[];
  readonly trips: readonly GatheredTrip[];
  readonly holds: readonly { atMs: number; element: string; because: readonly string[] }[];
  readonly stops: readonly { atMs: number; pressed: boolean; by: Who }[];
  readonly campaigns: readonly { n: number; fromMs: number; steps: { step: string; atMs: number }[] }[];
  readonly charges: readonly {
    atMs: number;
    campaign: number;
    charge: number;
    inGrams: number;
    outGrams: number;
    outC: number;
    fuelS: number;
  }[];
  readonly controls: readonly {
    atMs: number;
    what: 'taken' | 'released' | 'stand-in';
    by: Who;
    skill: string | null;
  }[];
  readonly commands: readonly { atMs: number; command: string; by: Who }[];
  readonly faults: readonly { atMs: number; target: string; fault: string | null; by: Who }[];
  readonly notes: readonly { atMs: number; what: string; detail: string }[];
  readonly scales: readonly { atMs: number; scale: string; fromKg: number; by: Who }[];
  /** Proof tests, inhibits, hot work, deliveries: what touches the protection, in words. */
  readonly safety: readonly { atMs: number; what: string; by: Who | null; look: boolean }[];
  /** What was handed over when a person closed the shift; null before, and in records from before. */
  readonly handover: Handover | null;
  readonly opened: { readonly shift: string; readonly date: string; readonly startsAt: string };
  readonly openedBy: string | null;
  readonly program: string;
  readonly endedMs: number | null;
  readonly endedBy: Who | null;
  readonly lastMs: number;
  readonly first: number;
  readonly last: { readonly seq: number; readonly hash: string; readonly wall: string };
};
