/** The officer's day, logging a sample, deciding, and what happened to a lot: all in words a person reads. */
import { describe, expect, it } from 'vitest';
import { decisionsOn } from '../../client/lab/lots/decisions.ts';
import { timelineOf } from '../../client/lab/lots/timeline.ts';
import { whyNotSend } from '../../client/lab/photos/send-photo.ts';
import { logProblems, numberIn } from '../../client/lab/samples/log-check.ts';
import { groupsOf } from '../../client/lab/samples/prompt-groups.ts';
import { agendaOf, daysBetween, holderOf } from '../../client/lab/today/agenda.ts';
import { nextToTest } from '../../client/lab/worksheets/paths.ts';
import type { SamplePrompt } from '../../machines/line/view.types.ts';
import type { Person } from '../../machines/scenario/people.schema.ts';
import { aLot, aSample, aSheet, logged } from './fixture/lab.ts';

const OFFICER: Person = { id: 'isolde', name: 'Isolde Marrin', role: 'quality officer' };
const SUPERVISOR: Person = { id: 'halvard', name: 'Halvard Quill', role: 'supervisor' };

describe('the day', () => {
  const lot = aLot({
    missing: ['bond: 0 of 1 sample tested'],
    samples: [
      logged(1, 'gradation'),
      logged(2, 'binder content', {
        discardOn: '2026-05-20',
        custody: [{ at: '2026-05-12T08:00:00', from: 'wrenna', to: 'isolde', remark: '' }],
      }),
      logged(3, 'binder content'),
      aSample(4, 'bond', { state: 'taken', takenBy: 'wrenna', takenAt: '2026-05-12T06:40:00' }),
    ],
    worksheets: [
      aSheet('T-260512-1', 1, { aside: { at: '2026-05-12T10:30:00', by: 'isolde', reason: 'spilled' } }),
      aSheet('T-260512-2', 3),
    ],
    retests: [{ sample: 3, test: 'binder content', reason: 'low', done: false }],
  });

  it('a sample waits for its test while no sheet of it counts, or while a retest is ordered', () => {
    const { toTest, missing } = agendaOf([lot], '2026-05-13T10:00:00');
    expect(toTest.map(({ sample }) => sample.n)).toEqual([1, 2, 3]);
    expect(missing.map((one) => one.lot)).toEqual(['260512-1']);
    expect(nextToTest(lot)?.n).toBe(1);
    expect(nextToTest(lot, 2)?.n).toBe(3);
    expect(nextToTest(lot, 3)?.n).toBe(1);
  });

  it('retained portions are to be thrown away on their date, and named a week ahead', () => {
    const on = (at: string) => {
      const { discardNow, discardSoon } = agendaOf([lot], at);
      return [discardNow.map(({ sample }) => sample.n), discardSoon.map(({ sample }) => sample.n)];
    };
    expect(on('2026-05-12T10:00:00')).toEqual([[], []]);
    expect(on('2026-05-13T23:59:59')).toEqual([[], [2]]);
    expect(on('2026-05-20T00:00:00')).toEqual([[2], []]);
    expect(on('2026-06-09T06:00:00')).toEqual([[1, 2, 3], []]);
    expect(daysBetween('2026-02-27', '2026-03-01T12:00:00')).toBe(2);
  });

  it('whoever it was handed to last has a sample; a lot at a time, the newest hand-over first', () => {
    expect(holderOf(aSample(4, 'bond'))).toBeNull();
    expect(agendaOf([lot], '2026-05-13T10:00:00').custody).toEqual([
      { lot: '260512-1', samples: [2], holder: 'isolde', at: '2026-05-12T08:00:00' },
      { lot: '260512-1', samples: [1, 3], holder: 'wrenna', at: '2026-05-12T06:14:00' },
    ]);
    expect(agendaOf([{ ...lot, state: 'accepted' }], '2026-05-13T10:00:00').custody).toEqual([]);
  });

  it('what happened stands in the order of the plant’s clock, whatever it was', () => {
    const words = timelineOf({
      ...lot,
      events: [{ at: '2026-05-12T11:00:00', by: 'isolde', what: 'put on hold', reason: 'binder is low' }],
    }).map((one) => one.words);
    expect(words[0]).toBe('Opened by its first batch');
    expect(words.indexOf('Closed')).toBeGreaterThan(words.indexOf('Sample 4 (bond) taken'));
    expect(words.at(-1)).toBe('put on hold: binder is low');
  });
});

describe('logging a sample', () => {
  const good = { massText: '4.2', container: 'tin', retainedText: '2', reason: null };

  it('is refused at the field, in words, before anything is sent', () => {
    expect(logProblems(good)).toEqual({});
    expect(logProblems({ ...good, massText: '-1' }).mass).toMatch(/never negative/);
    expect(logProblems({ ...good, massText: '4,2' }).mass).toMatch(/without a unit or a comma/);
    expect(logProblems({ ...good, massText: '4.2 kg' }).mass).toMatch(/not a number of kg/);
    expect(logProblems({ ...good, massText: '4200' }).mass).toMatch(/grams/);
    expect(logProblems({ ...good, massText: '0' }).mass).toMatch(/Nothing was taken/);
    expect(logProblems({ ...good, retainedText: '5' }).retained).toMatch(/more than the 4.2 kg taken/);
    expect(logProblems({ ...good, retainedText: '0' })).toEqual({});
    expect(logProblems({ ...good, container: ' ' }).container).toMatch(/kept in/);
    expect(logProblems({ ...good, reason: 'x' }).reason).toMatch(/at least 3 letters/);
    expect(numberIn('1e3')).toBeNull();
  });
});

describe('a photograph', () => {
  it('of another kind, empty or too large is refused before it is sent', () => {
    const MB = 1024 * 1024;
    expect(whyNotSend({ type: 'image/jpeg', size: 3 * MB })).toBeNull();
    expect(whyNotSend({ type: 'image/heic', size: MB })).toMatch(/must be JPEG or PNG/);
    expect(whyNotSend({ type: '', size: MB })).toMatch(/no known kind/);
    expect(whyNotSend({ type: 'image/png', size: 0 })).toMatch(/empty/);
    expect(whyNotSend({ type: 'image/png', size: 8 * MB })).toBeNull();
    expect(whyNotSend({ type: 'image/png', size: 8 * MB + 1 })).toMatch(/at most 8\.4 MB/);
  });
});

describe('decisions', () => {
  const named = (lot: ReturnType<typeof aLot>, me: Person | null) =>
    Object.fromEntries(decisionsOn(lot, me).map((one) => [one.name, one.because]));

  it('a lot that passes may be accepted by the officer and by nobody else', () => {
    const lot = aLot({ verdict: 'pass', proposal: 'accept' });
    expect(named(lot, OFFICER).acceptLot).toEqual([]);
    expect(decisionsOn(lot, OFFICER).find(({ name }) => name === 'acceptLot')?.weight).toBe('primary');
    expect(named(lot, SUPERVISOR).acceptLot?.[0]).toMatch(/is a supervisor; this is for: quality officer/);
    expect(named(lot, null).acceptLot?.[0]).toMatch(/Say who you are/);
    expect(named(lot, OFFICER).askConcession).toBeUndefined();
  });

  it('what fails and what is missing stands against accepting, word for word', () => {
    const lot = aLot({ verdict: 'fail', failing: ['binder too low'], missing: ['bond: none'] });
    expect(named(lot, OFFICER).acceptLot).toEqual(['binder too low', 'bond: none']);
    expect(named(lot, OFFICER).askConcession).toEqual([]);
  });

  it('a concession is granted by a second person', () => {
    const concession = { askedBy: 'halvard', at: '2026-05-13T10:00:00', reason: 'needed' };
    const lot = aLot({ state: 'on hold', verdict: 'fail', failing: ['x'], concession });
    expect(named(lot, SUPERVISOR).grantConcession?.[0]).toMatch(/a second person/);
    expect(named(lot, { ...SUPERVISOR, id: 'other' }).grantConcession).toEqual([]);
    expect(named(lot, OFFICER).grantConcession?.[0]).toMatch(/this is for: supervisor/);
  });

  it('a decided lot offers re-opening only; a rejected one its two ways out; waste is final', () => {
    const names = (part: Parameters<typeof aLot>[0]) => Object.keys(named(aLot(part), OFFICER));
    expect(names({ state: 'accepted' })).toEqual(['reopenDecision']);
    expect(names({ state: 'rejected' })).toEqual(['sendToWaste', 'reworkLot', 'reopenDecision']);
    expect(names({ state: 'rejected', done: 'sent to waste' })).toEqual([]);
  });

  it('nothing final is offered while the lot is still being filled', () => {
    const names = Object.keys(named(aLot({ state: 'open', closedAt: null }), OFFICER));
    expect(names).toEqual(['acceptLot', 'investigate', 'holdLot']);
  });
});

describe('samples to be taken', () => {
  const due = (sample: number, level: SamplePrompt['level'], batch = 1): SamplePrompt => ({
    lot: '260512-1',
    sample,
    test: 'bond',
    batch,
    sinceMs: 0,
    level,
    words: `words of ${sample}`,
  });

  it('of one discharge stand together, a single one and a missed one in their own words', () => {
    expect(groupsOf([due(1, 'due'), due(3, 'due'), due(5, 'due')]).map(({ words }) => words)).toEqual([
      'Take samples 1, 3 and 5 from the next discharge',
    ]);
    expect(
      groupsOf([due(1, 'overdue', 1), due(2, 'due', 2), due(3, 'missed'), due(4, 'missed')]).map(
        ({ words }) => words,
      ),
    ).toEqual(['words of 1', 'words of 2', 'words of 3', 'words of 4']);
  });
});
