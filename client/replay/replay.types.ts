/** What the replay page knows of the export it has open. */
import type { ExportVerdict } from '../../machines/record/export.types.ts';
import type { Opened, Side, SoFar } from './worker/messages.ts';

export type { Side };

export const TICKS_PER_S = 10;
export const TICK_MS = 100;

/** Times real time, as on the buttons. */
export const REPLAY_SPEEDS = [1, 10, 60, 600] as const;
export type ReplaySpeed = (typeof REPLAY_SPEEDS)[number];

export type Check =
  | { readonly is: 'running'; readonly share: number }
  | { readonly is: 'done'; readonly verdict: ExportVerdict };

export type ReplayFile = { readonly name: string; readonly bytes: number };

export type ReplayState = {
  readonly phase: 'none' | 'fetching' | 'reading' | 'open' | 'failed';
  readonly file: ReplayFile | null;
  /** Share of the file fetched or read so far, 0..1. */
  readonly share: number;
  readonly failed: { readonly title: string; readonly why: string } | null;
  readonly opened: Opened | null;
  readonly soFar: SoFar | null;
  /** Why the charts could not be run to the end; null while they can. */
  readonly stuck: { readonly tick: number; readonly why: string } | null;
  readonly check: Check | null;
  /** Tick each side is wanted at; what is drawn follows as it is worked out. */
  readonly at: { readonly [S in Side]: number };
  readonly playing: boolean;
  readonly speed: ReplaySpeed;
  /** The ribbon shows the whole shift; without hindsight only what had happened by then. */
  readonly hindsight: boolean;
  /** Whose console the buttons are drawn for: who had the controls then, or somebody looking on. */
  readonly seenBy: 'holder' | 'onlooker';
};

export const NOTHING_OPEN: ReplayState = {
  phase: 'none',
  file: null,
  share: 0,
  failed: null,
  opened: null,
  soFar: null,
  stuck: null,
  check: null,
  at: { a: 1, b: 1 },
  playing: false,
  speed: 10,
  hindsight: true,
  seenBy: 'holder',
};

/** The last tick that can be shown. */
export const lastTickOf = (state: ReplayState): number => state.opened?.lastTick ?? 0;
