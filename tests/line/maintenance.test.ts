/** Upkeep on a whole line: proof tests, inhibits with a second person, calibration, hot work. */
import { describe, expect, it } from 'vitest';
import { alarmState } from '../../machines/charts/alarm/alarm.guards.ts';
import { CAUSE_IDS } from '../../machines/charts/flame-interlock/flame-interlock.causes.ts';
import { INHIBITABLE } from '../../machines/charts/flame-interlock/flame-interlock.upkeep.ts';
import { dateOfDay, dayNumber, daysAfter } from '../../machines/line/days.ts';
import { viewLine } from '../../machines/line/view.ts';
import { scenarioOf, seatedYard, TestYard } from './yard.ts';

const supervisor = ['supervisor', 'console-2'] as const;
const alarm = (yard: TestYard, id: string) => alarmState(yard.value(`alarm:${id}`) as never);
const refused = (answer: unknown): string =>
  (answer as { ok: boolean; because?: string[] }).because?.join(' ') ?? 'accepted';

describe('dates without a clock', () => {
  it('agree with the calendar: leap days, ends of months, both ways over 800 years', () => {
    expect(dayNumber('1970-01-01')).toBe(0);
    expect(dayNumber('2000-03-01')).toBe(11_017);
    for (let day = -146_097; day < 146_097; day += 173)
      expect(dateOfDay(day)).toBe(new Date(day * 86_400_000).toISOString().slice(0, 10));
    expect(daysAfter('2028-02-28', 1)).toBe('2028-02-29');
    expect(daysAfter('2026-12-31', 183)).toBe('2027-07-02');
  });
});

describe('proof tests', () => {
  it('start from the round of the plant file and the tests the shift file carries on', () => {
    const yard = new TestYard(
      scenarioOf('cutback-day', {
        proofs: [{ cause: 'FT-07', on: '2026-05-01', result: 'failed', by: 'ida' }],
      }),
    );
    const { proofs, overdue } = viewLine(yard.line).maintenance;
    expect(proofs.map((one) => one.cause)).toEqual(CAUSE_IDS);
    expect(proofs.find((one) => one.cause === 'FI-01')).toMatchObject({
      last: { on: '2026-02-02', result: 'passed' },
      dueOn: '2026-08-04',
      standing: 'proved',
    });
    expect(proofs.find((one) => one.cause === 'FT-07')?.standing).toBe('failed');
    expect(overdue).toBe(0);
    yard.run(2);
    expect(alarm(yard, 'proof-failed')).toBe('unacknowledged');
  });

  it('fall overdue by the date, raise an alarm, and are put right by proving', () => {
    const yard = seatedYard('cutback-day', { date: '2026-08-20' });
    yard.run(2);
    expect(viewLine(yard.line).maintenance.overdue).toBeGreaterThan(10);
    expect(alarm(yard, 'proof-overdue')).toBe('unacknowledged');
    for (const proof of viewLine(yard.line).maintenance.proofs)
      if (proof.standing === 'overdue')
        yard.does({ do: 'proveCause', cause: proof.cause, result: 'passed', remark: '' });
    yard.run(2);
    expect(viewLine(yard.line).maintenance.overdue).toBe(0);
    expect(alarm(yard, 'proof-overdue')).toBe('returned unacknowledged');
    expect(yard.told('causeProved')[0]).toMatchObject({ on: '2026-08-20', result: 'passed' });
  });

  it('a plant file without a round of tests counts nothing as proved: no flame, no cutback until it is calibrated', () => {
    const scenario = scenarioOf('cutback-day');
    const { maintenance: _none, ...plant } = scenario.plant;
    const yard = new TestYard({ ...scenario, plant });
    yard.run(2);
    expect(yard.line.signals.detectorCalibrated).toBe(false);
    expect(viewLine(yard.line).maintenance.proofs[0]?.standing).toBe('no record');
  });

  it('an unknown cause is refused with words', () => {
    const yard = seatedYard('cutback-day');
    expect(refused(yard.give({ do: 'proveCause', cause: 'FI-99', result: 'passed', remark: '' }))).toMatch(
      /no cause called FI-99/,
    );
  });
});

describe('calibration of the vapour detector', () => {
  it('past its date, no flame is lit and the words say what to do; its proof test puts it right', () => {
    const yard = seatedYard('cutback-day', { date: '2026-08-20' });
    yard.does({ do: 'startCampaign', batches: 1 }).does({ do: 'acknowledgeCautions' });
    expect(refused(yard.give({ do: 'lightBurner' }))).toMatch(/FI-20.*out of calibration.*test gas/);
    expect(alarm(yard, 'calibration-out')).toBe('unacknowledged');
    yard.does({ do: 'proveCause', cause: 'FI-20', result: 'passed', remark: 'test gas 50 %' });
    yard.does({ do: 'lightBurner' });
  });

  it('a detector that drifts upwards in clean air is found out, and calibrating takes the drift off', () => {
    const yard = seatedYard('emulsion-day');
    yard.does(
      { do: 'injectFault', target: { tag: 'vapourLelPct', fault: 'drift', perHour: 60 } },
      'trainer',
      'console-3',
    );
    yard.until((line) => line.maintenance.drift !== null, 10);
    expect(yard.line.signals.detectorCalibrated).toBe(false);
    expect(yard.told('calibrationLost')[0]?.why).toMatch(/clean air/);
    yard.does({ do: 'proveCause', cause: 'FI-20', result: 'passed', remark: '' }).run(130);
    expect(yard.line.readings.vapourLelPct).toBeLessThan(1);
    expect(yard.line.signals.detectorCalibrated).toBe(true);
  });

  it('failed, it stays out of calibration', () => {
    const yard = seatedYard('emulsion-day');
    yard.does({ do: 'proveCause', cause: 'FI-20', result: 'failed', remark: 'reads half' }).run(1);
    expect(yard.line.signals.detectorCalibrated).toBe(false);
  });
});

describe('inhibits', () => {
  it('are refused with words for every cause the table does not name, whoever asks', () => {
    const yard = seatedYard('cutback-day');
    for (const cause of CAUSE_IDS) {
      if (INHIBITABLE.includes(cause)) continue;
      expect(
        refused(yard.give({ do: 'inhibitCause', cause, minutes: 5, reason: 'just this once' })),
        cause,
      ).toMatch(/can never be inhibited, by anyone/);
    }
  });

  it('need a second person, hold for their time alone, and show a banner meanwhile', () => {
    const scenario = scenarioOf('emulsion-day');
    const { emulsion } = scenario.plant.tanks;
    const tanks = { ...scenario.plant.tanks, emulsion: { ...emulsion, startMassKg: 1500 } };
    const yard = new TestYard({ ...scenario, plant: { ...scenario.plant, tanks } });
    yard.does({ do: 'takeControls' }).run(1);
    expect(yard.line.signals.emulsionCovered).toBe(false);
    yard.does({ do: 'inhibitCause', cause: 'TE-01', minutes: 2, reason: 'level gauge test' }).run(1);
    expect(yard.line.signals.emulsionCovered).toBe(false);
    expect(refused(yard.give({ do: 'confirmInhibit', cause: 'TE-01' }))).toMatch(/second person/);
    yard.does({ do: 'confirmInhibit', cause: 'TE-01' }, ...supervisor).run(1);
    expect(yard.line.signals.emulsionCovered).toBe(true);
    expect(viewLine(yard.line).maintenance.banner.join()).toMatch(/TE-01 is inhibited.*level gauge test/);
    expect(alarm(yard, 'cause-inhibited')).toBe('unacknowledged');
    yard.run(121);
    expect(yard.line.signals.emulsionCovered).toBe(false);
    expect(viewLine(yard.line).maintenance.banner).toEqual([]);
    expect(yard.told('inhibitEnded')[0]?.why).toBe('its time was up');
  });

  it('are no longer than the table allows, and can be lifted early', () => {
    const yard = seatedYard('emulsion-day');
    expect(
      refused(yard.give({ do: 'inhibitCause', cause: 'TE-05', minutes: 60, reason: 'long test' })),
    ).toMatch(/30 minutes at most/);
    yard.does({ do: 'inhibitCause', cause: 'TE-05', minutes: 10, reason: 'short test' });
    yard.does({ do: 'confirmInhibit', cause: 'TE-05' }, ...supervisor);
    yard.does({ do: 'liftInhibit', cause: 'TE-05' }).run(1);
    expect(viewLine(yard.line).maintenance.proofs.find((one) => one.cause === 'TE-05')?.inhibit).toBeNull();
  });
});

describe('hot work', () => {
  const open = { do: 'openHotWork', where: 'belt frame', reason: 'weld a bracket', minutes: 5 } as const;

  it('while its permit is open no tank is heated and no cutback goes anywhere; it holds past its time until closed', () => {
    const yard = seatedYard('cutback-day');
    yard.does(open, ...supervisor).run(1);
    const { causes, permits, tanks } = viewLine(yard.line);
    expect(causes.holding).toEqual(expect.arrayContaining(['FI-21', 'TE-09', 'TC-09']));
    expect(permits[0]).toMatchObject({ n: 1, where: 'belt frame', over: false });
    expect(tanks.every((one) => !one.mayHeat)).toBe(true);
    yard.run(301);
    expect(alarm(yard, 'hot-work-over')).toBe('unacknowledged');
    expect(viewLine(yard.line).permits[0]?.over).toBe(true);
    expect(yard.line.signals.hotWorkOpen).toBe(true);
    yard.does({ do: 'closeHotWork' }).run(1);
    expect(viewLine(yard.line).causes.holding).not.toContain('FI-21');
    expect(viewLine(yard.line).permits).toEqual([]);
  });

  it('is not permitted twice, nor by an operator', () => {
    const yard = seatedYard('cutback-day');
    expect(refused(yard.give(open))).toMatch(/may not do this/);
    yard.does(open, ...supervisor);
    expect(refused(yard.give(open, ...supervisor))).toMatch(/permit 1 is open/);
  });
});
