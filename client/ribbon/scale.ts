/** Time to place and back on the ribbon, what stretch it shows, and where its clock labels stand. */

const MINUTE_MS = 60_000;
const HOUR_MS = 60 * MINUTE_MS;

/** A stretch of shift time drawn over a width; times in ms since the shift began. */
export type Scale = { readonly fromMs: number; readonly spanMs: number; readonly widthPx: number };

export const xOf = (scale: Scale, atMs: number): number =>
  ((atMs - scale.fromMs) / scale.spanMs) * scale.widthPx;

export const msAt = (scale: Scale, x: number): number => scale.fromMs + (x / scale.widthPx) * scale.spanMs;

export const SHORTEST_SPAN_MS = 2 * MINUTE_MS;

/** What is shown: a span, and either the moment it keeps in sight or a fixed beginning. */
export type Window = { readonly spanMs: number; readonly fromMs: number | null };

/** Share of the width kept free after the moment that is followed. */
const AHEAD_SHARE = 0.12;

/**
 * The stretch to draw. Following (`fromMs` null) keeps `atMs` in sight near the right end;
 * a window never leaves the shift as long as it fits in it.
 */
export const stretchOf = (
  window: Window,
  atMs: number,
  wholeMs: number,
): { readonly fromMs: number; readonly spanMs: number } => {
  const spanMs = Math.min(Math.max(window.spanMs, SHORTEST_SPAN_MS), wholeMs);
  const wanted = window.fromMs ?? atMs - spanMs * (1 - AHEAD_SHARE);
  return { fromMs: Math.min(Math.max(0, wanted), wholeMs - spanMs), spanMs };
};

/** Zooms by a factor about a moment, which stays where it is on the screen. */
export const zoomAbout = (
  stretch: { readonly fromMs: number; readonly spanMs: number },
  aboutMs: number,
  factor: number,
  wholeMs: number,
): { readonly fromMs: number; readonly spanMs: number } => {
  const spanMs = Math.min(Math.max(stretch.spanMs * factor, SHORTEST_SPAN_MS), wholeMs);
  const share = (aboutMs - stretch.fromMs) / stretch.spanMs;
  return { fromMs: Math.min(Math.max(0, aboutMs - share * spanMs), wholeMs - spanMs), spanMs };
};

const TICK_STEPS_MS = [10_000, 30_000, 1, 2, 5, 10, 15, 30, 60, 120, 240].map((step) =>
  step < 1000 ? step * MINUTE_MS : step,
);

const CLOCK = /(\d{1,2}):(\d{2})(?::(\d{2}))?/;

/** Time of day at the start of the shift, ms; 0 when the text holds no clock time. */
export const startOfDayMs = (startsAt: string): number => {
  const [, hours = '0', mins = '0', seconds = '0'] = CLOCK.exec(startsAt) ?? [];
  return Number(hours) * HOUR_MS + Number(mins) * MINUTE_MS + Number(seconds) * 1000;
};

const two = (value: number) => String(value).padStart(2, '0');

/** Shift time as time of day, "07:05" or "07:05:12"; passes midnight. */
export const clockAt = (startsAt: string, atMs: number, withSeconds: boolean): string => {
  const seconds = Math.floor((startOfDayMs(startsAt) + atMs) / 1000);
  const hours = ((Math.floor(seconds / 3600) % 24) + 24) % 24;
  const text = `${two(hours)}:${two(Math.floor(seconds / 60) % 60)}`;
  return withSeconds ? `${text}:${two(seconds % 60)}` : text;
};

export type Tick = { readonly atMs: number; readonly label: string };

/** Clock labels at round times of day, at least `apartPx` apart. */
export const ticksOf = (scale: Scale, startsAt: string, apartPx: number): readonly Tick[] => {
  const leastMs = (apartPx / scale.widthPx) * scale.spanMs;
  const stepMs = TICK_STEPS_MS.find((step) => step >= leastMs) ?? 8 * HOUR_MS;
  const offsetMs = startOfDayMs(startsAt);
  const first = Math.ceil((scale.fromMs + offsetMs) / stepMs) * stepMs - offsetMs;
  const ticks: Tick[] = [];
  for (let atMs = first; atMs <= scale.fromMs + scale.spanMs; atMs += stepMs)
    ticks.push({ atMs, label: clockAt(startsAt, atMs, stepMs < MINUTE_MS) });
  return ticks;
};

/** A duration in words of figures: "0:42", "12:05", "1:02:05". */
export const durationText = (ms: number): string => {
  const seconds = Math.max(0, Math.round(ms / 1000));
  const hours = Math.floor(seconds / 3600);
  const rest = `${hours > 0 ? two(Math.floor(seconds / 60) % 60) : Math.floor(seconds / 60)}:${two(seconds % 60)}`;
  return hours > 0 ? `${hours}:${rest}` : rest;
};
