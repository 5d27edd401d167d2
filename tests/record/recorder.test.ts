/** Grouping ticks into entries and turning them back: nothing is lost and nothing a fact rests on comes late. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ReadingChanges } from '../../machines/field/tags.ts';
import type { Entry } from '../../machines/record/entry.ts';
import { type Draft, flush, recorderAfter, recordTick } from '../../machines/record/recorder.ts';
import { type RecordedTick, replay, ticksOf } from '../../machines/record/replay.ts';
import { envelope, fact, sealAll } from './samples.ts';

type Tick = Omit<RecordedTick, 'tick'>;

const recordAll = (ticks: readonly Tick[]): Draft[] => {
  const recorder = recorderAfter(0);
  const out: Draft[] = [];
  ticks.forEach((t, i) => {
    recordTick(recorder, i + 1, t.changes, t.commands, t.facts, out);
  });
  flush(recorder, out);
  return out;
};

const entriesOf = (drafts: readonly Draft[]): Entry[] =>
  sealAll(drafts.map((draft) => draft.content)).map((sealed) => sealed.entry);

const quiet = (changes: ReadingChanges | null = null): Tick => ({ changes, commands: [], facts: [] });

const tickArb: fc.Arbitrary<Tick> = fc.record({
  changes: fc.option(fc.record({ hopperKg: fc.nat(1000) }), { nil: null }),
  commands: fc.array(
    fc.nat(99).map((n) => envelope(`command-${n}`)),
    { maxLength: 2 },
  ),
  facts: fc.oneof(
    { weight: 4, arbitrary: fc.constant([]) },
    {
      weight: 1,
      arbitrary: fc.array(
        fc.nat(99).map((n) => fact(`command-${n}`)),
        { maxLength: 3 },
      ),
    },
  ),
});

describe('recorder', () => {
  it('puts the readings of a quiet second in one entry', () => {
    const drafts = recordAll(
      Array.from({ length: 30 }, (_, i) => quiet(i % 4 === 0 ? { hopperKg: i } : null)),
    );
    expect(drafts.map((d) => d.content.kind)).toEqual(['readings', 'readings', 'readings']);
    expect(drafts.map((d) => d.atMs)).toEqual([1000, 2000, 3000]);
  });

  it('writes the readings before a command and the fact that followed from it', () => {
    const ticks = [
      quiet({ hopperKg: 1 }),
      { ...quiet({ hopperKg: 2 }), commands: [envelope('a')], facts: [fact('a')] },
    ];
    const drafts = recordAll(ticks);
    expect(drafts.map((d) => d.content.kind)).toEqual(['readings', 'command', 'fact']);
    expect(drafts[0]?.content.body).toEqual({
      from: 1,
      to: 2,
      rows: [
        [1, { hopperKg: 1 }],
        [2, { hopperKg: 2 }],
      ],
    });
  });

  it('refuses a tick out of turn', () => {
    const recorder = recorderAfter(5);
    expect(() => recordTick(recorder, 7, null, [], [], [])).toThrow('tick 7 recorded after tick 5');
  });

  it('gives back every tick as it was, whatever happened in it', () => {
    fc.assert(
      fc.property(fc.array(tickArb, { maxLength: 60 }), (ticks) => {
        const back = [...ticksOf(entriesOf(recordAll(ticks)))];
        expect(back).toEqual(ticks.map((t, i) => ({ tick: i + 1, ...t })));
      }),
    );
  });

  it('no group holds more than a second', () => {
    fc.assert(
      fc.property(fc.array(tickArb, { maxLength: 60 }), (ticks) => {
        for (const { content } of recordAll(ticks))
          if (content.kind === 'readings') expect(content.body.to - content.body.from).toBeLessThan(10);
      }),
    );
  });

  it('turning back notices a gap between groups', () => {
    const entries = entriesOf(recordAll(Array.from({ length: 30 }, () => quiet())));
    expect(() => [...ticksOf([entries[0] as Entry, entries[2] as Entry])]).toThrow(
      'readings from tick 21 after tick 10',
    );
  });
});

describe('replay', () => {
  // A line that says something each time its hopper passes 50 kg.
  const again = (limit: number) => (state: number, t: RecordedTick) => {
    const now = t.changes?.hopperKg ?? state;
    const facts = state < limit && now >= limit ? [fact(`passed-${t.tick}`)] : [];
    return { state: now, facts };
  };
  const ticks = Array.from({ length: 100 }, (_, i): RecordedTick => {
    const tick = i + 1;
    return { tick, changes: { hopperKg: tick }, commands: [], facts: tick === 50 ? [fact('passed-50')] : [] };
  });

  it('finds nothing when the line decides as it did', () => {
    expect(replay(ticks, 0, again(50))).toEqual({ state: 100, ticks: 100, differences: [] });
  });

  it('finds a decision that comes out differently, at both of its places', () => {
    const { differences } = replay(ticks, 0, again(60));
    expect(differences.map((d) => [d.tick, d.difference])).toEqual([
      [50, 'facts'],
      [60, 'facts'],
    ]);
  });

  it('compares readings when they are made again', () => {
    const { differences } = replay(ticks, 0, (state, t) => ({
      state,
      facts: t.facts,
      changes: t.tick === 7 ? { hopperKg: 8 } : t.changes,
    }));
    expect(differences).toEqual([
      { tick: 7, difference: 'readings', recorded: '{"hopperKg":7}', replayed: '{"hopperKg":8}' },
    ]);
  });
});
