/** What happened on the line, in the past tense and complete. Folds over these make lots, yard and reports. */
import type { InterlockCauseId } from '../charts/flame-interlock/flame-interlock.causes.ts';
import type { Role } from '../scenario/people.schema.ts';
import type { CommandName } from './commands.ts';

/** Account names of the books, grams move between them. */
export type Account =
  | 'materials'
  | 'hopper'
  | 'dryer'
  | 'holdingBin'
  | 'bucket'
  | 'mixer'
  | 'waterLost'
  | 'waste'
  | `lot:${string}`;

export type Who = { readonly person: string; readonly role: Role | 'line' };

export type WeighedPart = {
  readonly material: string;
  readonly targetKg: number;
  readonly weighedKg: number;
  /** Null when within tolerance, else who accepted it and why. */
  readonly accepted: null | { readonly by: Who; readonly reason: string };
};

/** The books of a whole shift in grams: taken in = lots + waste + water lost + still held. */
export type Counts = {
  readonly inGrams: number;
  readonly lots: readonly { readonly lot: string; readonly grams: number }[];
  readonly wasteGrams: number;
  readonly waterLostGrams: number;
  readonly held: readonly { readonly where: string; readonly grams: number }[];
  /** What is left over; 0 when the books close. */
  readonly differenceGrams: number;
};

/** What a shift hands to the next one when a person closes it. */
export type Handover = {
  readonly notes: string;
  /** Alarms that are not back to normal. */
  readonly alarms: readonly { readonly alarm: string; readonly state: string }[];
  readonly inhibits: readonly { readonly cause: string; readonly reason: string; readonly by: string }[];
  readonly permits: readonly { readonly permit: number; readonly where: string; readonly by: string }[];
  readonly counts: Counts;
};

export type Fact =
  | { readonly is: 'shiftOpened'; readonly shift: string; readonly date: string; readonly startsAt: string }
  | {
      readonly is: 'shiftEnded';
      readonly by: Who;
      /** Left out in records from before shifts were handed over. */
      readonly handover?: Handover;
    }
  | {
      readonly is: 'commandRefused';
      readonly id: string;
      readonly command: CommandName;
      readonly by: Who;
      readonly because: readonly string[];
    }
  | { readonly is: 'commandDone'; readonly id: string; readonly command: CommandName; readonly by: Who }
  | { readonly is: 'controlsTaken'; readonly by: Who; readonly console: string }
  | { readonly is: 'controlsAskedFor'; readonly by: Who }
  | { readonly is: 'controlsReleased'; readonly by: Who }
  | { readonly is: 'standInSwitched'; readonly by: Who; readonly skill: string | null }
  | {
      readonly is: 'orderChosen';
      readonly order: number;
      readonly mix: string;
      readonly bay: number;
      readonly by: Who;
    }
  | {
      readonly is: 'batchStarted';
      readonly batch: number;
      readonly mix: string;
      readonly mixVersion: number;
      readonly lot: string;
      readonly by: Who;
    }
  | { readonly is: 'stepEntered'; readonly batch: number; readonly step: string }
  | { readonly is: 'procedureEntered'; readonly batch: number; readonly state: string; readonly why: string }
  | { readonly is: 'partWeighed'; readonly batch: number | null; readonly part: WeighedPart }
  | {
      readonly is: 'weightOut';
      readonly batch: number | null;
      readonly material: string;
      readonly targetKg: number;
      readonly weighedKg: number;
    }
  | { readonly is: 'emptyConfirmed'; readonly motorA: number; readonly by: Who }
  | {
      readonly is: 'scaleZeroed';
      readonly scale: 'hopper' | 'bucket';
      readonly fromKg: number;
      readonly by: Who;
    }
  | {
      readonly is: 'lookConfirmed';
      readonly batch: number;
      readonly by: Who;
      readonly coatedPct: number;
      readonly mixedS: number;
    }
  | { readonly is: 'mixExtended'; readonly batch: number; readonly by: Who }
  | {
      readonly is: 'batchDischarged';
      readonly batch: number;
      readonly lot: string;
      readonly bay: number;
      readonly grams: number;
      readonly mixC: number;
      readonly mixedS: number;
      readonly parts: readonly WeighedPart[];
    }
  | {
      readonly is: 'batchDumped';
      readonly batch: number;
      readonly grams: number;
      readonly reason: string;
      readonly by: Who;
    }
  | {
      readonly is: 'massMoved';
      readonly from: Account;
      readonly to: Account;
      readonly grams: number;
      readonly material: string;
    }
  | {
      readonly is: 'lotOpened';
      readonly lot: string;
      readonly mix: string;
      readonly mixVersion: number;
      readonly family: 'emulsion' | 'cutback';
      readonly bay: number;
      /** Left out where a sealed plan says when samples are due. */
      readonly samplesAtKg?: readonly number[];
    }
  | {
      readonly is: 'lotClosed';
      readonly lot: string;
      readonly grams: number;
      readonly batches: number;
      readonly short: boolean;
      readonly why: string;
    }
  | {
      readonly is: 'samplesPlanned';
      readonly lot: string;
      readonly specification: string;
      /** SHA-256, hex, of the canonical JSON {lot, nonce, samples: [{n, test, atKg}]}. */
      readonly commitment: string;
      readonly samples: readonly {
        readonly n: number;
        readonly test: string;
        /** Drawn in this part of the lot, 1..ofParts. */
        readonly part: number;
        readonly ofParts: number;
      }[];
    }
  | {
      readonly is: 'sampleDue';
      readonly lot: string;
      readonly sample: number;
      /** Of a planned sample: what it is for, the tonnage it fell on and the batch it is to be taken from. */
      readonly test?: string;
      readonly atKg?: number;
      readonly batch?: number;
    }
  | {
      /** It fell due and nobody took it while its batch could still be sampled. */
      readonly is: 'sampleMissed';
      readonly lot: string;
      readonly sample: number;
      readonly batch: number;
      readonly why: string;
    }
  | {
      readonly is: 'samplePlanOpened';
      readonly lot: string;
      readonly nonce: string;
      readonly atKg: readonly number[];
    }
  | {
      readonly is: 'sampleTaken';
      readonly lot: string;
      readonly sample: number;
      readonly batch: number;
      readonly by: Who;
    }
  | { readonly is: 'cautionsAcknowledged'; readonly by: Who; readonly campaign: number }
  | { readonly is: 'campaignStep'; readonly campaign: number; readonly step: string }
  | {
      readonly is: 'chargeDried';
      readonly campaign: number;
      readonly charge: number;
      readonly inGrams: number;
      readonly outGrams: number;
      readonly outC: number;
      readonly fuelS: number;
    }
  | { readonly is: 'burnerEntered'; readonly state: string }
  | { readonly is: 'heaterEntered'; readonly state: string }
  | { readonly is: 'tripLatched'; readonly causes: readonly InterlockCauseId[] }
  | { readonly is: 'tripReset'; readonly by: Who }
  | { readonly is: 'elementHeld'; readonly element: string; readonly because: readonly InterlockCauseId[] }
  | {
      readonly is: 'alarmChanged';
      readonly alarm: string;
      readonly state: string;
      readonly by: Who | null;
      readonly reason: string | null;
    }
  | {
      /** Weights are corrected for this moisture from now on, % of dry mass. */
      readonly is: 'moistureSet';
      readonly bin: number;
      readonly was: number;
      readonly now: number;
      readonly source: string;
      readonly by: Who;
    }
  | { readonly is: 'binRefillAsked'; readonly bin: number; readonly by: Who }
  | { readonly is: 'faultInjected'; readonly target: string; readonly fault: string; readonly by: Who }
  | { readonly is: 'faultCleared'; readonly target: string; readonly by: Who }
  | { readonly is: 'emergencyStopPressed'; readonly by: Who }
  | { readonly is: 'emergencyStopReleased'; readonly by: Who }
  | {
      readonly is: 'causeProved';
      readonly cause: InterlockCauseId;
      readonly on: string;
      readonly result: 'passed' | 'failed';
      readonly remark: string;
      readonly by: Who;
    }
  | {
      readonly is: 'inhibitAsked';
      readonly cause: InterlockCauseId;
      readonly minutes: number;
      readonly reason: string;
      readonly by: Who;
    }
  | {
      readonly is: 'causeInhibited';
      readonly cause: InterlockCauseId;
      readonly minutes: number;
      readonly reason: string;
      readonly askedBy: Who;
      readonly by: Who;
    }
  | { readonly is: 'inhibitEnded'; readonly cause: InterlockCauseId; readonly why: string; readonly by: Who }
  | {
      readonly is: 'hotWorkOpened';
      readonly permit: number;
      readonly where: string;
      readonly reason: string;
      readonly minutes: number;
      readonly by: Who;
    }
  | { readonly is: 'hotWorkClosed'; readonly permit: number; readonly by: Who }
  | {
      readonly is: 'deliveryBegun';
      readonly tank: 'emulsion' | 'cutback';
      readonly product: 'emulsion' | 'cutback';
      readonly kg: number;
      readonly ticket: string;
      readonly by: Who;
    }
  | {
      readonly is: 'deliveryConfirmed';
      readonly tank: 'emulsion' | 'cutback';
      readonly product: 'emulsion' | 'cutback';
      readonly by: Who;
    }
  | { readonly is: 'deliveryEnded'; readonly tank: 'emulsion' | 'cutback'; readonly by: Who }
  | {
      readonly is: 'tankIdentified';
      readonly tank: 'emulsion' | 'cutback';
      readonly product: 'emulsion' | 'cutback';
      readonly reason: string;
      readonly by: Who;
    }
  | { readonly is: 'tankDoubted'; readonly tank: 'emulsion' | 'cutback'; readonly why: string }
  | { readonly is: 'calibrationLost'; readonly why: string };

export type FactName = Fact['is'];
