/** A store that keeps nothing but the end of the chain: for headless runs without a data folder. */
import { CHAIN_START, type Sealed } from '../../machines/record/chain.ts';
import { PlainError } from '../plain-error.ts';
import type { Store, Tail } from './store.ts';

const NOTHING_KEPT = 'Nothing was kept of this run: give it a data folder with --data.';

const nothingKept = async (): Promise<never> => {
  throw new PlainError(NOTHING_KEPT);
};

export const openChainOnlyStore = (): Store => {
  let tail: Tail = { ...CHAIN_START, atMs: 0, shift: 0 };
  return {
    where: 'memory',
    cut: null,
    tail: async () => tail,
    append: async (batch: readonly Sealed[]) => {
      for (const { entry } of batch)
        tail = {
          seq: entry.seq,
          hash: entry.hash,
          atMs: entry.atMs,
          shift: entry.kind === 'opening' ? entry.seq : tail.shift,
        };
    },
    read: nothingKept,
    inputsAfter: nothingKept,
    answerTo: async () => null,
    saveCheckpoint: async () => undefined,
    loadCheckpoint: async () => null,
    saveScenario: async () => undefined,
    loadScenario: async () => null,
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
    close: async () => undefined,
  };
};
