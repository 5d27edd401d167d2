/** Alarm states and their transitions after ANSI/ISA-18.2 (alarm state transition diagram), named from memory. */
import { describe, expect, it } from 'vitest';
import { alarmState, isConditionOn } from '../../machines/charts/alarm/alarm.guards.ts';
import { alarmMachine } from '../../machines/charts/alarm/alarm.machine.ts';
import { drive } from './drive.ts';

const EVENTS: { readonly [word: string]: string } = {
  on: 'line.conditionOn',
  off: 'line.conditionOff',
  ack: 'operator.acknowledge',
  shelve: 'operator.shelve',
  unshelve: 'operator.unshelve',
  shelfEnds: 'xstate.after.shelved.alarm.handling.shelved',
  oos: 'operator.outOfService',
  back: 'operator.returnToService',
  suppress: 'line.suppress',
  unsuppress: 'line.unsuppress',
};
const at = (words: string): string =>
  alarmState(
    drive(
      alarmMachine,
      words
        .split(' ')
        .filter(Boolean)
        .map((word) => EVENTS[word] ?? word),
    ),
  );

describe('alarm', () => {
  it.each([
    ['', 'normal'],
    ['on', 'unacknowledged'],
    ['on ack', 'acknowledged'],
    ['on ack off', 'normal'],
    ['on off', 'returned unacknowledged'],
    ['on off ack', 'normal'],
    ['on off on', 'unacknowledged'],
    ['on ack off on', 'unacknowledged'],
    ['ack', 'normal'],
    ['on shelve', 'shelved'],
    ['on shelve off', 'shelved'],
    ['on shelve unshelve', 'unacknowledged'],
    ['on ack shelve shelfEnds', 'unacknowledged'],
    ['on shelve off unshelve', 'normal'],
    ['shelve on shelfEnds', 'unacknowledged'],
    ['on suppress', 'suppressed by design'],
    ['suppress on', 'suppressed by design'],
    ['suppress on unsuppress', 'unacknowledged'],
    ['on suppress off unsuppress', 'normal'],
    ['on shelve suppress unshelve', 'suppressed by design'],
    ['on shelve suppress unsuppress unshelve', 'unacknowledged'],
    ['on oos', 'out of service'],
    ['on oos off back', 'normal'],
    ['oos on back', 'unacknowledged'],
    ['on shelve oos back', 'unacknowledged'],
    ['oos shelve', 'out of service'],
    ['oos suppress back', 'suppressed by design'],
  ])('"%s" leads to %s', (words, state) => {
    expect(at(words)).toBe(state);
  });

  it('knows whether its condition stands, whatever it shows', () => {
    expect(isConditionOn(drive(alarmMachine, ['operator.shelve', 'line.conditionOn']))).toBe(true);
    expect(isConditionOn(drive(alarmMachine, []))).toBe(false);
  });

  it('throws for a value that is no alarm', () => {
    expect(() => alarmState('nonsense')).toThrow(/no alarm state/);
  });
});
