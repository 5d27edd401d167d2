/** Numbers and times as they stand on the screen. */
import { describe, expect, it } from 'vitest';
import {
  formatC,
  formatCountdown,
  formatDay,
  formatDayTime,
  formatKg,
  formatTonnes,
  formatWindow,
  keepUnits,
  plainDays,
  plural,
  share01,
  shiftClock,
  spokenDuration,
} from '../../client/format/format.ts';
import { batchRanges } from '../../client/lots/ranges.ts';

describe('times', () => {
  it.each([
    [0, '0:00'],
    [0.2, '0:01'],
    [9, '0:09'],
    [130, '2:10'],
    [3725, '62:05'],
    [-4, '0:00'],
  ])('%s s counts as %s', (seconds, text) => expect(formatCountdown(seconds)).toBe(text));

  it.each([
    [42, '42 s'],
    [60, '1 min'],
    [130, '2 min 10 s'],
    [5400, '1 h 30 min'],
  ])('%s s is said as %s', (seconds, text) => expect(spokenDuration(seconds)).toBe(text));

  it('days are written one way, also inside a sentence; numbers of lists and orders stay', () => {
    expect([
      formatDay('2026-04-14T11:02:00'),
      formatDayTime('2026-04-14T11:02:00'),
      formatDayTime('2026-04-14'),
    ]).toEqual(['14 Apr 2026', '14 Apr, 11:02', '14 Apr 2026']);
    expect(plainDays('PO-260517-1: needed by 2026-05-20, made 2026-05-19T08:30:00.')).toBe(
      'PO-260517-1: needed by 20 May 2026, made 19 May, 08:30.',
    );
    expect(plainDays('ticket TK-2026-05-20-7 of lot 260517-1')).toBe(
      'ticket TK-2026-05-20-7 of lot 260517-1',
    );
  });

  it('the shift clock runs from its start and past midnight', () => {
    expect(shiftClock('06:00', 18_866_000)).toBe('11:14:26');
    expect(shiftClock('22:30', 5_400_000, false)).toBe('00:00');
  });
});

describe('quantities', () => {
  it.each([
    [() => formatTonnes(6750), '6.75 t'],
    [() => formatTonnes(-2), '0.00 t'],
    [() => formatKg(748), '748'],
    [() => formatKg(51.5), '51.5'],
    [() => formatKg(-1.5), '−1.5'],
    [() => formatKg(-0.01), '0'],
    [() => formatC(-4.25), '−4.3 °C'],
    [() => formatWindow(25, 65), '25–65 °C'],
    [() => formatWindow(null, 65), '≤ 65 °C'],
    [() => formatWindow(75, null), '≥ 75 °C'],
    [() => formatWindow(null, null), ''],
    [() => plural(1, 'batch', 'batches'), '1 batch'],
    [() => plural(0, 'batch', 'batches'), '0 batches'],
    [() => keepUnits('at most 65 °C, 5 to go'), 'at most 65\u00a0°C, 5 to go'],
    [() => keepUnits('3 tests'), '3 tests'],
  ])('case %#', (say, text) => expect(say()).toBe(text));

  it('shares stay between nothing and all', () => {
    expect([share01(5, 10), share01(12, 10), share01(-1, 10), share01(1, 0)]).toEqual([0.5, 1, 0, 0]);
  });

  it('batch numbers are written as ranges', () => {
    expect(batchRanges([5, 1, 2, 3, 9, 10])).toBe('1–3, 5, 9–10');
    expect(batchRanges([])).toBe('');
  });
});
