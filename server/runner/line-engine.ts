/** The line as the server drives it: pure functions over a world the server never looks into. */
import type { ReadingChanges } from '../../machines/field/tags.ts';
import type { CommandEnvelope } from '../../machines/line/commands.ts';
import type { Fact } from '../../machines/line/facts.ts';
import type { LineView } from '../../machines/line/view.types.ts';
import type { Answer } from '../../machines/live/protocol.ts';
import type { Scenario } from '../../machines/scenario/shift.schema.ts';
import type { TrueValues } from '../../machines/world/bench-truth.ts';
import type { WorldStart } from '../../machines/world/world.ts';

/** `atMs` is plant time since the shift began, 100 ms a tick. */
export type AnyWorld = { readonly tick: number; readonly atMs: number };

export type Advanced<W> = {
  readonly world: W;
  readonly changes: ReadingChanges | null;
  /** Commands as they were put to the line, the stand-in's after those handed in. */
  readonly commands: readonly CommandEnvelope[];
  readonly facts: readonly Fact[];
  readonly answers: readonly { readonly id: string; readonly answer: Answer }[];
};

export type LineEngine<W extends AnyWorld> = {
  /** `start` brings what no file says: the secret of the sampling plans, and what the bench may still be asked about. */
  readonly createWorld: (scenario: Scenario, start?: WorldStart) => W;
  /** JSON value of a world, and back. */
  readonly saveWorld: (world: W) => unknown;
  readonly loadWorld: (scenario: Scenario, json: unknown) => W;
  /** One tick: commands first, then the tick's readings. A new world's first tick is given no commands. */
  readonly advance: (world: W, commands: readonly CommandEnvelope[]) => Advanced<W>;
  readonly viewOf: (world: W) => LineView;
  /** What only the simulated plant knows: by how much its own mass balance fails to close, kg. */
  /** What a save of any version still tells, for a world that must be turned again from its beginning. */
  readonly startOfSave?: (json: unknown) => WorldStart;
  /** What the next shift's world is given by this one. */
  readonly startAfter?: (world: W) => WorldStart;
  /** True values of a sample by property id, for the simulated bench; null when nothing was kept of it. */
  readonly benchTruth?: (world: W, lot: string, sample: number) => TrueValues | null;
  readonly truthOf?: (world: W) => { readonly massErrorKg: number };
};

/** Times the server goes by: `monoMs` never jumps and drives the plant, `wallMs` is only written down. */
export type Clock = { readonly monoMs: () => number; readonly wallMs: () => number };
export const SYSTEM_CLOCK: Clock = { monoMs: () => performance.now(), wallMs: () => Date.now() };
