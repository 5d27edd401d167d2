/** What stands in the way of running on, in words for the person at the console. */
import { codeOf, messageOf } from '../plain-error.ts';

/** Why an append failed. */
export const whyNotWritten = (error: unknown): string => {
  const code = codeOf(error);
  if (code === 'SQLITE_FULL' || code === 'ENOSPC') return 'the disk is full';
  if (code.startsWith('SQLITE_READONLY') || code === 'EROFS') return 'the data folder may only be read';
  return messageOf(error);
};

export const recordTrouble = (why: string): string =>
  `the record cannot be written (${why}). The line is held until it can; it is tried every second.`;

export const faultTrouble = (error: unknown): string =>
  `the program found a fault in itself and stopped the line (${messageOf(error)}). Restart the server; it goes on from the record.`;
