/** Whatever is asked of the book in whatever order: one version in force at most, numbers in a row, contents never changed. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Who } from '../../../machines/line/facts.ts';
import { shiftSchema } from '../../../machines/scenario/shift.schema.ts';
import { mixesBook } from '../../../machines/yard/mixes/book.ts';
import type { MixesCommand } from '../../../machines/yard/mixes/commands.ts';
import type { MixesState } from '../../../machines/yard/mixes/state.ts';
import { cutbackMix, demoSpec, emulsionMix } from '../../plant/demo.ts';

const PEOPLE: readonly Who[] = [
  { person: 'isolde', role: 'quality officer' },
  { person: 'halvard', role: 'supervisor' },
  { person: 'pell', role: 'storekeeper' },
];
const MIXES = [emulsionMix, cutbackMix];
const AT = '2026-05-12T09:30:00';

const shift = shiftSchema.parse({
  kind: 'shift',
  id: 'a-day',
  name: 'A day',
  plant: 'p',
  people: 'p',
  mixes: ['m'],
  date: '2026-05-12',
  startsAt: '06:00',
  hours: 8,
  seed: 1,
  weather: { startC: 9, warmestC: 20 },
  orders: [{ mix: emulsionMix.id, tonnes: 10, bay: 1 }],
});

const opened: MixesState = mixesBook.hear(mixesBook.empty, {
  seq: 1,
  shift: 1,
  at: '2026-05-12T06:00:00',
  from: 'opening',
  scenario: { shift, plant: demoSpec, mixes: MIXES, people: [] },
});

const step = fc.record({
  what: fc.constantFrom('draft', 'approve', 'withdraw'),
  mix: fc.constantFrom(0, 1),
  version: fc.integer({ min: 1, max: 5 }),
  who: fc.constantFrom(0, 1, 2),
  dosePct: fc.integer({ min: 50, max: 90 }).map((tenths) => tenths / 10),
});
type Step = typeof step extends fc.Arbitrary<infer S> ? S : never;

const commandOf = ({ what, mix, version, dosePct }: Step): MixesCommand => {
  const content = MIXES[mix] as typeof emulsionMix;
  if (what === 'draft')
    return {
      do: 'draftMix',
      content: { ...content, binder: { ...content.binder, dosePct } },
      why: 'a trial',
      from: null,
    };
  return what === 'approve'
    ? { do: 'approveMix', mix: content.id, version, note: '' }
    : { do: 'withdrawMix', mix: content.id, version, reason: 'it ran off' };
};

it('holds over random histories', () => {
  let done = 0;
  fc.assert(
    fc.property(fc.array(step, { minLength: 5, maxLength: 40 }), (steps) => {
      let state = opened;
      const contents = new Map<string, string>();
      steps.forEach((one, i) => {
        const by = PEOPLE[one.who] as Who;
        const told = mixesBook.answer(state, { command: commandOf(one), by, at: AT }, {});
        if (!told.ok) {
          expect(told.because.length).toBeGreaterThan(0);
          return;
        }
        done += 1;
        for (const fact of told.facts)
          state = mixesBook.hear(state, { seq: 2 + i, shift: 1, at: AT, from: 'mixes', by, fact });
        for (const [id, versions] of Object.entries(state.mixes)) {
          expect(versions.filter((version) => version.state === 'approved').length).toBeLessThanOrEqual(1);
          expect(versions.map((version) => version.content.version)).toEqual(versions.map((_, n) => n + 1));
          for (const { content, state: is, draftedBy, approvedBy } of versions) {
            const key = `${id} ${content.version}`;
            const text = JSON.stringify(content);
            expect(contents.get(key) ?? text).toBe(text);
            contents.set(key, text);
            // Nobody put a cutback mix of his own in force.
            if (content.family === 'cutback' && is === 'approved' && draftedBy !== null)
              expect(approvedBy?.person).not.toBe(draftedBy.person);
          }
        }
      });
    }),
    { numRuns: 150, seed: 6102 },
  );
  expect(done).toBeGreaterThan(500);
});
