/** What stands in the way of running on, in words for the person at the console. */
import { codeOf, messageOf } from '../plain-error.ts';
import { isDamage } from '../store/why.ts';

/** Why an append failed. */
export const whyNotWritten = (error: unknown): string => {
  const code = codeOf(error);
  if (code === 'SQLITE_FULL' || code === 'ENOSPC') return 'the disk is full';
  if (isDamage(error))
    return `its file is damaged (${code}): stop the server, keep the data folder as it is, and go on from the last backup`;
  if (code.startsWith('SQLITE_READONLY') || code === 'EROFS') return 'the data folder may only be read';
  return messageOf(error);
};

/** Why the record could not be written, and since when by the monotonic clock, ms. */
export type Held = { readonly why: string; readonly sinceMs: number };

/** For the record itself, once it can be written again: the gap in it is told where it stands. `nowMs` by the monotonic clock. */
export const troubleOver = (held: Held | null, nowMs: number): string => {
  const { why, sinceMs } = held ?? { why: 'it could not be written', sinceMs: nowMs };
  const seconds = ((nowMs - sinceMs) / 1000).toFixed(1);
  return `${why}: the line was held for ${seconds} s, plant time stood still and nothing was acknowledged meanwhile`;
};

export const recordTrouble = (why: string): string =>
  `the record cannot be written (${why}). The line is held until it can; it is tried every second.`;

/** Why a command is not carried out while there is trouble. A simulated plant then stands still: nothing moves in it. */
export const whyNotNow = (command: string, trouble: string): string =>
  command === 'emergencyStop'
    ? `The emergency stop is not pressed: the simulated plant stands still already, and nothing in it moves until this is over: ${trouble} Press it again then if it is still needed.`
    : `Nothing is carried out just now: ${trouble}`;

export const faultTrouble = (error: unknown): string =>
  `the program found a fault in itself and stopped the line (${messageOf(error)}). Restart the server; it goes on from the record.`;
