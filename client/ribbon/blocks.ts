/** The blocks of the ribbon as few shapes as possible: one path a tone, however many blocks. */
import type { RibbonBlock } from '../../machines/line/view.types.ts';

/** Kinds of step that have a tone, in the order of the legend. */
export const TONES = [
  'charge',
  'wet',
  'wait',
  'binder',
  'mix',
  'look',
  'discharge',
  'dump',
  'purge',
  'dry',
  'cool',
  'hold',
  'other',
] as const;
export type Tone = (typeof TONES)[number];

const BARE = new Set(['idle', '']);

/** Tone of a step word; null for time that stays paper. */
export const toneOf = (step: string): Tone | null => {
  const word = step.toLowerCase();
  if (BARE.has(word)) return null;
  return TONES.find((tone) => tone === word) ?? 'other';
};

const GAP_PX = 1;
const GAP_FROM_PX = 5;
const LEAST_PX = 0.75;

const round = (value: number) => Math.round(value * 100) / 100;

/**
 * One SVG path per tone at `pxPerMs`, x counted from the start of the shift. Blocks that still
 * run end at `nowMs`. Wide blocks keep a gap of 1 px; narrow ones touch, so none vanishes.
 */
export const tonePaths = (
  blocks: readonly RibbonBlock[],
  pxPerMs: number,
  y: number,
  h: number,
  nowMs: number,
): ReadonlyMap<Tone, string> => {
  const parts = new Map<Tone, string[]>();
  for (const block of blocks) {
    const tone = toneOf(block.step);
    if (tone === null) continue;
    const x = block.fromMs * pxPerMs;
    const full = Math.max(0, ((block.toMs ?? nowMs) - block.fromMs) * pxPerMs);
    const w = Math.max(LEAST_PX, full >= GAP_FROM_PX ? full - GAP_PX : full);
    const list = parts.get(tone) ?? [];
    list.push(`M${round(x)} ${y}h${round(w)}v${h}h${round(-w)}z`);
    parts.set(tone, list);
  }
  return new Map([...parts].map(([tone, list]) => [tone, list.join('')]));
};

/** Where a new batch begins: a cut in the band so that batches can be counted when steps are narrow. */
export const batchStartsMs = (blocks: readonly RibbonBlock[]): readonly number[] => {
  const starts: number[] = [];
  let last: number | null = null;
  for (const block of blocks) {
    if (block.batch !== null && block.batch !== last) starts.push(block.fromMs);
    last = block.batch;
  }
  return starts;
};

/** The block that covers a moment, or null; blocks are in order of time. */
export const blockAt = (blocks: readonly RibbonBlock[], atMs: number, nowMs: number): RibbonBlock | null => {
  let low = 0;
  let high = blocks.length - 1;
  while (low <= high) {
    const middle = (low + high) >> 1;
    const block = blocks[middle];
    if (block === undefined) return null;
    if (atMs < block.fromMs) high = middle - 1;
    else if (atMs >= (block.toMs ?? Math.max(nowMs, block.fromMs) + 1)) low = middle + 1;
    else return block;
  }
  return null;
};

/** Start of the nearest block after (way 1) or before (way -1) a moment; null at the ends. */
export const neighbourMs = (blocks: readonly RibbonBlock[], atMs: number, way: 1 | -1): number | null => {
  const starts = blocks.map((block) => block.fromMs);
  if (way === 1) return starts.find((start) => start > atMs) ?? null;
  return starts.filter((start) => start < atMs).at(-1) ?? null;
};

export type Stretch = { readonly fromMs: number; readonly toMs: number };

const CAMPAIGN = new Set<string>(['dry', 'cool', 'purge']);
const JOIN_MS = 5 * 60_000;

/** Drying campaigns: runs of purge, dry and cool blocks outside a batch that hold at least one drying. */
export const campaignsOf = (blocks: readonly RibbonBlock[], nowMs: number): readonly Stretch[] => {
  const found: { fromMs: number; toMs: number; hasDrying: boolean }[] = [];
  for (const block of blocks) {
    if (block.batch !== null || !CAMPAIGN.has(block.step)) continue;
    const toMs = block.toMs ?? nowMs;
    const last = found.at(-1);
    const drying = block.step === 'dry';
    if (last !== undefined && block.fromMs - last.toMs <= JOIN_MS) {
      last.toMs = toMs;
      last.hasDrying ||= drying;
    } else found.push({ fromMs: block.fromMs, toMs, hasDrying: drying });
  }
  return found.filter((each) => each.hasDrying).map(({ fromMs, toMs }) => ({ fromMs, toMs }));
};
