/**
 * Alarm figures against sequences worked by hand. Floods: ISA-18.2 (seen in a summary), more than 10 alarms in
 * 10 minutes to start, fewer than 5 in 10 minutes to end. Rates: EEMUA 191 and ISA-18.2 Table 7 (from memory).
 */
import { describe, expect, it } from 'vitest';
import {
  chatteringOf,
  fleetingOf,
  floodsOf,
  histogramOf,
  peakIn,
  type Raised,
  raisedOf,
} from '../../machines/reports/alarm-figures.ts';
import { makeReport } from '../../machines/reports/report.ts';
import { raise, settle, shiftOf, sourceOf, type Told, WRENNA } from './support/shift.ts';

const every = (stepS: number, times: number, fromS = 0): number[] =>
  Array.from({ length: times }, (_, i) => fromS + i * stepS);

describe('floods (ISA-18.2)', () => {
  it('ten alarms in ten minutes are none, the eleventh starts one', () => {
    expect(floodsOf(every(59, 10), 28_800)).toEqual([]);
    // Moments 0, 59 … 590: at 590 eleven lie in the ten minutes. Four are left when the seventh, at 354, leaves: 954.
    expect(floodsOf(every(59, 11), 28_800)).toEqual([{ fromS: 590, toS: 954, alarms: 11, peak: 11 }]);
  });

  it('one alarm a minute never reaches eleven in ten minutes', () => {
    expect(floodsOf(every(60, 200), 28_800)).toEqual([]);
  });

  it('eleven at once start at that moment and end when ten minutes are over', () => {
    expect(floodsOf(every(0, 11, 100), 28_800)).toEqual([{ fromS: 100, toS: 700, alarms: 11, peak: 11 }]);
  });

  it('goes on while five or more lie in any ten minutes, and counts them', () => {
    // Eleven at 0, then one every 120 s up to 960: from 600 on five lie in the window, which is not fewer than five.
    // The most lie there at 480: eleven and four. The fifth from the end, at 480, leaves at 1080: four are left.
    const times = [...every(0, 11), ...every(120, 8, 120)];
    expect(floodsOf(times, 28_800)).toEqual([{ fromS: 0, toS: 1080, alarms: 19, peak: 15 }]);
  });

  it('is over as soon as four are left, although alarms still come', () => {
    // One every 150 s: when the eleven leave at 600, only 150, 300, 450 and 600 lie in the window.
    expect(floodsOf([...every(0, 11), ...every(150, 8, 150)], 28_800)).toMatchObject([
      { fromS: 0, toS: 600, peak: 14 },
    ]);
  });

  it('two floods far apart are two, and their alarms are counted once', () => {
    const floods = floodsOf([...every(10, 12), ...every(10, 12, 5000)], 28_800);
    expect(floods.map(({ fromS, alarms }) => [fromS, alarms])).toEqual([
      [100, 12],
      [5100, 12],
    ]);
  });

  it('one that stands at the end of the shift ends there', () => {
    expect(floodsOf(every(1, 11, 1000), 1200)).toEqual([{ fromS: 1010, toS: 1200, alarms: 11, peak: 11 }]);
  });
});

describe('rates', () => {
  it('the most in any ten minutes slides, it is no count by the clock', () => {
    // Six before and six after the full ten minutes: twelve in a sliding window, six in each fixed one.
    const times = [...every(10, 6, 540), ...every(10, 6, 600)];
    expect(peakIn(times, 600)).toEqual({ count: 12, atS: 650 });
    expect(histogramOf(times, 600, 1200)).toEqual([6, 6]);
  });

  it('a window reaches back ten minutes and no further', () => {
    expect(peakIn([0, 600], 600).count).toBe(1);
    expect(peakIn([0, 599.9], 600).count).toBe(2);
  });
});

describe('what counts as an alarm', () => {
  it('every entry into unacknowledged does, a re-alarm too; shelving ends its standing', () => {
    const raised = raisedOf([
      { alarm: 'a', atS: 10, state: 'unacknowledged' },
      { alarm: 'a', atS: 15, state: 'acknowledged' },
      { alarm: 'a', atS: 40, state: 'normal' },
      { alarm: 'a', atS: 50, state: 'unacknowledged' },
      { alarm: 'a', atS: 60, state: 'returned unacknowledged' },
      { alarm: 'a', atS: 61, state: 'unacknowledged' },
      { alarm: 'a', atS: 70, state: 'shelved' },
      { alarm: 'b', atS: 80, state: 'unacknowledged' },
    ]);
    expect(raised).toEqual([
      { alarm: 'a', atS: 10, goneS: 40, acknowledgedS: 15 },
      { alarm: 'a', atS: 50, goneS: 60, acknowledgedS: null },
      { alarm: 'a', atS: 61, goneS: 70, acknowledgedS: null },
      { alarm: 'b', atS: 80, goneS: null, acknowledgedS: null },
    ]);
  });

  const run = (alarm: string, atS: number, goneS: number, acknowledgedS: number | null = null): Raised => ({
    alarm,
    atS,
    goneS,
    acknowledgedS,
  });

  it('three times within a minute is chattering, three in 61 s is not (ISA-18.2, from memory)', () => {
    expect(chatteringOf([run('a', 0, 5), run('a', 30, 35), run('a', 60, 65)])).toEqual([
      { alarm: 'a', times: 3 },
    ]);
    expect(chatteringOf([run('a', 0, 5), run('a', 30, 35), run('a', 61, 65)])).toEqual([]);
    expect(chatteringOf([run('a', 0, 5), run('b', 1, 5), run('a', 2, 5)])).toEqual([]);
  });

  it('gone within ten seconds unacknowledged is fleeting, unless it chatters (common practice, no source)', () => {
    expect(fleetingOf([run('a', 0, 9.9), run('a', 500, 510), run('a', 900, 905, 902)])).toEqual([
      { alarm: 'a', times: 1 },
    ]);
    expect(fleetingOf([run('a', 0, 1), run('a', 2, 3), run('a', 4, 5)])).toEqual([]);
  });
});

describe('the report', () => {
  const told: Told[] = [
    ...Array.from({ length: 12 }, (_, i) => raise(3600 + i * 30, 'step-slow')),
    settle(4000, 'step-slow', 'acknowledged', WRENNA),
    settle(8000, 'step-slow', 'normal'),
    raise(9000, 'interlock-tripped'),
    [28_800, { is: 'shiftEnded', by: WRENNA }],
  ];
  const made = makeReport('alarms', sourceOf(shiftOf(told)), {});
  if (!made.ok || made.report.kind !== 'alarms') throw new Error('no alarm report');
  const { report } = made;
  const figure = (id: string) => report.figures.find((one) => one.id === id);

  it('works out the rates over the running time', () => {
    expect(report.alarms).toBe(13);
    expect(report.runS).toBe(28_800);
    // 13 in 8 h: 1.625 in an hour, 39 in 24 h, 0.27 in ten minutes.
    expect(figure('avgPerHourEemua')).toMatchObject({ value: 1.63, within: true });
    expect(figure('perDayIsa')).toMatchObject({ value: 39, within: true });
    expect(figure('avgPerTenMin')).toMatchObject({ value: 0.27, within: true });
    expect(figure('peakPerTenMin')).toMatchObject({ value: 12, within: false });
    expect(figure('peakPerHour')).toMatchObject({ value: 12, within: true });
  });

  it('finds the flood: from the eleventh, at 3900 s, until four are left, at 3810 + 600 s', () => {
    expect(report.floods).toMatchObject([
      { fromS: 3900, toS: 4410, from: '2026-04-14 07:05:00', alarms: 12 },
    ]);
    // 510 s of 28 800 s.
    expect(figure('timeInFlood')).toMatchObject({ value: 1.77, within: false });
  });

  it('says how long each stood, who of them chatters, and how they spread', () => {
    expect(report.byAlarm[0]).toMatchObject({
      alarm: 'step-slow',
      times: 12,
      chattering: 12,
      longestS: 4070,
    });
    expect(report.byAlarm[1]).toMatchObject({ alarm: 'interlock-tripped', standing: true, stoodS: 19_800 });
    expect(report.priorities.map((one) => [one.priority, one.pct])).toEqual([
      ['high', 7.7],
      ['medium', 92.3],
      ['low', 0],
    ]);
  });

  it('names source and status beside every published figure', () => {
    for (const one of report.figures) {
      expect(one.source).toMatch(/ISA-18\.2|EEMUA 191/);
      expect(['seen in a summary', 'from memory', 'common practice, no source']).toContain(one.status);
    }
  });

  it('adds shifts up and lets no flood run from one into the next', () => {
    const half = (alarms: number): Told[] => [
      ...Array.from({ length: alarms }, (_, i) => raise(28_700 + i, 'step-slow')),
      [28_800, { is: 'shiftEnded', by: WRENNA }],
    ];
    const two = makeReport('alarms', sourceOf(shiftOf(half(8)), shiftOf(half(8), { shift: 99 })), {});
    expect(two).toMatchObject({ ok: true, report: { alarms: 16, runS: 57_600, floods: [] } });
  });
});
