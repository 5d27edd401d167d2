/** How the record is kept, as a person reads it: sizes, ages, and what wants doing. */

export type Kept = {
  readonly folder: string;
  readonly bytes: number;
  readonly freeInsideBytes: number;
  readonly entries: number;
  readonly shifts: number;
  readonly sealed: number;
  readonly packed: number;
  readonly archived: number;
  readonly room: { readonly freeBytes: number; readonly totalBytes: number } | null;
  readonly roomState: 'enough' | 'little' | 'nearly none';
  readonly lastBackup: {
    readonly wall: string;
    readonly file: string;
    readonly bytes: number;
    readonly entries: number;
  } | null;
  /** Wall clock of the server, ISO 8601 UTC. */
  readonly wall: string;
};

const DAY_MS = 24 * 3600_000;
/** A week of shifts is what one can bear to lose. */
const BACKUP_OLD_DAYS = 7;

const UNITS = ['B', 'kB', 'MB', 'GB', 'TB'] as const;

/** 18_616_016 → "18.6 MB", by powers of 1000 as disks are sold. */
export function bytesText(bytes: number): string {
  let value = bytes;
  let unit = 0;
  // At 999.5 it would round up to 1000 of the smaller unit.
  while (value >= 999.5 && unit < UNITS.length - 1) {
    value /= 1000;
    unit += 1;
  }
  const digits = unit === 0 || value >= 99.95 ? 0 : 1;
  return `${value.toFixed(digits)} ${UNITS[unit]}`;
}

/** 33226 → "33,226" */
export const countText = (n: number): string => n.toLocaleString('en-GB');

/** Whole days between two instants, in words. */
export function ageText(wall: string, now: string): string {
  const days = Math.floor((Date.parse(now) - Date.parse(wall)) / DAY_MS);
  if (days < 0) return 'at a time that is still to come: see to the clock of this computer';
  if (days === 0) return 'less than a day ago';
  return days === 1 ? '1 day ago' : `${days} days ago`;
}

export type Advice = { readonly what: 'backup' | 'room'; readonly strong: boolean; readonly words: string };

/** What wants doing, the more urgent first; nothing when all is well. */
export function adviceOf(kept: Kept): Advice[] {
  const advice: Advice[] = [];
  const { room, roomState, lastBackup, wall } = kept;
  if (room !== null && roomState !== 'enough')
    advice.push({
      what: 'room',
      strong: roomState === 'nearly none',
      words:
        roomState === 'nearly none'
          ? `Only ${bytesText(room.freeBytes)} are free: the line will be held when the disk is full. Make room now, or archive old shifts (patchyard archive).`
          : `Only ${bytesText(room.freeBytes)} are free on the disk of the record. Make room, or archive old shifts (patchyard archive).`,
    });
  if (lastBackup === null && kept.sealed > 0)
    advice.push({
      what: 'backup',
      strong: false,
      words:
        'The record has never been backed up. Run patchyard backup on this computer, onto another disk; the line may go on meanwhile.',
    });
  if (lastBackup !== null && Date.parse(wall) - Date.parse(lastBackup.wall) >= BACKUP_OLD_DAYS * DAY_MS)
    advice.push({
      what: 'backup',
      strong: false,
      words: 'The last backup is more than a week old. Run patchyard backup; the line may go on meanwhile.',
    });
  return advice;
}

const isObject = (value: unknown): value is { readonly [key: string]: unknown } =>
  typeof value === 'object' && value !== null;

/** Null when it is not what this page knows. */
export function readKept(value: unknown): Kept | null {
  if (!isObject(value)) return null;
  const numbers = ['bytes', 'freeInsideBytes', 'entries', 'shifts', 'sealed', 'packed', 'archived'];
  const sound =
    numbers.every((name) => typeof value[name] === 'number') &&
    typeof value.folder === 'string' &&
    typeof value.wall === 'string' &&
    (value.room === null || isObject(value.room)) &&
    (value.lastBackup === null || isObject(value.lastBackup));
  return sound ? (value as unknown as Kept) : null;
}
