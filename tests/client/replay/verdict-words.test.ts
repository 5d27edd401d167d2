/** The one thing said about an open file: what is wrong comes before what still goes on, and unsealed is not called intact alone. */
import { expect, it } from 'vitest';
import { failureOf } from '../../../client/replay/failures.ts';
import { NOTHING_OPEN, type ReplayState } from '../../../client/replay/replay.types.ts';
import { standingOf } from '../../../client/replay/verdict-words.ts';

const open = (change: Partial<ReplayState>): ReplayState => ({
  ...NOTHING_OPEN,
  phase: 'open',
  opened: { lastTick: 1000, declined: null } as never,
  soFar: { tick: 1000, done: true, differing: 0 } as never,
  check: { is: 'done', verdict: { result: 'intact', seal: { root: 'r' } } as never },
  ...change,
});
const running = { tick: 400, done: false, differing: 0 } as never;
const differing = { tick: 1000, done: true, differing: 3 } as never;
const altered = {
  is: 'done',
  verdict: { result: 'altered', findings: [{ detail: 'entry 7: its content does not match its hash' }] },
} as never;

it.each([
  ['sealed and sound', {}, 'Intact', 'good', /since the shift was sealed/],
  [
    'not sealed',
    { check: { is: 'done', verdict: { result: 'intact', seal: null } } as never },
    'Intact, unsealed',
    'plain',
    /who wrote it cannot be proved/,
  ],
  ['still run again', { soFar: running }, 'Running again 40 %', 'busy', /40 %/],
  ['still checked', { check: { is: 'running', share: 0.256 } as never }, 'Checking 25 %', 'busy', /25 %/],
  ['decided otherwise', { soFar: differing }, '3 differences', 'bad', /decided otherwise at 3 moments/],
  ['altered', { check: altered }, 'Altered', 'bad', /entry 7/],
  ['altered while it still runs', { check: altered, soFar: running }, 'Altered', 'bad', /entry 7/],
  ['altered and decided otherwise', { check: altered, soFar: differing }, 'Altered', 'bad', /entry 7/],
  ['stopped', { stuck: { tick: 5, why: 'no such state' } }, 'Charts stopped', 'bad', /no such state/],
] as const)('%s', (_, change, short, tone, sentence) => {
  const standing = standingOf(open(change as Partial<ReplayState>));
  expect(standing).toMatchObject({ short, tone });
  expect(standing.sentence).toMatch(sentence);
});

it('a file that cannot be opened says why and what to do', () => {
  expect(failureOf('not an export', 'it is too short to be a zip')).toEqual([
    'This is not an export of a shift',
    'It is too short to be a zip. Choose a file that “Download export” or patchyard export wrote; its name ends in .zip.',
  ]);
  expect(failureOf('damaged', 'entries.ndjson holds a line that is not JSON')[1]).toMatch(
    /^entries\.ndjson holds/,
  );
});
