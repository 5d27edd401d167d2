/** What the keeping panel says of sizes, ages, backups and room. */
import { describe, expect, it } from 'vitest';
import {
  adviceOf,
  ageText,
  bytesText,
  countText,
  type Kept,
  readKept,
} from '../../client/records/keeping-words.ts';

const KEPT: Kept = {
  folder: '/data',
  bytes: 1,
  freeInsideBytes: 0,
  entries: 1,
  shifts: 2,
  sealed: 1,
  packed: 1,
  archived: 0,
  room: { freeBytes: 5e9, totalBytes: 1e11 },
  roomState: 'enough',
  lastBackup: { wall: '2026-05-10T12:00:00.000Z', file: '/b', bytes: 1, entries: 1 },
  wall: '2026-05-12T12:00:00.000Z',
};

describe('sizes', () => {
  it.each([
    [0, '0 B'],
    [999, '999 B'],
    [1000, '1.0 kB'],
    [18_616_016, '18.6 MB'],
    [99_940_000, '99.9 MB'],
    [99_960_000, '100 MB'],
    [999_600_000, '1.0 GB'],
    [4.68e9, '4.7 GB'],
    [3e15, '3000 TB'],
  ])('%d bytes are %s', (bytes, words) => expect(bytesText(bytes)).toBe(words));

  it('large counts are grouped', () => {
    expect(countText(999)).toBe('999');
    expect(countText(33226)).toBe('33,226');
    expect(countText(83_000_000)).toBe('83,000,000');
  });
});

describe('the age of a backup', () => {
  it.each([
    ['2026-05-12T11:59:59.000Z', 'less than a day ago'],
    ['2026-05-11T12:00:00.000Z', '1 day ago'],
    ['2026-05-01T00:00:00.000Z', '11 days ago'],
    ['2026-05-12T12:00:01.000Z', 'at a time that is still to come: see to the clock of this computer'],
  ])('of %s is %s', (wall, words) => expect(ageText(wall, KEPT.wall)).toBe(words));
});

describe('advice', () => {
  const of = (more: Partial<Kept>) => adviceOf({ ...KEPT, ...more });
  it('is silent when all is well', () => expect(of({})).toEqual([]));
  it('asks for a backup once something is sealed, and again after a week', () => {
    expect(of({ lastBackup: null, sealed: 0 })).toEqual([]);
    expect(of({ lastBackup: null })[0]?.words).toMatch(/never been backed up/);
    const at = (wall: string) => of({ lastBackup: { wall, file: '/b', bytes: 1, entries: 1 } });
    expect(at('2026-05-05T12:00:01.000Z')).toEqual([]);
    expect(at('2026-05-05T12:00:00.000Z')[0]?.words).toMatch(/more than a week old/);
  });
  it('names the room that is left, and says what happens when it is gone', () => {
    const little = of({ roomState: 'little', room: { freeBytes: 6e8, totalBytes: 1e11 } });
    expect(little).toMatchObject([
      { what: 'room', strong: false, words: expect.stringMatching(/^Only 600 MB/) },
    ]);
    const none = of({ roomState: 'nearly none', room: { freeBytes: 4e7, totalBytes: 1e11 } });
    expect(none).toMatchObject([{ strong: true, words: expect.stringMatching(/line will be held/) }]);
  });
});

it('an answer of another form is not believed', () => {
  expect(readKept(KEPT)).toEqual(KEPT);
  expect(readKept({ ...KEPT, bytes: 'many' })).toBeNull();
  expect(readKept({ ...KEPT, room: 3 })).toBeNull();
  expect(readKept(null)).toBeNull();
});
