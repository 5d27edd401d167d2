/** The debrief as the server keeps it: what came of the drill, and which attempt it was. */
import type { Debrief } from '../../../machines/drills/debrief.types.ts';
import type { Attempt } from '../../../machines/live/training.ts';

export type KeptDebrief = Debrief & { readonly attempt: Attempt; readonly startTick: number };
