/** A store that keeps nothing but the end of the chain and the books of lab and yard: for headless runs without a data folder. */
import { beginListening, heardEntryOf, listen } from '../../machines/ledger/listen.ts';
import { CHAIN_START, type Sealed } from '../../machines/record/chain.ts';
import type { Scenario } from '../../machines/scenario/shift.schema.ts';
import { PlainError } from '../plain-error.ts';
import type { Store, Tail, Traces } from './store.ts';

const NOTHING_KEPT = 'Nothing was kept of this run: give it a data folder with --data.';

const nothingKept = async (): Promise<never> => {
  throw new PlainError(NOTHING_KEPT);
};

const NO_TRACES: Traces = {
  has: nothingKept,
  below: nothingKept,
  above: nothingKept,
  edgesFrom: nothingKept,
  edgesTo: nothingKept,
  named: nothingKept,
  batchOf: nothingKept,
  batches: nothingKept,
  scales: nothingKept,
  laid: nothingKept,
  laidNewest: nothingKept,
  people: nothingKept,
};

export const openChainOnlyStore = (): Store => {
  let tail: Tail = { ...CHAIN_START, atMs: 0, shift: 0 };
  let listening = beginListening();
  const scenarios = new Map<string, Scenario>();
  return {
    where: 'memory',
    cut: null,
    tail: async () => tail,
    append: async (batch: readonly Sealed[]) => {
      for (const { entry } of batch) {
        tail = {
          seq: entry.seq,
          hash: entry.hash,
          atMs: entry.atMs,
          shift: entry.kind === 'opening' ? entry.seq : tail.shift,
        };
        const heard = heardEntryOf(entry);
        if (heard !== null)
          listening = listen(listening, heard, (digest) => scenarios.get(digest) ?? null).listening;
      }
    },
    read: nothingKept,
    inputsAfter: nothingKept,
    answerTo: async () => null,
    saveCheckpoint: async () => undefined,
    loadCheckpoint: async () => null,
    saveScenario: async (digest, scenario) => {
      scenarios.set(digest, scenario as Scenario);
    },
    loadScenario: async (digest) => scenarios.get(digest) ?? null,
    verify: nothingKept,
    texts: () => {
      throw new PlainError(NOTHING_KEPT);
    },
    shifts: nothingKept,
    find: nothingKept,
    mentions: nothingKept,
    naming: nothingKept,
    packNext: async () => false,
    keeping: nothingKept,
    books: async () => listening,
    traces: NO_TRACES,
    close: async () => undefined,
  };
};
