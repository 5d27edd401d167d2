/** What a runner is given, what it shows, and what others may ask of it. */

import type { LedgerAsk } from '../../machines/ledger/put.ts';
import type { CommandEnvelope } from '../../machines/line/commands.ts';
import type { LineView } from '../../machines/line/view.types.ts';
import type { Answer, RunCommand, RunView, ShiftChoice } from '../../machines/live/protocol.ts';
import type { PlantKey } from '../../machines/record/crypto.types.ts';
import type { EntryContent } from '../../machines/record/entry.ts';
import type { Person } from '../../machines/scenario/people.schema.ts';
import type { Scenario } from '../../machines/scenario/shift.schema.ts';
import type { TrueValues } from '../../machines/world/bench-truth.ts';
import type { Store } from '../store/store.ts';
import type { AnyWorld, Clock, LineEngine } from './line-engine.ts';
import type { ShiftsOffered } from './next-shift.ts';

export type RunnerOptions<W extends AnyWorld> = {
  readonly engine: LineEngine<W>;
  readonly store: Store;
  readonly scenario: Scenario;
  readonly speed?: number;
  readonly newShift?: boolean;
  /** Shifts that may follow this one, besides itself. */
  readonly shifts?: ShiftsOffered;
  readonly clock?: Clock;
  /** The plant's key: shifts are sealed with it when they are closed. Left out: nothing is sealed. */
  readonly key?: PlantKey;
  /** Where a person at the terminal is told what went wrong. */
  readonly log?: (line: string) => void;
};

/** What is shown: published at most ten times a second, and only what is durable. `shiftNo` counts shifts since the start. */
export type Shown = { readonly view: LineView; readonly run: RunView; readonly shiftNo: number };

export interface Runner {
  /** Of the shift at hand. */
  readonly scenario: Scenario;
  /** Shifts that can be opened when this one has ended. */
  readonly shifts: readonly ShiftChoice[];
  /** Writes the opening or the restored note and starts the clock. */
  begin(): Promise<void>;
  /** Records what is left, saves a checkpoint and stands still. */
  stop(): Promise<void>;
  command(envelope: CommandEnvelope): Promise<Answer>;
  run(command: RunCommand, by: Person): Promise<Answer>;
  /** Writes down something the server noticed or did; it is durable with the next commit. */
  note(what: string, detail: string): void;
  shown(): Shown;
  onShown(listener: (shown: Shown) => void): () => void;
}

/** The runner of the plant's own line, whose record can be sealed. */
export interface PlantRunner extends Runner {
  /**
   * Appends what was made outside the line (a seal, a countersignature) between two turns; durable when it is
   * answered. `make` may refuse by throwing PlainError.
   */
  append(make: (key: PlantKey) => Promise<EntryContent>): Promise<Answer>;
  /** Puts a command to a book of lab or yard between two turns; durable when it is answered, the same id once. */
  askBook(ask: LedgerAsk): Promise<Answer>;
  /** The plant's own clock, YYYY-MM-DDTHH:MM:SS. */
  plantClock(): string;
  /** What is really so in a sample of the simulated plant, by property id; null when nothing was kept of it. */
  benchTruth(lot: string, sample: number): TrueValues | null;
}
