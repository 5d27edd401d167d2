/** Counts as bars: alarms in each ten minutes, the most frequent, refusals along the shift. */

import { FLOOD } from '../alarm-published.ts';
import {
  clockTicks,
  line,
  mark,
  PICTURE_W,
  type Picture,
  rect,
  type Shape,
  text,
  ticksOf,
} from '../picture.ts';

const LEFT = 28;
const RIGHT = 96;

export type Histogram = {
  readonly name: string;
  readonly date: string;
  readonly startsAt: string;
  readonly counts: readonly number[];
};

/** Alarms in each 10 minutes of one shift, with the lines they are held against. */
export const histogramPicture = ({ name, date, startsAt, counts }: Histogram): Picture => {
  const h = 104;
  const top = 14;
  const plotW = PICTURE_W - LEFT - RIGHT;
  const plotH = h - top - 16;
  const most = Math.max(FLOOD.startsAbove + 2, ...counts);
  const toS = counts.length * FLOOD.windowS;
  const x = (atS: number): number => LEFT + (atS / toS) * plotW;
  const y = (n: number): number => top + (1 - n / most) * plotH;
  const shapes: Shape[] = [text(LEFT, 8, `${name}, ${date}`, { size: 8, tone: 'ink' })];
  counts.forEach((n, i) => {
    if (n === 0) return;
    const w = plotW / counts.length;
    shapes.push(
      rect(
        LEFT + i * w + 0.4,
        y(n),
        Math.max(0.6, w - 0.8),
        top + plotH - y(n),
        n > FLOOD.startsAbove ? 'warn' : 'mark',
      ),
    );
  });
  for (const [n, words] of [
    [FLOOD.startsAbove, `${FLOOD.startsAbove}: flood above`],
    [1, '1: steady running'],
  ] as const) {
    shapes.push(
      line(
        [
          [LEFT, y(n)],
          [LEFT + plotW, y(n)],
        ],
        'ink',
        0.6,
        [3, 2],
      ),
    );
    shapes.push(text(LEFT + plotW + 5, y(n) + 2.5, words, { size: 7 }));
  }
  for (const tick of ticksOf(0, most, 4))
    shapes.push(text(LEFT - 5, y(tick) + 2.5, String(tick), { size: 7, anchor: 'end' }));
  for (const tick of clockTicks(startsAt, 0, toS, 9)) {
    shapes.push(
      line(
        [
          [x(tick.atS), top + plotH],
          [x(tick.atS), top + plotH + 3],
        ],
        'edge',
      ),
    );
    shapes.push(text(x(tick.atS), top + plotH + 11, tick.words, { size: 7, anchor: 'middle' }));
  }
  shapes.push(
    line(
      [
        [LEFT, top + plotH],
        [LEFT + plotW, top + plotH],
      ],
      'edge',
      0.8,
    ),
  );
  const worst = Math.max(0, ...counts);
  return {
    w: PICTURE_W,
    h,
    alt: `Alarms in each 10 minutes of ${name}, ${date}: at most ${worst}; ${counts.filter((n) => n > FLOOD.startsAbove).length} of ${counts.length} above ${FLOOD.startsAbove}.`,
    shapes,
  };
};

/** The same over many shifts: a bar a shift. */
export const perShiftPicture = (histograms: readonly Histogram[]): Picture =>
  barsPicture(
    histograms.map(({ name, date, counts }) => ({
      words: `${date} ${name}`,
      value: counts.reduce((sum, n) => sum + n, 0),
    })),
    'Alarms of each shift',
  );

const BAR_H = 14;

/** Words and a bar each. */
export const barsPicture = (
  rows: readonly { readonly words: string; readonly value: number }[],
  what: string,
): Picture => {
  const most = Math.max(1, ...rows.map((row) => row.value));
  const x0 = 230;
  const shapes: Shape[] = rows.flatMap((row, i) => [
    text(0, i * BAR_H + 10, row.words.length > 52 ? `${row.words.slice(0, 51)}…` : row.words, {
      size: 8,
      tone: 'ink',
    }),
    rect(x0, i * BAR_H + 3, Math.max(0.6, (row.value / most) * (PICTURE_W - x0 - 40)), 8, 'mark'),
    text(x0 + (row.value / most) * (PICTURE_W - x0 - 40) + 5, i * BAR_H + 10, String(row.value), {
      size: 8,
      tone: 'ink',
    }),
  ]);
  return {
    w: PICTURE_W,
    h: Math.max(1, rows.length) * BAR_H + 2,
    alt: `${what}: ${rows.map((row) => `${row.words} ${row.value}`).join('; ') || 'none'}.`,
    shapes,
  };
};

export type RefusedShift = {
  readonly name: string;
  readonly date: string;
  readonly startsAt: string;
  readonly toS: number;
  readonly refusedS: readonly number[];
  readonly trips: readonly { readonly fromS: number; readonly toS: number }[];
};

const SHIFT_H = 54;

/** Refusals and trips along each shift. */
export const refusalsPicture = (shifts: readonly RefusedShift[]): Picture => {
  const shapes: Shape[] = [];
  shifts.forEach((shift, i) => {
    const top = i * SHIFT_H;
    const y = top + 33;
    const x = (atS: number): number => (atS / Math.max(1, shift.toS)) * PICTURE_W;
    shapes.push(text(0, top + 9, `${shift.date} ${shift.name}`, { size: 8, tone: 'ink' }));
    shapes.push(rect(0, y - 5, PICTURE_W, 10, 'raised'));
    for (const trip of shift.trips)
      shapes.push(rect(x(trip.fromS), y - 7, Math.max(1, x(trip.toS) - x(trip.fromS)), 14, 'trip'));
    shapes.push({ is: 'rect', x: 0, y: y - 5, w: PICTURE_W, h: 10, tone: 'edge', bare: true });
    for (const atS of shift.refusedS) shapes.push(mark('triangle', x(atS), y - 12, 3, 'warn'));
    for (const tick of clockTicks(shift.startsAt, 0, shift.toS, 13)) {
      const at = x(tick.atS);
      if (at > 12 && at < PICTURE_W - 12)
        shapes.push(text(at, y + 14, tick.words, { size: 7, anchor: 'middle' }));
    }
  });
  const legendY = shifts.length * SHIFT_H + 4;
  shapes.push(mark('triangle', 4, legendY, 3, 'warn'), text(11, legendY + 3, 'refused', { size: 7 }));
  shapes.push(
    rect(52, legendY - 4, 8, 8, 'trip'),
    text(64, legendY + 3, 'tripped, until reset', { size: 7 }),
  );
  return {
    w: PICTURE_W,
    h: legendY + 8,
    alt: shifts
      .map(
        (shift) =>
          `${shift.date} ${shift.name}: ${shift.refusedS.length} refusals, ${shift.trips.length} trips`,
      )
      .join('; '),
    shapes,
  };
};
