/** What stands beside buttons, trips and lots in words: causes and remedies, onlookers, samples never reached. */
import { describe, expect, it } from 'vitest';
import { columnsFor } from '../../client/line/columns.ts';
import { onlookerWords } from '../../client/line/onlooker.ts';
import { samplesSentence } from '../../client/line/open-lot.tsx';
import { tripReasons } from '../../client/line/trip-reasons.ts';
import { sentences } from '../../client/live/said.ts';
import type { LotView } from '../../machines/line/view.types.ts';
import { mayGive } from '../../machines/people/permissions.ts';
import { ROLES, type Role } from '../../machines/scenario/people.schema.ts';

describe('a trip', () => {
  const hood = 'FT-03 Hood extraction was lost';
  const vapour = 'FT-02 Vapour at the hood reached the trip level';

  it('names each cause with what clears it, and says which are cleared', () => {
    const { reasons, also } = tripReasons([hood, vapour], [`${hood}. Get the hood fan running.`]);
    expect(reasons).toEqual([
      { cause: hood, now: 'Get the hood fan running.', cleared: false },
      { cause: vapour, now: 'Cleared.', cleared: true },
    ]);
    expect(also).toEqual([]);
  });

  it('calls nothing cleared that is still given as a reason, whatever stands before it', () => {
    const { reasons, also } = tripReasons([hood], [`Its cause still stands: ${hood}`, 'A batch is dumping.']);
    expect(reasons).toEqual([{ cause: hood, now: 'It still stands.', cleared: false }]);
    expect(also).toEqual(['A batch is dumping.']);
  });
});

describe('an onlooker', () => {
  const EMPTY = { holder: null, askedBy: null, standIn: null };
  const person = (role: Role) => ({ id: role, name: 'Ada Reed', role });
  const holder = { person: 'milo', name: 'Milo Oakes', role: 'operator' as const, console: 'there' };
  const said = (role: Role | null, seat: Parameters<typeof onlookerWords>[0]['seat'] = EMPTY) =>
    onlookerWords({ me: role === null ? null : person(role), seat, consoleId: 'here' });

  it('of every role that never runs the line is told what that role does instead', () => {
    const lookers = ROLES.filter((role) => !mayGive(role, 'start'));
    expect(lookers.length).toBeGreaterThan(0);
    for (const role of lookers) expect(said(role)).toContain(`As ${role} you look on here.`);
  });

  it('who may run it is told how to come by the controls', () => {
    expect(said('operator')).toMatch(/press Take/);
    expect(said(null)).toMatch(/say who you are, then press Take/);
    expect(said('trainee', { ...EMPTY, holder })).toMatch(/^Milo Oakes runs the line.*press Ask/);
    expect(said('operator', { ...EMPTY, holder, standIn: 'good' })).toMatch(/stand-in.*press Take/);
    expect(said('operator', { ...EMPTY, holder: { ...holder, console: 'here' } })).toBeNull();
  });
});

it('a sample past what a lot came to is said not to be reached, and none of them is said to be missed', () => {
  const lot: LotView = {
    id: '1',
    mix: 'm',
    family: 'emulsion',
    state: 'closed short',
    massKg: 3000,
    ofKg: 10_000,
    batches: [],
    bay: 1,
    samples: [
      { n: 1, atKg: 2870, state: 'missed' },
      { n: 2, atKg: 7400, state: 'not reached' },
    ],
  };
  expect(samplesSentence(lot)).toBe('Sample 1 missed · Sample 2 not reached');
});

it('up to six buttons, none is left alone on a row', () => {
  for (let n = 2; n <= 6; n++) expect(n % columnsFor(n)).not.toBe(1);
  expect(columnsFor(4)).toBe(2);
  expect(columnsFor(5)).toBe(3);
});

it('reasons end once each', () => {
  expect(sentences(['Take the controls first.', 'It is held'])).toBe('Take the controls first. It is held');
});
