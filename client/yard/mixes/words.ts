/** How states, people and figures of mixes are said. */
import type { Who } from '../../../machines/line/facts.ts';
import { figure } from '../../../machines/yard/mixes/findings.ts';
import type { VersionState } from '../../../machines/yard/mixes/state.ts';
import { formatDayTime } from '../../format/format.ts';
import type { Shape } from '../../parts/mark.tsx';

export const STATE_SHAPE: { readonly [S in VersionState]: Shape } = {
  approved: 'check',
  draft: 'ring',
  superseded: 'dot',
  withdrawn: 'diamond',
};

export const STATE_WORDS: { readonly [S in VersionState]: string } = {
  approved: 'approved',
  draft: 'draft',
  superseded: 'superseded',
  withdrawn: 'withdrawn',
};

/** 2026-05-13T06:10:00 → 13 May, 06:10 */
export const whenWords = formatDayTime;

export const nameOf = (
  who: Who | null,
  people: readonly { readonly id: string; readonly name: string }[],
): string =>
  who === null ? 'plant file' : (people.find((one) => one.id === who.person)?.name ?? who.person);

/** Minute of the day as HH:MM; a minute before midnight of the day says so. */
export const clockWords = (minute: number): string => {
  const day = ((minute % 1440) + 1440) % 1440;
  const text = `${String(Math.floor(day / 60)).padStart(2, '0')}:${String(Math.round(day % 60)).padStart(2, '0')}`;
  return minute < 0 ? `${text} the day before` : text;
};

export const minutesOf = (clock: string): number => {
  const [hours = 0, minutes = 0] = clock.split(':').map(Number);
  return hours * 60 + minutes;
};

export const range = (from: number | null, to: number | null, unit: string): string => {
  if (from !== null && to !== null) return `${figure(from)}–${figure(to)} ${unit}`;
  if (from !== null) return `at least ${figure(from)} ${unit}`;
  return to === null ? '–' : `at most ${figure(to)} ${unit}`;
};

export { figure };
