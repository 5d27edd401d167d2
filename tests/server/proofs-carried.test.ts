/** Proof tests of the interlocks are carried from shift to shift by the record. */
import { describe, expect, it } from 'vitest';
import type { Fact } from '../../machines/line/facts.ts';
import type { EntryContent } from '../../machines/record/entry.ts';
import { keepScenarios, nextShiftOf } from '../../server/runner/next-shift.ts';
import { openSqliteStore } from '../../server/store/sqlite.ts';
import { sealAll } from '../record/samples.ts';
import { fakeScenario } from './support/fake-scenario.ts';
import { scratchFolder } from './support/tools.ts';

const proved = (cause: 'FI-20' | 'FT-07', on: string, result: 'passed' | 'failed'): EntryContent => ({
  kind: 'fact',
  body: {
    tick: 5,
    fact: {
      is: 'causeProved',
      cause,
      on,
      result,
      remark: 'test gas',
      by: { person: 'kim', role: 'operator' },
    } satisfies Fact,
  },
});

describe('proof tests', () => {
  it('done in one shift, the last of each cause stands at the beginning of the next, and of the one after', async () => {
    const store = await openSqliteStore(scratchFolder());
    const files = fakeScenario();
    const first = await nextShiftOf(store, files);
    expect(first.scenario).toBe(files);
    await keepScenarios(store, files, first);
    const begun = sealAll([
      { kind: 'opening', body: first.opening },
      proved('FI-20', '2026-05-04', 'failed'),
      proved('FI-20', '2026-05-04', 'passed'),
      proved('FT-07', '2026-05-04', 'passed'),
    ]);
    await store.append(begun);

    const second = await nextShiftOf(store, files);
    const carried = [
      { cause: 'FI-20', on: '2026-05-04', result: 'passed', by: 'kim', remark: 'test gas' },
      { cause: 'FT-07', on: '2026-05-04', result: 'passed', by: 'kim', remark: 'test gas' },
    ];
    expect(second.scenario.shift.proofs).toEqual(carried);
    await keepScenarios(store, files, second);
    const last = begun.at(-1)?.entry;
    await store.append(
      sealAll([{ kind: 'opening', body: second.opening }], { seq: last?.seq ?? 0, hash: last?.hash ?? '' }),
    );
    const third = await nextShiftOf(store, files);
    expect(third.scenario.shift.proofs).toEqual(carried);
    expect(third.opening.filesDigest).toBeDefined();
    await store.close();
  });
});
