/** Sealing as the running server does it: the shift that has just ended, and what earlier runs left unsealed. */
import type { PlantKey } from '../../machines/record/crypto.types.ts';
import { PlainError } from '../plain-error.ts';
import type { Journal } from '../runner/journal.ts';
import type { Store } from '../store/store.ts';
import { endedBy, sealOf, unsealedBefore } from './seal-shift.ts';

export type Sealing = {
  readonly store: Store;
  readonly key: PlantKey | null;
  readonly journal: Journal;
  /** Plant time to write on the seal, ms. */
  readonly atMs: number;
  readonly log: (line: string) => void;
};

/** The last entry there is once nothing waits to be written. */
const endOf = (journal: Journal) => async (): Promise<number> => {
  await journal.commit();
  return journal.end.seq;
};

/** Seals the newest shift, which has ended. A record that is not whole is told and left unsealed; store errors are thrown. */
export const sealEnded = async ({ store, key, journal, atMs, log }: Sealing): Promise<void> => {
  if (key === null) return;
  const end = endOf(journal);
  const last = await end();
  const { shift } = await store.tail();
  try {
    const by = await endedBy(store, { shift, last });
    journal.add(await sealOf(store, key, { shift, closed: 'in order', by, remark: '' }, end), atMs);
  } catch (error) {
    if (!(error instanceof PlainError)) throw error;
    log(error.message);
    journal.note('not sealed', error.message, atMs);
  }
  await journal.commit();
};

/** Seals shifts that were ended but not sealed before the program stopped, and names those that were never closed. */
export const sealWhatIsLeft = async ({ store, key, journal, atMs, log }: Sealing): Promise<void> => {
  if (key === null) return;
  for (const span of await unsealedBefore(store, (await store.tail()).shift)) {
    const { shift, last, endedWall } = span;
    const name = `Shift ${span.scenario} of ${span.day} (no. ${span.ordinal}, entries ${shift} to ${last})`;
    if (endedWall === null) {
      log(`${name} broke off and was never closed: a person can close it late on the Records page.`);
      continue;
    }
    const by = await endedBy(store, span);
    try {
      const closing = {
        shift,
        closed: 'in order',
        by,
        remark: 'sealed at a later start of the program',
      } as const;
      journal.add(await sealOf(store, key, closing, async () => last), atMs);
      await journal.commit();
      log(`${name} had ended without its seal, which has been made now.`);
    } catch (error) {
      if (!(error instanceof PlainError)) throw error;
      log(error.message);
    }
  }
};
