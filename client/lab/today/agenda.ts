/** The officer's day out of the lab's book: what is to be tested, what is missing, who has what, what is to be thrown away. Pure. */
import { isDecided } from '../../../machines/lab/lots.ts';
import type { LabLot, LabSample } from '../../../machines/lab/state.ts';

export type AgendaSample = { readonly lot: string; readonly sample: LabSample };
export type Agenda = {
  /** In the lab's hands without a worksheet that counts, or with a retest to be made. */
  readonly toTest: readonly AgendaSample[];
  /** Lots not yet decided that miss something. */
  readonly missing: readonly LabLot[];
  /** Retained portions whose date has come, and those of the coming week. */
  readonly discardNow: readonly AgendaSample[];
  readonly discardSoon: readonly AgendaSample[];
  /** Who has which samples of a lot, newest hand-over first. */
  readonly custody: readonly {
    readonly lot: string;
    readonly samples: readonly number[];
    readonly holder: string;
    /** When the newest of them came to that person. */
    readonly at: string;
  }[];
};

/** A test on this sample that is not set aside. */
export const isTested = (lot: LabLot, n: number): boolean =>
  lot.worksheets.some((sheet) => sheet.sample === n && sheet.aside === null);

/** A retest that was ordered on this sample and is still to be made. */
export const retestOf = (lot: LabLot, n: number) =>
  lot.retests.find((retest) => retest.sample === n && !retest.done) ?? null;

export const holderOf = (sample: LabSample): string | null =>
  sample.custody.at(-1)?.to ?? (sample.state === 'logged' ? sample.takenBy : null);

/** Whole days from one local date to another; both YYYY-MM-DD (a time after it is left out). */
export const daysBetween = (from: string, to: string): number =>
  Math.round(
    (Date.parse(`${to.slice(0, 10)}T00:00Z`) - Date.parse(`${from.slice(0, 10)}T00:00Z`)) / 86_400_000,
  );

const SOON_DAYS = 7;

export function agendaOf(lots: readonly LabLot[], at: string): Agenda {
  const each = lots.flatMap((lot) => lot.samples.map((sample) => ({ lot, sample })));
  const pick = (wanted: (lot: LabLot, sample: LabSample) => boolean): AgendaSample[] =>
    each
      .filter(({ lot, sample }) => wanted(lot, sample))
      .map(({ lot, sample }) => ({ lot: lot.lot, sample }));
  const isKept = (sample: LabSample): boolean =>
    !sample.discarded && sample.discardOn !== null && (sample.retainedKg ?? 0) > 0;
  const inDays = (sample: LabSample): number =>
    sample.discardOn === null ? Number.POSITIVE_INFINITY : daysBetween(at, sample.discardOn);
  return {
    toTest: pick(
      (lot, sample) =>
        !isDecided(lot) &&
        sample.state === 'logged' &&
        (!isTested(lot, sample.n) || retestOf(lot, sample.n) !== null),
    ),
    missing: lots.filter((lot) => !isDecided(lot) && lot.missing.length > 0),
    discardNow: pick((_lot, sample) => isKept(sample) && inDays(sample) <= 0),
    discardSoon: pick((_lot, sample) => isKept(sample) && inDays(sample) > 0 && inDays(sample) <= SOON_DAYS),
    custody: custodyOf(each),
  };
}

function custodyOf(each: readonly { readonly lot: LabLot; readonly sample: LabSample }[]): Agenda['custody'] {
  const held = new Map<string, { lot: string; samples: number[]; holder: string; at: string }>();
  for (const { lot, sample } of each) {
    const holder = holderOf(sample);
    if (holder === null || isDecided(lot)) continue;
    const at = sample.custody.at(-1)?.at ?? sample.takenAt ?? '';
    const key = `${lot.lot} ${holder}`;
    const before = held.get(key) ?? { lot: lot.lot, samples: [], holder, at };
    held.set(key, {
      ...before,
      samples: [...before.samples, sample.n],
      at: [at, before.at].sort().at(-1) ?? at,
    });
  }
  return [...held.values()].sort((a, b) => (a.at < b.at ? 1 : -1));
}
