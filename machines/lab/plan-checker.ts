/** Goes once over the entries of a record and checks every sampling plan that was opened (seal-check.ts). */
import type { Entry } from '../record/entry.ts';
import type { FindingKind } from '../record/export.types.ts';
import type { Scenario } from '../scenario/shift.schema.ts';
import { type SealedLot, sealFindings } from './seal-check.ts';

type Seen = {
  readonly lot: string;
  readonly ofKg: number;
  readonly batches: number[];
  readonly batchGrams: number[];
  plan: null | { commitment: string; nonce: string | null; atKg: readonly number[] | null };
  samples: {
    n: number;
    test: string;
    part: number;
    ofParts: number;
    atKg: number | null;
    calledAtGrams: number | null;
  }[];
  /** seq of the entry that opened the plan. */
  openedBy: number | null;
};

export type PlansChecked = {
  /** How many plans were opened and hold. */
  readonly hold: number;
  /** Lots whose plan is still sealed. */
  readonly sealed: readonly string[];
  readonly findings: readonly {
    readonly kind: FindingKind;
    readonly seq: number | null;
    readonly file: null;
    readonly detail: string;
  }[];
};

/** Names of the facts the check needs. */
export const PLAN_FACTS = [
  'lotOpened',
  'samplesPlanned',
  'sampleDue',
  'batchDischarged',
  'lotClosed',
  'samplePlanOpened',
] as const;

export type PlanChecker = {
  /** Entries in the order of the record; those it does not need are passed over. */
  readonly take: (entry: Entry) => void;
  readonly finish: () => PlansChecked;
};

/** `scenarioOf` gives the scenario an opening entry names, null when it is not at hand: parts of lots then go unchecked. */
export const planChecker = (scenarioOf: (digest: string) => Scenario | null): PlanChecker => {
  let scenario: Scenario | null = null;
  const lots = new Map<string, Seen>();
  const findings: PlansChecked['findings'][number][] = [];
  let hold = 0;
  const closed = new Set<string>();

  const judge = (seen: Seen): void => {
    const found = sealFindings(seen satisfies SealedLot);
    if (found.length === 0) hold += 1;
    for (const detail of found)
      findings.push({
        kind: 'sampling plan',
        seq: seen.openedBy,
        file: null,
        detail: `sampling plan of lot ${seen.lot}: ${detail}`,
      });
  };

  const take = (entry: Entry): void => {
    if (entry.kind === 'opening') {
      scenario = scenarioOf(entry.body.scenarioDigest);
      return;
    }
    if (entry.kind !== 'fact') return;
    const { fact } = entry.body;
    if (fact.is === 'lotOpened') {
      const mix = scenario?.mixes.find((one) => one.id === fact.mix && one.version === fact.mixVersion);
      lots.set(fact.lot, {
        lot: fact.lot,
        ofKg: mix?.lotKg ?? 0,
        batches: [],
        batchGrams: [],
        plan: null,
        samples: [],
        openedBy: null,
      });
      return;
    }
    const seen = 'lot' in fact ? lots.get(fact.lot) : undefined;
    if (seen === undefined) return;
    if (fact.is === 'samplesPlanned') {
      if (seen.plan !== null)
        findings.push({
          kind: 'sampling plan',
          seq: entry.seq,
          file: null,
          detail: `sampling plan of lot ${seen.lot}: it was committed twice`,
        });
      seen.plan ??= { commitment: fact.commitment, nonce: null, atKg: null };
      seen.samples = fact.samples.map((one) => ({ ...one, atKg: null, calledAtGrams: null }));
    } else if (fact.is === 'sampleDue') {
      const sample = seen.samples.find((one) => one.n === fact.sample);
      if (sample === undefined || sample.atKg !== null) return;
      sample.atKg = fact.atKg ?? null;
      sample.calledAtGrams = seen.batchGrams.reduce((sum, grams) => sum + grams, 0);
    } else if (fact.is === 'batchDischarged') {
      seen.batches.push(fact.batch);
      seen.batchGrams.push(fact.grams);
    } else if (fact.is === 'lotClosed') closed.add(fact.lot);
    else if (fact.is === 'samplePlanOpened' && seen.plan !== null) {
      seen.plan = { ...seen.plan, nonce: fact.nonce, atKg: fact.atKg };
      seen.openedBy = entry.seq;
      judge(seen);
      lots.delete(fact.lot);
    }
  };

  return {
    take,
    finish: () => {
      const unopened = [...lots.values()].filter((one) => one.plan !== null).map((one) => one.lot);
      for (const lot of unopened)
        if (closed.has(lot))
          findings.push({
            kind: 'sampling plan',
            seq: null,
            file: null,
            detail: `sampling plan of lot ${lot}: the lot was closed and its plan never opened`,
          });
      return { hold, sealed: unopened.filter((lot) => !closed.has(lot)), findings };
    },
  };
};
