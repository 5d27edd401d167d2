/** The ledger without a server: the plant's clock, what is heard, words for facts, and a book that fails. */
import { describe, expect, it } from 'vitest';
import { localAt } from '../../machines/ledger/clock.ts';
import { answerLedger, createLedger, type HearingTrouble, hearLedger } from '../../machines/ledger/ledger.ts';
import { beginListening, heardEntryOf, listen } from '../../machines/ledger/listen.ts';
import { entriesFor } from '../../machines/ledger/put.ts';
import { SHELF } from '../../machines/ledger/shelf.ts';
import { wordsOfFact } from '../../machines/ledger/words.ts';
import { BOOK_NAMES } from '../../machines/record/book.types.ts';
import { canonical } from '../../machines/record/canonical.ts';
import type { Entry } from '../../machines/record/entry.ts';

const entry = (seq: number, content: object): Entry =>
  ({ seq, atMs: 1000 * seq, wall: '', prev: '', hash: '', ...content }) as Entry;
const fact = (seq: number, body: object): Entry =>
  entry(seq, { kind: 'fact', body: { tick: seq, fact: body } });

describe('the plant’s clock', () => {
  it.each([
    ['2026-05-12', '06:00', 0, '2026-05-12T06:00:00'],
    ['2026-05-12', '22:30', 5_400_000, '2026-05-13T00:00:00'],
    ['2024-02-28', '23:59', 61_999, '2024-02-29T00:00:01'],
    ['2026-12-31', '23:00', 3600_000, '2027-01-01T00:00:00'],
  ])('%s %s and %i ms later is %s', (date, startsAt, atMs, at) => {
    expect(localAt(date, startsAt, atMs)).toBe(at);
  });
});

describe('listening', () => {
  it('follows shift, clock and who leads the line, without the files of the shift as well', () => {
    const by = { person: 'kim', role: 'operator' };
    const entries = [
      entry(1, { kind: 'opening', body: { scenarioDigest: 'gone' } }),
      fact(2, { is: 'shiftOpened', shift: 'x', date: '2026-05-12', startsAt: '06:00' }),
      fact(3, { is: 'controlsTaken', by, console: 'a' }),
      fact(4, { is: 'stepEntered', batch: 1, step: 'charge' }),
      entry(5, { kind: 'readings', body: { from: 1, to: 2, rows: [] } }),
    ];
    let at = beginListening();
    const told: string[] = [];
    for (const one of entries) {
      const heard = heardEntryOf(one);
      if (heard === null) continue;
      const next = listen(at, heard, () => null);
      at = next.listening;
      if (next.heard !== null) told.push(`${next.heard.from} ${next.heard.at}`);
    }
    expect(told).toEqual(['line 2026-05-12T06:00:02', 'line 2026-05-12T06:00:03']);
    expect(at).toMatchObject({ seq: 3, shift: 1, date: '2026-05-12', leader: 'kim' });
  });

  it('goes on with the books that hear when one fails, and names it', () => {
    const { book } = SHELF.mixes as { book: { hear: unknown } };
    const { hear } = book;
    const troubles: HearingTrouble[] = [];
    try {
      for (const failing of [
        () => {
          throw new Error('planted');
        },
        () => undefined,
      ]) {
        book.hear = failing;
        const heard = {
          seq: 9,
          shift: 1,
          at: '',
          from: 'recalls',
          by: { person: 'a', role: 'operator' },
        } as const;
        const opened = {
          is: 'recallOpened',
          recall: 'RC-260512-1',
          from: { kind: 'lot', id: 'x' },
          words: '',
          reason: '',
        };
        const ledger = hearLedger(
          createLedger(),
          { ...heard, at: '2026-05-12T06:00:00', fact: opened },
          (t) => troubles.push(t),
        );
        expect(Object.keys((ledger.recalls as { recalls: object }).recalls)).toEqual(['RC-260512-1']);
        expect(ledger.mixes).toBe(createLedger().mixes);
      }
    } finally {
      book.hear = hear;
    }
    expect(troubles.map(({ book: name, seq }) => [name, seq])).toEqual([
      ['mixes', 9],
      ['mixes', 9],
    ]);
    expect(troubles[0]?.why).toBe('planted');
  });
});

describe('every book', () => {
  it.each(BOOK_NAMES)('%s: begins as plain JSON, shows itself, and has a role for each command', (name) => {
    const ledger = createLedger();
    expect(JSON.parse(canonical(ledger[name]))).toEqual(ledger[name]);
    const { view, may } = SHELF[name];
    expect(() => canonical(view(ledger[name], '2026-05-12T06:00:00', ledger))).not.toThrow();
    expect(Object.keys(may).length).toBeGreaterThan(0);
    for (const roles of Object.values(may)) expect(roles.length).toBeGreaterThan(0);
    const told = answerLedger(ledger, name, {
      command: { do: 'noSuchThing' },
      by: { person: 'kim', role: 'operator' },
      at: '',
    });
    expect(told.ok).toBe(false);
  });

  it('has words for what it does not know, and a command too large for the record is refused in words', () => {
    for (const name of BOOK_NAMES)
      expect(wordsOfFact(name, { is: 'somethingNewHappened' }).length).toBeGreaterThan(3);
    const { book } = SHELF.recalls as { book: { answer: unknown } };
    const { answer } = book;
    try {
      book.answer = () => ({ ok: true, facts: [{ is: 'large', text: 'x'.repeat(9_000_000) }] });
      const made = entriesFor(
        createLedger(),
        {
          id: 'large-one',
          book: 'recalls',
          by: { person: 'noor', role: 'supervisor' },
          command: { do: 'closeRecall', recall: 'RC-260512-1', remark: 'done' },
        },
        '2026-05-12T06:00:00',
      );
      expect(made).toMatchObject({ ok: false, because: [expect.stringContaining('do it in smaller parts')] });
    } finally {
      book.answer = answer;
    }
  });
});
