/** Lots and drying campaigns as brackets under the ribbon, with labels that can never run into each other. */
import type { LotView, RibbonBlock } from '../../machines/line/view.types.ts';
import { elide, textWidthPx } from '../drawing/text.ts';
import { campaignsOf } from './blocks.ts';

export type Bracket = {
  readonly id: string;
  readonly kind: 'lot' | 'campaign';
  readonly fromMs: number;
  readonly toMs: number;
  readonly isOpen: boolean;
  /** The same words, ever shorter. */
  readonly texts: readonly string[];
};

const lotTexts = (lot: LotView): readonly string[] => {
  const mass = `${(lot.massKg / 1000).toFixed(lot.massKg < 9_995 ? 2 : 1)} t`;
  return [
    `lot ${lot.id} · ${mass} · ${lot.family} · ${lot.state}`,
    `lot ${lot.id} · ${mass} · ${lot.family}`,
    `lot ${lot.id} · ${mass}`,
    `lot ${lot.id}`,
    lot.id,
  ];
};

/** Brackets in order of time. A lot reaches from its first batch to its last, an open one to now. */
export const bracketsOf = (
  lots: readonly LotView[],
  blocks: readonly RibbonBlock[],
  nowMs: number,
): readonly Bracket[] => {
  const spans = new Map<number, { fromMs: number; toMs: number }>();
  for (const block of blocks) {
    if (block.batch === null) continue;
    const toMs = block.toMs ?? nowMs;
    const span = spans.get(block.batch);
    if (span === undefined) spans.set(block.batch, { fromMs: block.fromMs, toMs });
    else span.toMs = Math.max(span.toMs, toMs);
  }
  const found: Bracket[] = [];
  for (const lot of lots) {
    const own = lot.batches.map((batch) => spans.get(batch)).filter((span) => span !== undefined);
    if (own.length === 0) continue;
    found.push({
      id: `lot-${lot.id}`,
      kind: 'lot',
      fromMs: Math.min(...own.map((span) => span.fromMs)),
      toMs: lot.state === 'open' ? nowMs : Math.max(...own.map((span) => span.toMs)),
      isOpen: lot.state === 'open',
      texts: lotTexts(lot),
    });
  }
  for (const stretch of campaignsOf(blocks, nowMs))
    found.push({
      id: `campaign-${stretch.fromMs}`,
      kind: 'campaign',
      fromMs: stretch.fromMs,
      toMs: stretch.toMs,
      isOpen: false,
      texts: ['drying campaign', 'drying'],
    });
  return found.sort((a, b) => a.fromMs - b.fromMs || a.toMs - b.toMs);
};

export type Span = { readonly fromX: number; readonly toX: number; readonly texts: readonly string[] };
export type Label = { readonly x: number; readonly text: string; readonly widthPx: number };

const APART_PX = 10;
const LEAST_ROOM_PX = 20;

/**
 * A label for each span (in order of fromX), starting at its left end and ending before the next
 * span in sight begins: the longest wording that fits, else the shortest one elided, else none.
 */
export const layLabels = (
  spans: readonly Span[],
  fromX: number,
  toX: number,
  sizePx: number,
): readonly (Label | null)[] =>
  spans.map((span, index) => {
    const x = Math.max(span.fromX, fromX);
    if (span.toX < fromX || span.fromX > toX) return null;
    const next = spans[index + 1];
    const end = Math.min(toX, next === undefined ? toX : next.fromX - APART_PX);
    const room = end - x;
    if (room < LEAST_ROOM_PX) return null;
    const fitting = span.texts.find((text) => textWidthPx(text, sizePx) <= room);
    const text = fitting ?? elide(span.texts.at(-1) ?? '', room, sizePx);
    return text === '' ? null : { x, text, widthPx: textWidthPx(text, sizePx) };
  });
