/** Blocks, brackets and marks of the shift ribbon: nothing overlaps, nothing is lost. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  batchStartsMs,
  blockAt,
  campaignsOf,
  neighbourMs,
  toneOf,
  tonePaths,
} from '../../client/ribbon/blocks.ts';
import { bracketsOf, layLabels } from '../../client/ribbon/brackets.ts';
import { keyedBlockMs, keyedMs } from '../../client/ribbon/keys.ts';
import { crowdsOf, markWords } from '../../client/ribbon/marks.ts';
import { fitReadout, readoutAt } from '../../client/ribbon/readout.ts';
import { batchBlocks, views } from './fixture.ts';

const view = views.idle;
const { blocks, marks } = view.ribbon;

describe('labels under the ribbon', () => {
  const spansArb = fc
    .array(fc.tuple(fc.integer({ min: -400, max: 1500 }), fc.integer({ min: 1, max: 300 })), {
      maxLength: 30,
    })
    .map((raw) =>
      raw
        .map(([fromX, w]) => ({
          fromX,
          toX: fromX + w,
          texts: ['lot 111 · 10.05 t · emulsion · closed', 'lot 111 · 10.05 t', 'lot 111', '111'],
        }))
        .toSorted((a, b) => a.fromX - b.fromX),
    );

  it('never run into each other or out of the picture, however crowded', () => {
    fc.assert(
      fc.property(spansArb, (spans) => {
        const labels = layLabels(spans, 0, 1000, 12.5).filter((label) => label !== null);
        let endX = Number.NEGATIVE_INFINITY;
        for (const label of labels) {
          expect(label.x).toBeGreaterThan(endX);
          endX = label.x + label.widthPx;
          expect(endX).toBeLessThanOrEqual(1000);
        }
      }),
    );
  });

  it('are written in full when there is room, and shorter when there is not', () => {
    const texts = ['lot 7 · 10.1 t · emulsion · closed', 'lot 7', '7'];
    expect(layLabels([{ fromX: 0, toX: 60, texts }], 0, 600, 12.5)[0]?.text).toBe(texts[0]);
    const pair = [
      { fromX: 0, toX: 50, texts },
      { fromX: 60, toX: 400, texts },
    ];
    expect(layLabels(pair, 0, 600, 12.5)[0]?.text).toBe('lot 7');
  });
});

describe('brackets', () => {
  it('reach from the first batch of a lot to its last, an open lot to now', () => {
    const found = bracketsOf(view.lots, blocks, view.shift.atMs).filter((each) => each.kind === 'lot');
    expect(found.map((each) => each.id)).toEqual(['lot-111', 'lot-112', 'lot-113']);
    expect(found[0]?.fromMs).toBe(blocks.find((block) => block.batch === 1)?.fromMs);
    expect(found[0]?.toMs).toBe(blocks.findLast((block) => block.batch === 14)?.toMs);
    expect(found[2]?.toMs).toBe(view.shift.atMs);
  });

  it('leave out lots none of whose batches are in the ribbon', () => {
    expect(bracketsOf(view.lots, [], view.shift.atMs)).toEqual([]);
  });

  it('join purge, dry and cool to one campaign', () => {
    const campaign = campaignsOf(blocks, view.shift.atMs);
    expect(campaign).toHaveLength(1);
    expect(campaign[0]?.fromMs).toBe(blocks.find((block) => block.step === 'purge')?.fromMs);
    expect(campaign[0]?.toMs).toBe(blocks.find((block) => block.step === 'cool')?.toMs);
  });
});

describe('blocks', () => {
  it('are found by binary search exactly where a plain search finds them', () => {
    fc.assert(
      fc.property(fc.integer({ min: -1000, max: 8 * 3_600_000 }), (atMs) => {
        const plain =
          blocks.find((block) => atMs >= block.fromMs && atMs < (block.toMs ?? view.shift.atMs + 1)) ?? null;
        expect(blockAt(blocks, atMs, view.shift.atMs)).toBe(plain);
      }),
    );
  });

  it('become one path a tone with one rectangle a block', () => {
    const many = batchBlocks(0, 1, 167, [
      ['charge', 60],
      ['wet', 60],
      ['binder', 10],
      ['mix', 30],
      ['look', 10],
      ['discharge', 20],
    ]);
    const paths = tonePaths(many, 0.00005, 0, 30, 0);
    const drawn = [...paths.values()].join('').split('M').length - 1;
    expect(drawn).toBe(many.length);
    expect(paths.size).toBeLessThanOrEqual(7);
  });

  it('never vanish: the narrowest keeps a visible width', () => {
    const path = tonePaths([{ fromMs: 0, toMs: 1, step: 'mix', batch: 1 }], 1e-6, 0, 30, 0).get('mix');
    expect(path).toBe('M0 0h0.75v30h-0.75z');
  });

  it('leave idle time paper and give an unknown step a tone', () => {
    expect(toneOf('idle')).toBeNull();
    expect(toneOf('something new')).toBe('other');
  });

  it('are cut once a batch', () => {
    expect(batchStartsMs(blocks)).toHaveLength(37);
  });

  it('lead from one to the next', () => {
    const second = blocks[1]?.fromMs ?? 0;
    expect(neighbourMs(blocks, blocks[0]?.fromMs ?? 0, 1)).toBe(second);
    expect(neighbourMs(blocks, second, -1)).toBe(blocks[0]?.fromMs);
    expect(neighbourMs(blocks, -1, -1)).toBeNull();
  });
});

describe('marks', () => {
  it('share a place when crowded, the worst one showing, and none is lost', () => {
    const crowded = [
      { atMs: 0, mark: 'sample', text: 'sample' },
      { atMs: 1, mark: 'trip', text: 'trip' },
      { atMs: 2, mark: 'alarm', text: 'alarm' },
      { atMs: 5000, mark: 'refusal', text: 'refusal' },
    ] as const;
    const crowds = crowdsOf(crowded, 1000, 'event');
    expect(crowds.map((crowd) => crowd.kind)).toEqual(['trip', 'refusal']);
    expect(crowds.flatMap((crowd) => crowd.marks)).toHaveLength(4);
  });

  it('of what persons did stand in a row of their own', () => {
    expect(crowdsOf(marks, 1, 'person').every((crowd) => crowd.kind === 'person')).toBe(true);
    expect(crowdsOf(marks, 1, 'event').some((crowd) => crowd.kind === 'person')).toBe(false);
  });
});

describe('keys', () => {
  it('scrub by one second, ten with Shift, a minute by page, and to the ends', () => {
    expect(keyedMs('ArrowRight', false, 50_000, 99_000)).toBe(51_000);
    expect(keyedMs('ArrowDown', true, 50_000, 99_000)).toBe(40_000);
    expect(keyedMs('PageUp', false, 0, 99_000)).toBe(60_000);
    expect(keyedMs('End', false, 0, 99_000)).toBe(99_000);
    expect(keyedMs('x', false, 0, 99_000)).toBeNull();
  });

  it('read from block to block, and stay at the last one', () => {
    expect(keyedBlockMs('ArrowRight', blocks, 0, view.shift.atMs)).toBe(blocks[0]?.fromMs);
    const lastMs = blocks.at(-1)?.fromMs ?? 0;
    expect(keyedBlockMs('ArrowRight', blocks, lastMs, view.shift.atMs)).toBe(lastMs);
  });
});

describe('the readout', () => {
  const brackets = bracketsOf(view.lots, blocks, view.shift.atMs);
  const first = blocks[0] ?? { fromMs: 0, toMs: 0, step: '', batch: null };

  it('says batch, step, from, to, duration, lot and what is marked there', () => {
    const readout = readoutAt(view, brackets, first.fromMs + 1000, 30_000);
    expect(readout.time).toBe('06:09:01');
    expect(readout.block).toBe('Batch 1 · charge · 06:09:00–06:10:14 · 1:14');
    expect(readout.lot).toContain('lot 111');
    expect(readout.marks).toContain('A. Reed: start');
  });

  it('tells empty time from time still ahead', () => {
    expect(readoutAt(view, brackets, 0, 1).block).toBe('nothing running');
    expect(readoutAt(view, brackets, view.shift.atMs + 60_000, 1).block).toBe('still ahead');
  });

  it('keeps only what fits beside the buttons', () => {
    const readout = readoutAt(view, brackets, first.fromMs + 1000, 30_000);
    expect(fitReadout(readout, 2000).map((part) => part.kind)).toEqual(['block', 'marks', 'lot']);
    expect(fitReadout(readout, 420).map((part) => part.kind)).toEqual(['block']);
    expect(fitReadout(readout, 80)).toEqual([]);
  });
});

it('a refusal names its command in words, and any other mark stays as it is', () => {
  const at = { atMs: 0, mark: 'refusal' } as const;
  expect(markWords({ ...at, text: 'takeControls refused: You have the controls already.' })).toBe(
    'Refused to take the controls: You have the controls already.',
  );
  expect(markWords({ ...at, text: 'no such form' })).toBe('no such form');
  expect(markWords({ atMs: 0, mark: 'trip', text: 'dump refused: x' })).toBe('dump refused: x');
});
