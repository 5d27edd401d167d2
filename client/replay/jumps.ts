/** Where the next or the last entry of some kind stands, seen from a moment. */
import type { Landmark, ReplayLine } from './worker/lines.ts';

export type JumpKind = 'entry' | Landmark;

export const JUMPS: readonly { readonly kind: JumpKind; readonly words: string; readonly key: string }[] = [
  { kind: 'entry', words: 'entry', key: 'e' },
  { kind: 'alarm', words: 'alarm', key: 'a' },
  { kind: 'refusal', words: 'refusal', key: 'r' },
  { kind: 'trip', words: 'trip', key: 't' },
  { kind: 'sample', words: 'sample', key: 's' },
  { kind: 'person', words: 'command by a person', key: 'p' },
];

const fits = (line: ReplayLine, kind: JumpKind, person: string | null): boolean =>
  kind === 'entry' ||
  (line.landmark === kind && (kind !== 'person' || person === null || line.by === person));

/** Index of the first line after `tick`, in lines that stand in the order of the record. */
export const indexAfter = (lines: readonly ReplayLine[], tick: number): number => {
  let low = 0;
  let high = lines.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((lines[middle]?.tick ?? 0) <= tick) low = middle + 1;
    else high = middle;
  }
  return low;
};

/** The nearest line of that kind at another tick than `tick`, in that direction; null when there is none. */
export const jumpFrom = (
  lines: readonly ReplayLine[],
  tick: number,
  way: 1 | -1,
  kind: JumpKind,
  person: string | null = null,
): ReplayLine | null => {
  if (way === 1) {
    for (let i = indexAfter(lines, tick); i < lines.length; i++) {
      const line = lines[i];
      if (line !== undefined && fits(line, kind, person)) return line;
    }
    return null;
  }
  for (let i = indexAfter(lines, tick - 1) - 1; i >= 0; i--) {
    const line = lines[i];
    if (line !== undefined && line.tick >= 1 && fits(line, kind, person)) return line;
  }
  return null;
};

/** The newest line at or before a moment; null before the first. */
export const lineAt = (lines: readonly ReplayLine[], tick: number): ReplayLine | null =>
  lines[indexAfter(lines, tick) - 1] ?? null;

const CLOCK = /^(\d{1,2}):(\d{2})(?::(\d{2}(?:[.,]\d)?))?$/;

/** Tick of a time of day written as HH:MM, HH:MM:SS or HH:MM:SS.t; null when it is none of these. A time before the start is the next day's. */
export const tickOfClock = (text: string, startsAt: string): number | null => {
  const secondsOf = (clock: string): number | null => {
    const [, h, m, s = '0'] = CLOCK.exec(clock.trim()) ?? [];
    if (h === undefined || m === undefined) return null;
    const [hours, minutes, seconds] = [Number(h), Number(m), Number(s.replace(',', '.'))];
    return hours > 23 || minutes > 59 || seconds >= 60 ? null : hours * 3600 + minutes * 60 + seconds;
  };
  const [wanted, start] = [secondsOf(text), secondsOf(startsAt)];
  if (wanted === null || start === null) return null;
  const into = (wanted - start + 86_400) % 86_400;
  return Math.max(1, Math.round(into * 10));
};
