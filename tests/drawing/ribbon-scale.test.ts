/** Time to place on the shift ribbon and back, what is in sight, and its clock labels. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  clockAt,
  durationText,
  msAt,
  SHORTEST_SPAN_MS,
  stretchOf,
  ticksOf,
  xOf,
  zoomAbout,
} from '../../client/ribbon/scale.ts';

const HOUR_MS = 3_600_000;
const SHIFT_MS = 8 * HOUR_MS;

describe('time to place', () => {
  it('puts the middle of the shift in the middle', () => {
    const scale = { fromMs: 0, spanMs: SHIFT_MS, widthPx: 1400 };
    expect(xOf(scale, 4 * HOUR_MS)).toBe(700);
    expect(msAt(scale, 350)).toBe(2 * HOUR_MS);
  });

  it('comes back to the same moment from its place, in any window', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: SHIFT_MS }),
        fc.integer({ min: SHORTEST_SPAN_MS, max: SHIFT_MS }),
        fc.integer({ min: 50, max: 4000 }),
        fc.integer({ min: 0, max: SHIFT_MS }),
        (fromMs, spanMs, widthPx, atMs) => {
          const scale = { fromMs, spanMs, widthPx };
          expect(Math.abs(msAt(scale, xOf(scale, atMs)) - atMs)).toBeLessThan(0.01);
        },
      ),
    );
  });
});

describe('the stretch in sight', () => {
  it('is the whole shift when the window is as long', () => {
    expect(stretchOf({ spanMs: Number.POSITIVE_INFINITY, fromMs: null }, 0, SHIFT_MS)).toEqual({
      fromMs: 0,
      spanMs: SHIFT_MS,
    });
  });

  it('follows now with a little of what is ahead', () => {
    const { fromMs, spanMs } = stretchOf({ spanMs: HOUR_MS, fromMs: null }, 5 * HOUR_MS, SHIFT_MS);
    expect(5 * HOUR_MS).toBeGreaterThan(fromMs + 0.8 * spanMs);
    expect(5 * HOUR_MS).toBeLessThan(fromMs + spanMs);
  });

  it('never leaves the shift, and keeps the moment zoomed about in its place unless an end is met', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0.05, max: 20, noNaN: true }),
        (where, share, factor) => {
          const spanMs = SHORTEST_SPAN_MS + share * (SHIFT_MS - SHORTEST_SPAN_MS);
          const old = { fromMs: where * (SHIFT_MS - spanMs), spanMs };
          const aboutMs = old.fromMs + 0.3 * spanMs;
          const next = zoomAbout(old, aboutMs, factor, SHIFT_MS);
          expect(next.fromMs).toBeGreaterThanOrEqual(0);
          expect(next.fromMs + next.spanMs).toBeLessThanOrEqual(SHIFT_MS + 0.001);
          const isFree = next.fromMs > 1 && next.fromMs + next.spanMs < SHIFT_MS - 1;
          if (isFree) expect((aboutMs - next.fromMs) / next.spanMs).toBeCloseTo(0.3, 5);
        },
      ),
    );
  });
});

describe('clock labels', () => {
  it('stand at round times of day although the shift began at 05:50', () => {
    const scale = { fromMs: 0, spanMs: SHIFT_MS, widthPx: 700 };
    const ticks = ticksOf(scale, '05:50', 78);
    expect(ticks[0]?.label).toBe('06:00');
    expect(ticks.map((tick) => tick.label.slice(3))).toEqual(ticks.map(() => '00'));
  });

  it('are never closer than asked, at every zoom', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: SHORTEST_SPAN_MS, max: SHIFT_MS }),
        fc.integer({ min: 300, max: 2000 }),
        (spanMs, widthPx) => {
          const scale = { fromMs: 1_234_567, spanMs, widthPx };
          const xs = ticksOf(scale, '06:00', 78).map((tick) => xOf(scale, tick.atMs));
          for (let n = 1; n < xs.length; n++)
            expect((xs[n] as number) - (xs[n - 1] as number)).toBeGreaterThan(77.9);
        },
      ),
    );
  });

  it('pass midnight', () => {
    expect(clockAt('22:00', 3 * HOUR_MS, true)).toBe('01:00:00');
    expect(clockAt('06:00', 61_000, false)).toBe('06:01');
  });

  it('write durations as minutes and seconds, and hours when there are any', () => {
    expect(durationText(42_000)).toBe('0:42');
    expect(durationText(725_000)).toBe('12:05');
    expect(durationText(3_725_000)).toBe('1:02:05');
  });
});
