/** A record of several shifts in a data folder, sealed with a true key as the server does it. */
import { CHAIN_START, type ChainEnd, sealEntry } from '../../../machines/record/chain.ts';
import type { EntryContent } from '../../../machines/record/entry.ts';
import { sha256 } from '../../../server/digest.ts';
import { digestOf, openingFor } from '../../../server/runner/opening.ts';
import { openKey } from '../../../server/seal/key-file.ts';
import { sealOf } from '../../../server/seal/seal-shift.ts';
import { openSqliteStore } from '../../../server/store/sqlite.ts';
import type { Store } from '../../../server/store/store.ts';
import { fakeScenario } from './fake-scenario.ts';
import { contentsOf } from './sealed-record.ts';

export const WHO = { person: 'kim', role: 'operator' } as const;

/** Each day a shift of `seconds` seconds, all sealed and packed. The store is left open. */
export const trulySealed = async (
  folder: string,
  days: readonly string[],
  seconds: number,
): Promise<Store> => {
  const store = openSqliteStore(folder);
  const key = openKey(folder, null);
  let end: ChainEnd = CHAIN_START;
  for (const day of days) {
    const plain = fakeScenario();
    const scenario = { ...plain, shift: { ...plain.shift, date: day } };
    await store.saveScenario(digestOf(scenario), scenario);
    const [, ...contents] = contentsOf(day, seconds);
    const opening: EntryContent = { kind: 'opening', body: openingFor(scenario) };
    const put = (content: EntryContent, i: number) => {
      const wall = new Date(Date.parse(`${day}T06:00:00.000Z`) + i * 1003).toISOString();
      const sealed = sealEntry(
        end,
        content,
        content.kind === 'readings' ? content.body.to * 100 : i,
        wall,
        sha256,
      );
      end = { seq: sealed.entry.seq, hash: sealed.entry.hash };
      return sealed;
    };
    const entries = [opening, ...contents].map(put);
    await store.append(entries);
    const [first] = entries;
    const last = entries.at(-1)?.entry.seq ?? 0;
    const closing = { shift: first?.entry.seq ?? 0, closed: 'in order', by: WHO, remark: '' } as const;
    const seal = await sealOf(store, key, closing, async () => last);
    await store.append([put(seal, entries.length)]);
  }
  while (await store.packNext());
  return store;
};
