/** What a console and the server say to each other over the live socket. Both sides import this. */
import { z } from 'zod';
import { envelopeSchema } from '../line/commands.ts';
import type { LineView, RibbonBlock, RibbonMark } from '../line/view.types.ts';
import type { Person } from '../scenario/people.schema.ts';
import type { DrillBand } from './training.ts';

export const SPEEDS = [1, 10, 60] as const;

/** How the server is running the line; not part of the line itself. */
export type RunView = {
  readonly simulated: boolean;
  readonly speed: number;
  readonly paused: boolean;
  /** Newest entry of the record. */
  readonly seq: number;
  readonly head: string;
  /** Set when the record cannot be written: the line is held until it can. */
  readonly trouble: string | null;
  /** Words when the disk of the record has little room left. */
  readonly room?: string;
  /** Newest entry that any book of lab and yard listens to; left out where there is no ledger. */
  readonly ledger?: number;
};

export type Hello = {
  readonly program: string;
  readonly people: readonly Person[];
  /** Who this console said it is, remembered over reconnects by its console id; null until chosen. */
  readonly me: Person | null;
  /** Shifts that can be opened once the present one has ended. */
  readonly shifts: readonly ShiftChoice[];
};

export type ShiftChoice = { readonly id: string; readonly name: string };

/** The whole state; `n` counts changes so that a gap is noticed. */
export type State = { readonly n: number; readonly view: LineView; readonly run: RunView };

/** Ribbon sent by its tail: keep so many of what you have, then append. */
export type RibbonChange = {
  readonly keepBlocks: number;
  readonly blocks: readonly RibbonBlock[];
  readonly keepMarks: number;
  readonly marks: readonly RibbonMark[];
};

/** Sections that changed since change n-1. */
export type Change = {
  readonly n: number;
  readonly sections: Partial<Omit<LineView, 'ribbon'>>;
  readonly ribbon: RibbonChange | null;
  readonly run: RunView | null;
};

export const iAmSchema = z.strictObject({
  person: z.string().min(1).max(60),
  console: z.string().min(4).max(64),
});
export const runSchema = z.discriminatedUnion('do', [
  z.strictObject({ do: z.literal('pause') }),
  z.strictObject({ do: z.literal('resume') }),
  z.strictObject({ do: z.literal('speed'), speed: z.union([z.literal(1), z.literal(10), z.literal(60)]) }),
  /**
   * Only when the shift has ended; without `shift` the same one is opened again, a day later. `planned` opens the next
   * day of the yard's plan in its place; `afterDays` lets so many days pass since the last shift.
   */
  z.strictObject({
    do: z.literal('nextShift'),
    shift: z.string().min(1).max(60).optional(),
    planned: z.literal(true).optional(),
    afterDays: z.int().min(1).max(400).optional(),
  }),
]);
export type RunCommand = z.infer<typeof runSchema>;

export type Answer = { readonly ok: true } | { readonly ok: false; readonly because: readonly string[] };

export { envelopeSchema };

export type ServerEvents = {
  hello: (hello: Hello) => void;
  /** On connecting, when asked for, and when another shift begins. */
  state: (state: State) => void;
  change: (change: Change) => void;
  /** Only on the line of a training session: what its band shows beside the console. */
  drill: (band: DrillBand) => void;
};
export type ConsoleEvents = {
  iAm: (who: z.infer<typeof iAmSchema>, answer: (a: Answer) => void) => void;
  /** Ask for the whole state again (after a gap). */
  again: () => void;
  command: (envelope: z.input<typeof envelopeSchema>, answer: (a: Answer) => void) => void;
  run: (run: RunCommand, answer: (a: Answer) => void) => void;
};
