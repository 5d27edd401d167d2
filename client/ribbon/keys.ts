/** Where a key takes the moment that is read or sought, ms into the shift. */
import type { RibbonBlock } from '../../machines/line/view.types.ts';
import { neighbourMs } from './blocks.ts';

const SECOND_MS = 1000;
const TEN_MS = 10_000;
const MINUTE_MS = 60_000;
const FACTOR = 1.5;

/** Keys that zoom, and by what the span is multiplied. */
export const ZOOM_KEYS: { readonly [key: string]: number } = {
  '+': 1 / FACTOR,
  '=': 1 / FACTOR,
  '-': FACTOR,
};

const WAYS: { readonly [key: string]: 1 | -1 } = {
  ArrowRight: 1,
  ArrowUp: 1,
  ArrowLeft: -1,
  ArrowDown: -1,
};

const farKey = (key: string, atMs: number, nowMs: number): number | null => {
  if (key === 'PageUp') return atMs + MINUTE_MS;
  if (key === 'PageDown') return atMs - MINUTE_MS;
  if (key === 'Home') return 0;
  return key === 'End' ? nowMs : null;
};

/** Scrubbing: arrows by 1 s, with Shift by 10 s, pages by a minute, ends; null for any other key. */
export const keyedMs = (key: string, isShift: boolean, atMs: number, nowMs: number): number | null => {
  const way = WAYS[key];
  if (way === undefined) return farKey(key, atMs, nowMs);
  return atMs + way * (isShift ? TEN_MS : SECOND_MS);
};

/** Reading: arrows from block to block, else as when scrubbing. */
export const keyedBlockMs = (
  key: string,
  blocks: readonly RibbonBlock[],
  atMs: number,
  nowMs: number,
): number | null => {
  const way = WAYS[key];
  if (way === undefined) return farKey(key, atMs, nowMs);
  return neighbourMs(blocks, atMs, way) ?? atMs;
};
