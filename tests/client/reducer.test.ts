/** What the console makes of what it hears: order, gaps, the tail of the ribbon, and what is kept as it was. */
import { describe, expect, it } from 'vitest';
import { foldRibbon, hear, type Live, NOTHING_YET } from '../../client/live/reducer.ts';
import type { RibbonBlock, RibbonView } from '../../machines/line/view.types.ts';
import type { Change, RunView } from '../../machines/live/protocol.ts';
import { emulsion, idle } from './fixture/views.ts';

const RUN: RunView = { simulated: true, speed: 1, paused: false, seq: 1, head: 'a', trouble: null };
const stated = (n = 7): Live => hear(NOTHING_YET, { heard: 'state', state: { n, view: emulsion, run: RUN } });
const change = (n: number, more: Partial<Change> = {}): Change => ({
  n,
  sections: {},
  ribbon: null,
  run: null,
  ...more,
});
const hearChange = (live: Live, said: Change): Live => hear(live, { heard: 'change', change: said });
const block = (fromMs: number, toMs: number | null = fromMs + 1): RibbonBlock => ({
  fromMs,
  toMs,
  step: 'mix',
  batch: 1,
});

describe('changes', () => {
  it('the next change replaces the sections it names and no other', () => {
    const live = stated();
    const next = hearChange(live, change(8, { sections: { now: idle.now } }));
    expect(next.view?.now).toEqual(idle.now);
    expect(next.view?.plant).toBe(live.view?.plant);
    expect(next.view?.ribbon).toBe(live.view?.ribbon);
    expect(next.n).toBe(8);
  });

  it('a skipped number is a gap: nothing is taken in until the whole state comes again', () => {
    const gap = hearChange(stated(), change(9, { sections: { now: idle.now } }));
    expect(gap.gap).toBe(true);
    expect(gap.view?.now).toEqual(emulsion.now);
    const still = hearChange(gap, change(8, { sections: { now: idle.now } }));
    expect(still).toBe(gap);
    const mended = hear(gap, { heard: 'state', state: { n: 12, view: idle, run: RUN } });
    expect(mended.gap).toBe(false);
    expect(mended.n).toBe(12);
    expect(mended.view?.now).toEqual(idle.now);
  });

  it('a change that is old or comes twice is left out', () => {
    const live = stated();
    expect(hearChange(live, change(7, { sections: { now: idle.now } }))).toBe(live);
    expect(hearChange(live, change(3))).toBe(live);
  });

  it('a change before the first state is left out', () => {
    expect(hearChange(NOTHING_YET, change(0))).toBe(NOTHING_YET);
  });

  it('a section that says the same again stays the same object', () => {
    const live = stated();
    const copy = structuredClone(emulsion.now);
    const next = hearChange(live, change(8, { sections: { now: copy } }));
    expect(next.view).toBe(live.view);
    const moved = hearChange(next, change(9, { sections: { now: { ...copy, title: 'Something else' } } }));
    expect(moved.view?.now).not.toBe(live.view?.now);
    expect(moved.view?.now.actions).toBe(live.view?.now.actions);
  });
});

describe('the ribbon', () => {
  const ribbon: RibbonView = {
    blocks: [block(0), block(1), block(2, null)],
    marks: [{ atMs: 0, mark: 'person', text: 'here' }],
  };

  it('keeps the head, replaces the tail', () => {
    const next = foldRibbon(ribbon, {
      keepBlocks: 2,
      blocks: [block(2, 5), block(5, null)],
      keepMarks: 1,
      marks: [],
    });
    expect(next?.blocks.map((each) => [each.fromMs, each.toMs])).toEqual([
      [0, 1],
      [1, 2],
      [2, 5],
      [5, null],
    ]);
    expect(next?.marks).toEqual(ribbon.marks);
  });

  it('a tail that builds on blocks or marks the console does not have is a gap', () => {
    expect(foldRibbon(ribbon, { keepBlocks: 4, blocks: [], keepMarks: 0, marks: [] })).toBeNull();
    expect(foldRibbon(ribbon, { keepBlocks: 0, blocks: [], keepMarks: 2, marks: [] })).toBeNull();
    const live = hearChange(
      stated(),
      change(8, { ribbon: { keepBlocks: 100_000, blocks: [], keepMarks: 0, marks: [] } }),
    );
    expect(live.gap).toBe(true);
  });
});

describe('the link', () => {
  it('is lost only after something was seen, keeps what was seen, and is live with the next state', () => {
    expect(hear(NOTHING_YET, { heard: 'linkDown' }).link).toBe('connecting');
    const lost = hear(stated(), { heard: 'linkDown' });
    expect(lost.link).toBe('lost');
    expect(lost.view).not.toBeNull();
    expect(hear(lost, { heard: 'linkUp' }).link).toBe('lost');
    expect(hear(lost, { heard: 'state', state: { n: 0, view: emulsion, run: RUN } }).link).toBe('live');
  });

  it('a server that counts from zero again is believed', () => {
    const again = hear(stated(700), { heard: 'state', state: { n: 0, view: idle, run: RUN } });
    expect(again.n).toBe(0);
    expect(hearChange(again, change(1, { run: { ...RUN, speed: 60 } })).run?.speed).toBe(60);
  });
});
