/** A record run again shows at every moment what the running line showed, and tells where it does not. */
import { describe, expect, it } from 'vitest';
import { whyDeclined } from '../../../client/replay/worker/decline.ts';
import { Fold, KEYFRAME_TICKS } from '../../../client/replay/worker/fold.ts';
import { type Recording, RecordingBuilder } from '../../../client/replay/worker/recording.ts';
import { TAG_NAMES } from '../../../machines/field/tags.ts';
import type { CommandEnvelope } from '../../../machines/line/commands.ts';
import { viewLine } from '../../../machines/line/view.ts';
import type { Entry } from '../../../machines/record/entry.ts';
import { mulberry } from './random.ts';
import { record } from './recorded.ts';

const TICKS = 9000;
const seed = Number(process.env.SEED ?? 20260512);
const random = mulberry(seed);
const moments = [1, 2, KEYFRAME_TICKS, KEYFRAME_TICKS + 1, TICKS].concat(
  Array.from({ length: 25 }, () => 1 + Math.floor(random() * (TICKS - 1))),
);
/** Somebody who does not hold the controls wants to light the burner: refused, and that is in the record too. */
const refused: CommandEnvelope = {
  id: 'refused-command',
  by: { person: 'tibor', role: 'operator', console: 'other-console' },
  command: { do: 'lightBurner' },
};
const recorded = record('scenarios/shifts/emulsion-day.yaml', TICKS, moments, new Map([[3000, [refused]]]));

const recordingOf = (entries: readonly Entry[]): Recording => {
  const builder = new RecordingBuilder();
  for (const entry of entries) builder.add(entry);
  return builder.done();
};
const recording = recordingOf(recorded.entries);
const folded = (of: Recording = recording): Fold => {
  const fold = new Fold(of, recorded.scenario);
  fold.work(Number.POSITIVE_INFINITY);
  return fold;
};
const inJson = (value: unknown): unknown => JSON.parse(JSON.stringify(value));

describe(`run again over its record (SEED=${seed})`, () => {
  const fold = folded();

  it('the line decides the same at every tick', () => {
    expect(fold.done).toBe(true);
    expect(fold.tick).toBe(TICKS);
    expect(fold.differences).toEqual({ told: [], count: 0 });
    expect(fold.keyframes).toBe(TICKS / KEYFRAME_TICKS + 1);
  });

  it.each(moments)('the view at tick %i is the one a console had', (tick) => {
    expect(inJson(viewLine(fold.lineAt(tick)))).toEqual(inJson(recorded.views.get(tick)));
  });

  it('moments are the same in any order, two places at once, and while it is still running', () => {
    const half = new Fold(recording, recorded.scenario);
    half.work(Number.POSITIVE_INFINITY, TICKS / 2);
    const early = moments.filter((tick) => tick <= TICKS / 2);
    for (const tick of [...early, ...early.toReversed()])
      for (const who of ['a', 'b']) expect(viewLine(half.lineAt(tick, who)).shift.atMs).toBe(tick * 100);
    half.work(Number.POSITIVE_INFINITY);
    expect(half.differences.count).toBe(0);
    expect(inJson(viewLine(half.lineAt(TICKS, 'a')))).toEqual(inJson(recorded.views.get(TICKS)));
  });

  it('a budget of time ends a slice, and slices add up to the same', () => {
    const sliced = new Fold(recording, recorded.scenario);
    let slices = 0;
    for (; !sliced.done; slices++) sliced.work(0);
    expect(slices).toBeGreaterThan(1);
    expect(inJson(viewLine(sliced.line))).toEqual(inJson(viewLine(fold.line)));
  });
});

describe('a record that was tampered with', () => {
  const changed = (change: (entry: Entry) => Entry): Recording => recordingOf(recorded.entries.map(change));

  it('shows the tick of a fact that was altered', () => {
    const fact = recorded.entries.find(
      (each) => each.kind === 'fact' && each.body.fact.is === 'batchStarted',
    );
    const altered = changed((entry) =>
      entry === fact && entry.kind === 'fact' && entry.body.fact.is === 'batchStarted'
        ? { ...entry, body: { ...entry.body, fact: { ...entry.body.fact, batch: 99 } } }
        : entry,
    );
    const { count, told } = folded(altered).differences;
    expect(count).toBe(1);
    expect(told[0]?.tick).toBe(fact?.kind === 'fact' ? fact.body.tick : -1);
    expect(told[0]?.recorded).toContain('"batch":99');
    expect(told[0]?.replayed).toContain('"batch":1');
  });

  it('shows a refusal that was taken out', () => {
    const without = recordingOf(
      recorded.entries.filter((entry) => entry.kind !== 'fact' || entry.body.fact.is !== 'commandRefused'),
    );
    const { count, told } = folded(without).differences;
    expect(count).toBe(1);
    expect(told[0]).toMatchObject({ tick: 3000, recorded: '[]' });
  });

  it('is declined when readings are missing', () => {
    const groups = recorded.entries.filter((entry) => entry.kind === 'readings');
    const gap = recordingOf(recorded.entries.filter((entry) => entry !== groups[10]));
    expect(gap.brokenAt).toMatch(
      /^entry \d+ holds readings from tick \d+, but those before it end at tick \d+$/,
    );
    expect(whyDeclined(gap.opening, gap.brokenAt)).toContain(gap.brokenAt ?? 'nothing');
  });
});

describe('what is declined', () => {
  const opening = recording.opening;
  if (opening === null) throw new Error('no opening');

  it('is not a record of this very program', () => {
    expect(whyDeclined(opening, null)).toBeNull();
  });

  it.each([
    ['another program', { program: 'patchyard 0.0.9' }, /written by patchyard 0\.0\.9/],
    ['other rules', { physics: 999 }, /with rules 999/],
    ['another form', { format: 7 as never }, /of form 7/],
  ])('%s', (_, change, words) => {
    expect(whyDeclined({ ...opening, ...change }, null)).toMatch(words);
  });

  it('a file without an opening', () => {
    expect(whyDeclined(null, null)).toMatch(/no opening entry/);
  });
});

it('readings are kept for every instrument, as they were read, also one that stays at 0', () => {
  expect([...recording.tags].sort()).toEqual([...TAG_NAMES].sort());
  const last = recorded.views.get(TICKS)?.plant.readings;
  for (const tag of TAG_NAMES) {
    const series = recording.series[recording.tags.indexOf(tag)];
    expect(series?.values.at((series?.values.length ?? 0) - 1), tag).toBe(last?.[tag]);
  }
  expect(last?.emergencyStop).toBe(0);
});

it('a refusal is a line with its reasons, found by its tick', () => {
  const line = recording.lines.find((each) => each.landmark === 'refusal');
  expect(line).toMatchObject({ tick: 3000, by: 'tibor', sort: 'refusal' });
  expect(line?.because.length).toBeGreaterThan(0);
});
