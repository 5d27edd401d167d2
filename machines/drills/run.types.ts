/** A drill being worked, as one plain value; `run.ts` turns it. */
import type { FieldAsk, Outputs } from '../field/outputs.ts';
import type { Tag } from '../field/tags.ts';
import type { Command } from '../line/commands.ts';
import type { Plant } from '../plant/plant.types.ts';
import type { Role } from '../scenario/people.schema.ts';
import type { Advanced, World } from '../world/world.ts';
import type { Called, Drill, Happening } from './drill.schema.ts';

export type Trainee = { readonly person: string; readonly role: Role; readonly console: string };

export type OpenOptions = {
  readonly seed: number;
  readonly trainee: Trainee;
  /** Whether this trainee may ask for hints. */
  readonly hints: boolean;
};

/**
 * What people do beside the commands of the line. The trainer: `ask` of the field, `message`, `end`.
 * The trainee: `reply` to a message, `call` somebody, ask for a `hint`. Kept in the run, in order.
 */
export type Intervention =
  | { readonly do: 'ask'; readonly by: string; readonly ask: FieldAsk }
  | {
      readonly do: 'message';
      readonly by: string;
      readonly text: string;
      readonly answers?: readonly { readonly id: string; readonly text: string }[];
    }
  | { readonly do: 'reply'; readonly message: string; readonly answer: string }
  | { readonly do: 'call'; readonly who: Called }
  | { readonly do: 'hint' }
  | { readonly do: 'end'; readonly by: string };

export type KeptIntervention = { readonly tick: number; readonly intervention: Intervention };

export type Message = {
  readonly id: string;
  readonly tick: number;
  readonly from: string;
  readonly text: string;
  readonly answers: readonly { readonly id: string; readonly text: string }[];
  /** The answer given, or null. */
  readonly answer: string | null;
  /** The incident that sent it, or null when the trainer did. */
  readonly incident: string | null;
};

export type HintGiven = { readonly tick: number; readonly expectation: string; readonly text: string };

export type IncidentState = {
  readonly id: string;
  readonly happening: Happening;
  /** Chosen by seed: seconds from its condition to its beginning, its amount, how long it lasts, how long mending takes. */
  readonly afterS: number;
  readonly by: number;
  readonly lastsS: number | null;
  readonly mendS: number;
  readonly dueTick: number | null;
  readonly fromTick: number | null;
  readonly mendTick: number | null;
  /** Somebody was called and is mending it. */
  readonly called: boolean;
  readonly toTick: number | null;
};

export type ExpectedState = {
  readonly id: string;
  readonly openTick: number | null;
  readonly metTick: number | null;
  /** Met before what it must come after. */
  readonly early: boolean;
};

export type NeverState = {
  readonly id: string;
  readonly times: number;
  readonly firstTick: number | null;
  /** Of those, refused. */
  readonly tried: number;
  /** Ticks the condition has held without a break. */
  readonly heldTicks: number;
};

export type Did = {
  readonly tick: number;
  readonly by: string;
  readonly command: Command;
  readonly because: readonly string[];
};

export type Sample = {
  readonly tick: number;
  readonly vapourLelPct: number;
  readonly flame: boolean;
  readonly solventKg: number;
  /** True value and reading of each instrument that has lied so far or is going to. */
  readonly tags: { readonly [T in Tag]?: readonly [truth: number, reading: number] };
};

/** The moment the interlock first stepped in: where the unguarded twin begins. */
export type TwinStart = {
  readonly tick: number;
  readonly because: string;
  readonly plant: Plant;
  /** Step of the batch then, its mix and where it was to be laid. */
  readonly step: string;
  readonly mix: string;
  readonly bay: number;
};

/** One change of what was asked of the plant, kept for the twin. */
export type Asked = { readonly tick: number; readonly wanted: Outputs };

export type Physical = {
  readonly kind:
    | 'flame with solvent'
    | 'vapour above a quarter of its limit'
    | 'other binder in a tank'
    | 'puff';
  readonly firstTick: number;
  readonly ticks: number;
  /** The most there was: solvent and binder in kg, vapour in % of its lower limit; times for a puff. */
  readonly worst: number;
};

export type DrillRun = {
  readonly drill: Drill;
  readonly options: OpenOptions;
  readonly world: World;
  /** World tick at which the trainee took over. */
  readonly startTick: number;
  readonly ended: null | { readonly tick: number; readonly why: string };
  readonly incidents: readonly IncidentState[];
  readonly expected: readonly ExpectedState[];
  readonly never: readonly NeverState[];
  readonly messages: readonly Message[];
  readonly hints: readonly HintGiven[];
  /** People called who have nothing to mend: when they say so. */
  readonly visits: readonly { readonly who: Called; readonly dueTick: number }[];
  readonly calls: readonly { readonly tick: number; readonly who: Called }[];
  readonly interventions: readonly KeptIntervention[];
  readonly did: readonly Did[];
  /** How often each fact was told since the trainee took over, and batches then. */
  readonly told: { readonly [fact: string]: number };
  readonly samples: readonly Sample[];
  readonly physical: readonly Physical[];
  readonly asks: readonly { readonly tick: number; readonly ask: FieldAsk }[];
  readonly twin: TwinStart | null;
  readonly asked: readonly Asked[];
};

/** What the trainee's seat shows beside the console: nothing of what is hidden. */
export type SeatExtras = {
  readonly brief: string;
  readonly name: string;
  readonly leftS: number;
  readonly ended: string | null;
  readonly messages: readonly Message[];
  readonly hints: readonly HintGiven[];
  /** May a hint be asked for, and is there one now? */
  readonly hintsAllowed: boolean;
  readonly hintReady: boolean;
  readonly mayCall: readonly Called[];
};

export type DrillAdvanced = {
  readonly run: DrillRun;
  readonly advanced: Advanced;
  /** Why an intervention was not taken, in words; empty when all were. */
  readonly because: readonly string[];
};
