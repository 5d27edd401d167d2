/** What the lab book takes from the line: lots that open, fill and close, samples that fall due and are taken. */
import type { Fact } from '../line/facts.ts';
import type { HeardAt } from '../record/book.types.ts';
import { folded, withKept } from './fold-away.ts';
import { lotIn } from './lots.ts';
import { sealFindings } from './seal-check.ts';
import { absorptionPct, standing } from './standing.ts';
import type { LabLot, LabSample, LabState } from './state.ts';

const blankSample = (n: number, test: string, part: number, ofParts: number): LabSample => ({
  n,
  test,
  part,
  ofParts,
  state: 'ahead',
  atKg: null,
  calledAtGrams: null,
  dueAt: null,
  takenBy: null,
  takenAt: null,
  batch: null,
  massKg: null,
  container: null,
  label: null,
  retainedKg: null,
  discardOn: null,
  discarded: false,
  substitute: null,
  custody: [],
  corrections: [],
});

const newLot = (
  state: LabState,
  fact: Extract<Fact, { is: 'lotOpened' }>,
  { at, shift }: HeardAt,
): LabLot => {
  const mix = state.mixes[`${fact.mix}@${fact.mixVersion}`];
  const named = mix?.specification;
  const specification =
    named === undefined
      ? undefined
      : Object.values(state.specifications)
          .filter((one) => one.id === named)
          .reduce<LabState['specifications'][string] | undefined>(
            (newest, one) => (newest === undefined || one.version > newest.version ? one : newest),
            undefined,
          );
  const sealed = fact.samplesAtKg ?? [];
  return {
    lot: fact.lot,
    state: 'open',
    done: null,
    mixId: fact.mix,
    mixVersion: fact.mixVersion,
    family: fact.family,
    bay: fact.bay,
    grams: 0,
    ofKg: mix?.lotKg ?? 0,
    batches: [],
    batchGrams: [],
    short: false,
    openedAt: at,
    closedAt: null,
    shift,
    specification: specification?.id ?? null,
    specificationVersion: specification?.version ?? null,
    verdict: 'incomplete',
    proposal: 'wait',
    missing: [],
    failing: [],
    results: [],
    labels: {
      operator: '',
      'binder delivery': state.now.deliveries[fact.family],
      'bucket zeroed': state.now.bucketZeroed,
      'mix version': `${fact.mix} v${fact.mixVersion}`,
      bins: mix?.aggregates.map((part) => part.bin).join(' + ') ?? '',
      'air at opening, °C': state.now.airC,
    },
    absorptionPct: mix === undefined ? null : absorptionPct(state, mix),
    plan: null,
    decidedBy: null,
    decidedAt: null,
    concession: null,
    retests: [],
    held: false,
    heldBy: null,
    nextSteps: [],
    samples: sealed.map((_, i) => blankSample(i + 1, '', i + 1, sealed.length)),
    worksheets: [],
    events: [],
    folded: false,
  };
};

/** The state with one lot changed and its standing told anew; as it was when there is no such lot. */
export const withLot = (state: LabState, lot: string, change: (lot: LabLot) => LabLot): LabState => {
  const before = lotIn(state, lot);
  return before === undefined ? state : withKept(state, standing(state, change(before), before));
};

export const withSample = (lot: LabLot, n: number, change: (sample: LabSample) => LabSample): LabLot => ({
  ...lot,
  samples: lot.samples.map((sample) => (sample.n === n ? change(sample) : sample)),
});

const addedTo = (list: string, one: string): string =>
  list === '' ? one : list.split(', ').includes(one) ? list : `${list}, ${one}`;

export const hearLine = (state: LabState, fact: Fact, heard: HeardAt): LabState => {
  switch (fact.is) {
    case 'lotOpened': {
      const lot = newLot(state, fact, heard);
      return folded(withKept(state, standing(state, lot)), heard.at);
    }
    case 'samplesPlanned':
      return withLot(state, fact.lot, (lot) => ({
        ...lot,
        plan: { commitment: fact.commitment, nonce: null, atKg: null, findings: null },
        samples: fact.samples.map(({ n, test, part, ofParts }) => blankSample(n, test, part, ofParts)),
      }));
    case 'sampleDue':
      return withLot(state, fact.lot, (lot) =>
        withSample(lot, fact.sample, (sample) => ({
          ...sample,
          state: 'due',
          dueAt: sample.dueAt ?? heard.at,
          atKg: fact.atKg ?? sample.atKg,
          calledAtGrams: sample.calledAtGrams ?? lot.grams,
          batch: fact.batch ?? sample.batch,
        })),
      );
    case 'sampleTaken':
      return withLot(state, fact.lot, (lot) =>
        withSample(lot, fact.sample, (sample) => ({
          ...sample,
          state: 'taken',
          takenBy: fact.by.person,
          takenAt: heard.at,
          batch: fact.batch,
        })),
      );
    case 'sampleMissed':
      return withLot(state, fact.lot, (lot) =>
        withSample(lot, fact.sample, (sample) => ({ ...sample, state: 'missed' })),
      );
    case 'samplePlanOpened':
      return withLot(state, fact.lot, (lot) => {
        if (lot.plan === null) return lot;
        const opened = { ...lot.plan, nonce: fact.nonce, atKg: fact.atKg };
        return { ...lot, plan: { ...opened, findings: sealFindings({ ...lot, plan: opened }) } };
      });
    case 'batchStarted':
      return fact.by.role === 'line' ? state : withLabel(state, fact.lot, 'operator', fact.by.person);
    case 'batchDischarged': {
      // Nothing of its standing hangs on the mass before it is closed, and this is heard oftenest of all.
      const lot = lotIn(state, fact.lot);
      if (lot === undefined) return state;
      const filled = {
        ...lot,
        grams: lot.grams + fact.grams,
        batches: [...lot.batches, fact.batch],
        batchGrams: [...lot.batchGrams, fact.grams],
      };
      return withKept(state, filled);
    }
    case 'lotClosed':
      return withLot(state, fact.lot, (lot) => ({
        ...lot,
        grams: fact.grams,
        short: fact.short,
        closedAt: heard.at,
        samples: lot.samples.map((sample) =>
          sample.state === 'ahead' ? { ...sample, state: 'not reached' as const } : sample,
        ),
      }));
    case 'deliveryBegun':
      return {
        ...state,
        now: { ...state.now, pending: { ...state.now.pending, [fact.tank]: fact.ticket } },
      };
    case 'deliveryConfirmed':
      return {
        ...state,
        now: {
          ...state.now,
          deliveries: {
            ...state.now.deliveries,
            [fact.tank]: state.now.pending[fact.tank] || state.now.deliveries[fact.tank],
          },
        },
      };
    case 'scaleZeroed':
      return fact.scale === 'bucket' ? { ...state, now: { ...state.now, bucketZeroed: heard.at } } : state;
    default:
      return state;
  }
};

const withLabel = (state: LabState, lot: string, label: string, value: string): LabState => {
  const before = lotIn(state, lot);
  if (before === undefined || before.labels[label]?.split(', ').includes(value) === true) return state;
  const labels = { ...before.labels, [label]: addedTo(before.labels[label] ?? '', value) };
  return withKept(state, { ...before, labels });
};
