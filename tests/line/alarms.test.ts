/** Alarms through their ISA-18.2 lives on a running line. */
import { describe, expect, it } from 'vitest';
import { viewOf } from '../../machines/world/world.ts';
import { seatedYard, type TestYard } from './yard.ts';

const stateOf = (yard: TestYard, id: string): string =>
  viewOf(yard.world).alarms.find((alarm) => alarm.id === id)?.state ?? 'normal';

const levelLost = (on: boolean) =>
  on
    ? ({ do: 'injectFault', target: { tag: 'bin1LevelPct', fault: 'dead', perHour: 0 } } as const)
    : ({ do: 'clearFault', target: { tag: 'bin1LevelPct' } } as const);

describe('an alarm', () => {
  it('is raised, acknowledged and returns to normal', () => {
    const yard = seatedYard('cutback-day').does(levelLost(true), 'trainer', 'console-3').run(5);
    expect(stateOf(yard, 'bin-1-low')).toBe('unacknowledged');
    yard.does({ do: 'acknowledge', alarm: 'bin-1-low' });
    expect(stateOf(yard, 'bin-1-low')).toBe('acknowledged');
    yard.does(levelLost(false), 'trainer', 'console-3').run(5);
    expect(stateOf(yard, 'bin-1-low')).toBe('normal');
    const told = yard.told('alarmChanged').filter((fact) => fact.alarm === 'bin-1-low');
    expect(told.map((fact) => fact.by?.person ?? null)).toEqual([null, 'wrenna', null]);
  });

  it('that went by itself still waits to be seen', () => {
    const yard = seatedYard('cutback-day').does(levelLost(true), 'trainer', 'console-3').run(5);
    yard.does(levelLost(false), 'trainer', 'console-3').run(5);
    expect(stateOf(yard, 'bin-1-low')).toBe('returned unacknowledged');
    yard.does({ do: 'acknowledge', alarm: 'bin-1-low' });
    expect(stateOf(yard, 'bin-1-low')).toBe('normal');
  });

  it('is shelved for a time with a reason, and comes back by itself', () => {
    const yard = seatedYard('cutback-day').does(levelLost(true), 'trainer', 'console-3').run(5);
    yard.does({ do: 'shelve', alarm: 'bin-1-low', minutes: 2, reason: 'fitter is at it' });
    expect(stateOf(yard, 'bin-1-low')).toBe('shelved');
    yard.run(118);
    expect(stateOf(yard, 'bin-1-low')).toBe('shelved');
    yard.run(4);
    expect(stateOf(yard, 'bin-1-low')).toBe('unacknowledged');
  });

  it('that protects people cannot be shelved or taken out of service', () => {
    const yard = seatedYard('cutback-day');
    const reason = 'it is a nuisance';
    expect(yard.refused({ do: 'shelve', alarm: 'interlock-tripped', minutes: 5, reason }).join()).toContain(
      'protects',
    );
    expect(yard.refused({ do: 'outOfService', alarm: 'vapour-high', reason })[0]).toContain('may not');
    expect(yard.refused({ do: 'acknowledge', alarm: 'no-such-thing' })[0]).toContain('no alarm called');
  });
});
