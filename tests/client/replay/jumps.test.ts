/** Jumps land on the next entry of a kind, times of day on their tick, and notes stay with their export. */
import { describe, expect, it } from 'vitest';
import { stagesOf, stepRows, weightRows } from '../../../client/replay/compare/batches.ts';
import { longDate } from '../../../client/replay/dates.ts';
import { jumpFrom, lineAt, tickOfClock } from '../../../client/replay/jumps.ts';
import {
  joinNotes,
  NOTES_WHAT,
  type Note,
  notesFile,
  readNotes,
} from '../../../client/replay/notes/notes.ts';
import type { Landmark, ReplayLine } from '../../../client/replay/worker/lines.ts';

const line = (seq: number, tick: number, landmark: Landmark | null, by = ''): ReplayLine => ({
  seq,
  tick,
  landmark,
  by,
  atMs: tick * 100,
  wall: '',
  sort: 'fact',
  text: `entry ${seq}`,
  hash: '',
  because: [],
});

const LINES = [
  line(1, 0, null),
  line(2, 1, null),
  line(3, 50, 'person', 'wrenna'),
  line(4, 50, 'refusal', 'wrenna'),
  line(5, 80, 'alarm'),
  line(6, 120, 'person', 'tibor'),
  line(7, 120, null),
  line(8, 300, 'alarm'),
];

describe('a jump', () => {
  it.each([
    ['on to an alarm', 1, 1, 'alarm', null, 5],
    ['on from an alarm to the next', 80, 1, 'alarm', null, 8],
    ['back from one alarm to the one before', 300, -1, 'alarm', null, 5],
    ['to a refusal', 1, 1, 'refusal', null, 4],
    ['to anybody’s command', 1, 1, 'person', null, 3],
    ['to the command of one person', 1, 1, 'person', 'tibor', 6],
    ['to the next entry at another moment', 50, 1, 'entry', null, 5],
    ['to the entry before at another moment', 120, -1, 'entry', null, 5],
  ] as const)('%s', (_, tick, way, kind, person, seq) => {
    expect(jumpFrom(LINES, tick, way, kind, person)?.seq).toBe(seq);
  });

  it('finds nothing where there is nothing, and never goes before the first reading', () => {
    expect(jumpFrom(LINES, 300, 1, 'alarm')).toBeNull();
    expect(jumpFrom(LINES, 80, -1, 'alarm')).toBeNull();
    expect(jumpFrom(LINES, 1, 1, 'trip')).toBeNull();
    expect(jumpFrom(LINES, 1, -1, 'entry')).toBeNull();
  });

  it('the newest line at a moment is the last one written by then', () => {
    expect(lineAt(LINES, 119)?.seq).toBe(5);
    expect(lineAt(LINES, 120)?.seq).toBe(7);
  });
});

describe('a time of day', () => {
  it.each([
    ['06:00', 1],
    ['06:00:01', 10],
    ['06:00:01.5', 15],
    ['6:01', 600],
    ['08:10:05,3', 78_053],
    ['05:00', 828_000],
  ])('%s in a shift from 06:00 is tick %i', (text, tick) => {
    expect(tickOfClock(text, '06:00')).toBe(tick);
  });

  it.each(['', 'noon', '24:00', '06:60', '06:00:60', '6', '06:00:01.55'])('“%s” is none', (text) => {
    expect(tickOfClock(text, '06:00')).toBeNull();
  });
});

describe('notes', () => {
  const manifest = {
    shift: { opening: 1, id: 's', name: 'Emulsion day', date: '2026-05-12', startsAt: '06:00' },
    entries: { first: 1, last: 9, count: 9, head: 'abc', bytes: 1 },
    seal: null,
  } as unknown as Parameters<typeof notesFile>[0]['manifest'];
  const note = (id: string, tick: number, words = ''): Note => ({
    id,
    tick,
    words,
    writtenAt: '2027-01-01T00:00:00Z',
  });

  it('come back from a file they were saved to, and say that they are no part of the record', () => {
    const file = notesFile({ manifest }, [note('a', 5, 'seen')]);
    expect(file.what).toBe(NOTES_WHAT);
    expect(file.what).toMatch(/not part of the record/);
    expect(readNotes(JSON.stringify(file), 'abc')).toEqual({ ok: true, notes: [note('a', 5, 'seen')] });
  });

  it.each([
    [
      'another export',
      (file: object) => JSON.stringify({ ...file, about: 'xyz' }),
      /another export \(Emulsion day/,
    ],
    ['no JSON', () => 'hello', /holds no notes/],
    ['another kind of JSON', () => '{"a":1}', /holds no notes/],
    ['nothing at all', () => 'null', /holds no notes/],
    ['another form', (file: object) => JSON.stringify({ ...file, format: 2 }), /form 2/],
    ['a broken note', (file: object) => JSON.stringify({ ...file, notes: [{ id: 1 }] }), /not whole/],
  ])('of %s are refused in words', (_, text, words) => {
    const read = readNotes(text(notesFile({ manifest }, [note('a', 5)])), 'abc');
    expect(read.ok).toBe(false);
    if (!read.ok) expect(read.why).toMatch(words);
  });

  it('join by id, in order of their moment', () => {
    expect(
      joinNotes([note('a', 9), note('b', 2)], [note('b', 2, 'more'), note('c', 4)]).map(
        (n) => n.id + n.words,
      ),
    ).toEqual(['bmore', 'c', 'a']);
  });
});

describe('two batches', () => {
  const blocks = [
    { fromMs: 1000, toMs: 5000, step: 'charge', batch: 1 },
    { fromMs: 5000, toMs: 9000, step: 'mix', batch: 1 },
    { fromMs: 9000, toMs: 11_000, step: 'hold', batch: 1 },
    { fromMs: 11_000, toMs: 12_000, step: 'mix', batch: 1 },
    { fromMs: 20_000, toMs: 23_000, step: 'charge', batch: 2 },
    { fromMs: 23_000, toMs: null, step: 'mix', batch: 2 },
  ];

  it('are laid from their own start, with each step summed up', () => {
    const [a, b] = [stagesOf(blocks, 1, 30_000), stagesOf(blocks, 2, 30_000)];
    expect(a[0]).toEqual({ step: 'charge', fromMs: 0, toMs: 4000 });
    expect(b.at(-1)).toEqual({ step: 'mix', fromMs: 3000, toMs: 10_000 });
    expect(stepRows(a, b)).toEqual([
      { step: 'charge', aS: 4, bS: 3 },
      { step: 'mix', aS: 5, bS: 7 },
      { step: 'hold', aS: 2, bS: null },
    ]);
  });

  it('have a row for each material of either', () => {
    const sheet = (material: string) =>
      ({ parts: [{ material, targetKg: 10, weighedKg: 10.1, accepted: '' }] }) as never;
    expect(
      weightRows(sheet('Chips'), sheet('Grit')).map((row) => [
        row.material,
        row.a?.weighedKg ?? null,
        row.b?.weighedKg ?? null,
      ]),
    ).toEqual([
      ['Chips', 10.1, null],
      ['Grit', null, 10.1],
    ]);
    expect(weightRows(null, null)).toEqual([]);
  });
});

it('a date is said with its day', () => {
  expect(longDate('2026-05-12')).toBe('Tue 12 May 2026');
  expect(longDate('someday')).toBe('someday');
});
