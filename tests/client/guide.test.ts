/** The guide follows what the line says, and its card stays in the window beside what it points at. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ownBatchDone } from '../../client/guide/guide-state.ts';
import { type GuideSight, guidePlace, guideStep } from '../../client/guide/guide-steps.ts';
import { placeCard } from '../../client/guide/place.ts';
import type { LineView } from '../../machines/line/view.types.ts';
import { emulsion, emulsionSteps, fresh, look, ORDERS } from './fixture/views.ts';

const me = { id: 'ada', name: 'Ada Reed', role: 'operator' } as const;
const at = (view: LineView, more: Partial<GuideSight> = {}) =>
  guideStep({ me, mine: true, view, ownBatch: false, ...more });

describe('the step of the guide', () => {
  it('goes from person to controls to order to start', () => {
    expect(at(fresh, { me: null, mine: false })).toBe('who');
    expect(at(fresh, { me: { ...me, role: 'auditor' }, mine: false })).toBe('who');
    expect(at(fresh, { mine: false })).toBe('take');
    expect(at(fresh)).toBe('order');
    const cutback = ORDERS.map((order) => ({ ...order, chosen: order.family === 'cutback' }));
    expect(at({ ...fresh, orders: cutback })).toBe('order');
    expect(at({ ...fresh, orders: ORDERS })).toBe('start');
  });

  it('watches, looks, and sees the batch into the lot', () => {
    expect(at(emulsion, {})).toBe('look');
    const mixing = { ...emulsion, now: { ...emulsion.now, actions: [] } };
    expect(at(mixing)).toBe('watch');
    expect(at(look)).toBe('look');
    expect(at({ ...mixing, now: { ...mixing.now, steps: emulsionSteps(5) } })).toBe('lot');
  });

  it('is done once a batch of its own is done, whoever has the controls by then', () => {
    expect(at(fresh, { ownBatch: true, mine: false })).toBe('done');
  });

  it('offers to watch or to take over while someone else leads a batch', () => {
    const led = { ...emulsion, seat: { ...emulsion.seat, standIn: 'good' as const } };
    expect(at(led, { mine: false })).toBe('standIn');
    const holder = { person: 'milo', name: 'Milo Oakes', role: 'supervisor', console: 'other' } as const;
    expect(at({ ...emulsion, seat: { ...emulsion.seat, holder } }, { mine: false })).toBe('others');
    expect([guidePlace('take'), guidePlace('standIn'), guidePlace('others')]).toEqual([2, 2, 2]);
  });
});

describe('a batch of one’s own', () => {
  const holder = { person: 'ada', name: 'Ada Reed', role: 'operator', console: 'here' } as const;
  const seat = { holder, askedBy: null, standIn: null };
  const before = { shift: fresh.shift, seat };
  const more = { ...fresh.shift, batchesDone: fresh.shift.batchesDone + 1 };
  it('counts only when this console ran the line as it went into its lot', () => {
    expect(ownBatchDone(before, { shift: more, seat }, 'here')).toBe(true);
    expect(ownBatchDone(before, { shift: fresh.shift, seat }, 'here')).toBe(false);
    expect(ownBatchDone(before, { shift: more, seat }, 'elsewhere')).toBe(false);
    expect(ownBatchDone(before, { shift: more, seat: { ...seat, standIn: 'good' } }, 'here')).toBe(false);
    expect(ownBatchDone(before, { shift: { ...more, id: 'another' }, seat }, 'here')).toBe(false);
  });
});

describe('the card', () => {
  const px = (max: number) => fc.integer({ min: 0, max });
  it('lies wholly in the window, and over its target only when there is no room beside it', () => {
    fc.assert(
      fc.property(
        px(1400),
        px(1100),
        px(600),
        px(400),
        fc.constantFrom([1440, 900], [820, 1180]),
        (left, top, width, height, size) => {
          const [w = 0, h = 0] = size;
          const target = { left: Math.min(left, w - 10), top: Math.min(top, h - 10), width, height };
          const card = { width: 320, height: 190 };
          const placed = placeCard(target, card, { width: w, height: h });
          expect(placed.left).toBeGreaterThanOrEqual(0);
          expect(placed.top).toBeGreaterThanOrEqual(0);
          expect(placed.left + card.width).toBeLessThanOrEqual(w);
          expect(placed.top + card.height).toBeLessThanOrEqual(h);
          const apart =
            placed.left >= target.left + width ||
            placed.left + card.width <= target.left ||
            placed.top >= target.top + height ||
            placed.top + card.height <= target.top;
          expect(apart || placed.side === 'over').toBe(true);
        },
      ),
    );
  });
});
