/** What the trainer's and the trainee's seats and the server say to each other about drills under way. */
import { z } from 'zod';
import { EQUIPMENT_FAULTS } from '../field/outputs.ts';
import { TAG_NAMES } from '../field/tags.ts';

/** Sessions that may be under way at once; each is a line of its own. */
export const SESSIONS_LIMIT = 12;
export const MESSAGE_LETTERS = 400;

const shortId = z.string().min(1).max(60);
const sessionId = z.string().regex(/^[a-z0-9]{6,20}$/, 'is not the id of a session');
const seed = z.int().min(0).max(0xffffffff);
const tag = z.enum(TAG_NAMES as [string, ...string[]]);
const by = z.strictObject({ person: shortId, console: z.string().min(4).max(64) });

/** One act on the field of a drill: what the trainer puts in or takes away by hand. */
export const faultSchema = z.discriminatedUnion('of', [
  z.strictObject({
    of: z.literal('instrument'),
    tag,
    /** Null takes the fault away. */
    fault: z.enum(['stuck', 'dead', 'noisy', 'drift', 'span']).nullable(),
    /** Only for a drift: units of the instrument an hour. */
    perHour: z.number().min(-1e4).max(1e4).default(0),
    /** Only for a span: % of the true value that the reading is off by. */
    offPct: z.number().min(-100).max(100).default(0),
  }),
  z.strictObject({ of: z.literal('equipment'), equipment: z.enum(EQUIPMENT_FAULTS), on: z.boolean() }),
]);
export type FaultAsk = z.infer<typeof faultSchema>;

export const startSchema = z.strictObject({
  by,
  drill: shortId,
  trainee: shortId,
  /** Left out: one is drawn. The same seed gives the same drill. */
  seed: seed.optional(),
  hints: z.boolean().default(true),
  speed: z.union([z.literal(1), z.literal(10), z.literal(60)]).default(1),
  /** Begin frozen, so that the trainee can look round first. */
  frozen: z.boolean().default(false),
  /** Try again from a moment of an earlier attempt: what was done before that moment is done again. */
  from: z.strictObject({ session: sessionId, tick: z.int().min(0) }).optional(),
});
export type StartAsk = z.input<typeof startSchema>;

/** What is asked of one session. Return, faults and messages are the trainer's; a trainee alone may freeze and set the speed. */
export const sessionAskSchema = z.discriminatedUnion('do', [
  z.strictObject({ do: z.literal('freeze') }),
  z.strictObject({ do: z.literal('goOn') }),
  z.strictObject({
    do: z.literal('speed'),
    speed: z.union([z.literal(1), z.literal(10), z.literal(60)]),
  }),
  z.strictObject({ do: z.literal('keepMoment'), name: z.string().trim().min(1, 'give it a name').max(60) }),
  z.strictObject({ do: z.literal('returnTo'), tick: z.int().min(0) }),
  z.strictObject({ do: z.literal('fault'), fault: faultSchema }),
  z.strictObject({
    do: z.literal('message'),
    text: z.string().trim().min(1, 'write the message').max(MESSAGE_LETTERS),
  }),
  z.strictObject({ do: z.literal('finish') }),
  /** The trainee's: answer a message, call somebody, ask for a hint. */
  z.strictObject({ do: z.literal('reply'), message: shortId, answer: shortId }),
  z.strictObject({ do: z.literal('call'), who: shortId }),
  z.strictObject({ do: z.literal('hint') }),
]);
export type SessionAsk = z.input<typeof sessionAskSchema>;
export const sessionAskRequestSchema = z.strictObject({ by, ask: sessionAskSchema });

export const watchSchema = z.strictObject({ person: shortId, console: z.string().min(4).max(64) });

/** What a card in the trainer's seat says of a drill. */
export type DrillCard = {
  readonly id: string;
  readonly name: string;
  readonly teaches: string;
  /** 1 first steps to 5 hard. */
  readonly level: number;
  readonly minutes: number;
  /** Cutback is part of it: its cautions are shown before it begins. */
  readonly cutback: boolean;
};

export type SessionState = 'running' | 'frozen' | 'over';

/** One line of the trainer's seat: a session as a small picture. */
export type SessionTile = {
  readonly session: string;
  readonly drill: string;
  readonly drillName: string;
  readonly minutes: number;
  readonly trainee: { readonly id: string; readonly name: string };
  /** Who began it; the trainee's own id when it is practice alone. */
  readonly by: { readonly id: string; readonly name: string };
  readonly alone: boolean;
  readonly seed: number;
  readonly hints: boolean;
  readonly state: SessionState;
  readonly speed: number;
  readonly startsAt: string;
  readonly atMs: number;
  /** Plant time since the trainee took over, s. */
  readonly elapsedS: number;
  /** "Batch 3 · cutback patch mix · step 5 of 8" */
  readonly over: string;
  readonly step: string;
  readonly hasControls: boolean;
  readonly flame: boolean;
  readonly vapourLelPct: number;
  readonly vapourWarnLelPct: number;
  readonly vapourTripLelPct: number;
  readonly tripped: boolean;
  readonly alarms: { readonly unacknowledged: number; readonly active: number };
  /** Consoles that look at it now. */
  readonly watching: number;
  /** Points of what is decided so far, 0 to 100; null before anything is. */
  readonly score: number | null;
  readonly unsafe: number;
};

export type Moment = {
  readonly tick: number;
  readonly atMs: number;
  /** Null for those kept by the minute. */
  readonly name: string | null;
};

export type SeatMessage = {
  readonly id: string;
  readonly atMs: number;
  readonly from: string;
  readonly text: string;
  readonly answers: readonly { readonly id: string; readonly text: string }[];
  /** The id of the answer given, or null. */
  readonly answer: string | null;
};

/** What the trainee's band shows; sent to consoles of the session besides the line itself. */
export type DrillBand = {
  readonly session: string;
  readonly drillName: string;
  readonly brief: string;
  readonly minutes: number;
  /** Plant time since the shift began, and since the trainee took over. */
  readonly atMs: number;
  readonly elapsedS: number;
  readonly leftS: number;
  readonly state: SessionState;
  readonly speed: number;
  readonly frozenBy: string | null;
  readonly alone: boolean;
  readonly trainee: { readonly id: string; readonly name: string };
  readonly by: { readonly id: string; readonly name: string };
  readonly messages: readonly SeatMessage[];
  readonly hintsAllowed: boolean;
  readonly hintReady: boolean;
  readonly hints: readonly { readonly atMs: number; readonly text: string }[];
  readonly mayCall: readonly string[];
};

export type PlannedIncident = {
  readonly text: string;
  readonly what: string;
  readonly fromMs: number | null;
  readonly toMs: number | null;
};

/** Everything the trainer's seat shows of one session. */
export type SessionDetail = {
  readonly tile: SessionTile;
  readonly moments: readonly Moment[];
  readonly messages: readonly SeatMessage[];
  readonly faults: readonly { readonly target: string; readonly fault: string }[];
  readonly planned: readonly PlannedIncident[];
  readonly returns: number;
  readonly fromTick: number;
};

export type TrainingEvents = {
  hello: (hello: { readonly me: { readonly id: string; readonly name: string } | null }) => void;
  sessions: (tiles: readonly SessionTile[]) => void;
};

/** One attempt as the history lists it. */
export type Attempt = {
  readonly session: string;
  readonly drill: string;
  readonly drillName: string;
  readonly trainee: { readonly id: string; readonly name: string };
  readonly by: { readonly id: string; readonly name: string };
  readonly seed: number;
  readonly hints: boolean;
  readonly endedWall: string;
  readonly minutes: number;
  readonly score: number;
  readonly passed: boolean;
  readonly unsafe: number;
  readonly returns: number;
  /** The attempt it goes on from, or null. */
  readonly from: { readonly session: string; readonly tick: number } | null;
  readonly competencies: readonly {
    readonly name: string;
    readonly score: number;
    readonly points: number;
    readonly of: number;
  }[];
};
