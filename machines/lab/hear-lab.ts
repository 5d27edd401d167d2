/** What the lab's own facts do to its book. Nothing is taken away: what was is kept beside what is. */
import type { Who } from '../line/facts.ts';
import type { FieldChange, LabFact } from './facts.ts';
import { OTHERS_KEPT } from './fold-away.ts';
import { withLot, withSample } from './hear-line.ts';
import { NEXT_STEPS } from './lots.ts';
import type { LabLot, LabSample, LabState, LabWorksheet, MoistureTest } from './state.ts';

type Entered = Extract<LabFact, { is: 'worksheetEntered' }>;

const event = (lot: LabLot, at: string, by: Who, what: string, reason: string): LabLot => ({
  ...lot,
  events: [...lot.events, { at, by: by.person, what, reason }],
});

const changed = (sample: LabSample, changes: readonly FieldChange[]): LabSample => ({
  ...sample,
  ...Object.fromEntries(changes.map(({ field, now }) => [field, now])),
});

const enteredSheet = (fact: Entered, by: Who, at: string): LabWorksheet => ({
  id: fact.worksheet,
  sheet: fact.sheet,
  test: fact.test,
  lot: fact.lot,
  sample: fact.sample,
  subject: fact.subject,
  retest: fact.retest,
  readings: fact.readings,
  results: fact.results,
  notes: fact.notes,
  departures: fact.departures,
  testedBy: fact.testedBy,
  testedAt: fact.testedAt,
  enteredBy: by.person,
  enteredAt: at,
  balance: fact.balance,
  simulated: fact.simulated,
  remark: fact.remark,
  corrections: [],
  aside: null,
  photos: [],
});

/** The newest moisture test of each bin that counts. */
const moistureOf = (sheets: readonly LabWorksheet[]): MoistureTest[] => {
  const newest = new Map<number, MoistureTest>();
  for (const sheet of sheets) {
    const moisture = sheet.results.find((one) => one.property === 'moisturePct');
    if (sheet.aside !== null || sheet.subject?.kind !== 'bin' || moisture === undefined) continue;
    const bin = Number(sheet.subject.id);
    if (!Number.isInteger(bin)) continue;
    newest.set(bin, { bin, moisturePct: moisture.value, at: sheet.testedAt, worksheet: sheet.id });
  }
  return [...newest.values()].sort((a, b) => a.bin - b.bin);
};

/** The state with one worksheet changed, wherever it is kept. */
const withWorksheet = (
  state: LabState,
  lot: string | null,
  id: string,
  change: (sheet: LabWorksheet) => LabWorksheet,
): LabState => {
  const all = (sheets: readonly LabWorksheet[]) =>
    sheets.map((sheet) => (sheet.id === id ? change(sheet) : sheet));
  if (lot !== null) return withLot(state, lot, (one) => ({ ...one, worksheets: all(one.worksheets) }));
  const others = all(state.others);
  return { ...state, others, moisture: moistureOf(others) };
};

const entered = (state: LabState, fact: Entered, by: Who, at: string): LabState => {
  const sheet = enteredSheet(fact, by, at);
  const day = fact.worksheet.slice(2, 8);
  const n = Number(fact.worksheet.slice(9));
  const numbered = {
    ...state,
    numbering: { day, worksheets: day === state.numbering.day ? Math.max(n, state.numbering.worksheets) : n },
  };
  if (fact.lot === null) {
    const others = [...state.others, sheet].slice(-OTHERS_KEPT);
    return { ...numbered, others, moisture: moistureOf(others) };
  }
  return withLot(numbered, fact.lot, (lot) => ({
    ...lot,
    worksheets: [...lot.worksheets, sheet],
    retests: sheet.retest
      ? lot.retests.map((retest) =>
          retest.sample === sheet.sample && retest.test === sheet.test ? { ...retest, done: true } : retest,
        )
      : lot.retests,
  }));
};

const leftWords = (grams: number): string =>
  grams > 0 ? `; ${(grams / 1e6).toFixed(2)} t of it had left the yard` : '';

/** How a decision leaves a lot: free of hold and of requests. */
const decidedAs = (lot: LabLot, state: LabLot['state'], by: Who, at: string): LabLot => ({
  ...lot,
  state,
  held: false,
  heldBy: null,
  nextSteps: [],
  concession: null,
  decidedBy: by.person,
  decidedAt: at,
});

export const hearLabFact = (state: LabState, fact: LabFact, by: Who, at: string): LabState => {
  switch (fact.is) {
    case 'sampleLogged':
      return withLot(state, fact.lot, (lot) =>
        withSample(lot, fact.sample, (sample) => ({
          ...sample,
          state: 'logged',
          takenBy: fact.takenBy,
          takenAt: fact.takenAt,
          batch: fact.batch,
          massKg: fact.massKg,
          container: fact.container,
          label: fact.label,
          retainedKg: fact.retainedKg,
          discardOn: fact.discardOn,
        })),
      );
    case 'sampleSubstituted':
      return withLot(state, fact.lot, (lot) =>
        event(
          withSample(lot, fact.sample, (sample) => ({
            ...sample,
            state: 'logged',
            takenBy: fact.takenBy,
            takenAt: fact.takenAt,
            massKg: fact.massKg,
            container: fact.container,
            label: fact.label,
            retainedKg: fact.retainedKg,
            discardOn: fact.discardOn,
            substitute: { source: fact.source, ofSample: fact.ofSample, reason: fact.reason },
          })),
          at,
          by,
          `sample ${fact.sample} replaced from the ${fact.source}`,
          fact.reason,
        ),
      );
    case 'sampleCorrected':
      return withLot(state, fact.lot, (lot) =>
        withSample(lot, fact.sample, (sample) => ({
          ...changed(sample, fact.changes),
          corrections: [
            ...sample.corrections,
            { at, by: by.person, reason: fact.reason, changes: fact.changes },
          ],
        })),
      );
    case 'custodyHandedOver':
      return withLot(state, fact.lot, (lot) =>
        withSample(lot, fact.sample, (sample) => ({
          ...sample,
          custody: [...sample.custody, { at, from: fact.from, to: fact.to, remark: fact.remark }],
        })),
      );
    case 'retainedDiscarded':
      return withLot(state, fact.lot, (lot) =>
        event(
          withSample(lot, fact.sample, (sample) => ({ ...sample, discarded: true })),
          at,
          by,
          `retained portion of sample ${fact.sample} thrown away`,
          fact.reason ?? 'its date had come',
        ),
      );
    case 'worksheetEntered':
      return entered(state, fact, by, at);
    case 'worksheetCorrected':
      return withWorksheet(state, fact.lot, fact.worksheet, (sheet) => ({
        ...sheet,
        readings: fact.readings,
        results: fact.results,
        notes: fact.notes,
        departures: fact.departures,
        corrections: [
          ...sheet.corrections,
          { at, by: by.person, reason: fact.reason, changes: fact.changes, wasResults: fact.wasResults },
        ],
      }));
    case 'worksheetSetAside':
      return withWorksheet(state, fact.lot, fact.worksheet, (sheet) => ({
        ...sheet,
        aside: { at, by: by.person, reason: fact.reason },
      }));
    case 'worksheetBroughtBack':
      return withWorksheet(state, fact.lot, fact.worksheet, (sheet) => ({ ...sheet, aside: null }));
    case 'photoAttached':
      return withWorksheet(state, fact.lot, fact.worksheet, (sheet) => ({
        ...sheet,
        photos: [
          ...sheet.photos,
          { sha256: fact.sha256, caption: fact.caption, at, by: by.person, aside: null },
        ],
      }));
    case 'photoSetAside':
      return withWorksheet(state, fact.lot, fact.worksheet, (sheet) => ({
        ...sheet,
        photos: sheet.photos.map((photo) =>
          photo.sha256 === fact.sha256 ? { ...photo, aside: fact.reason } : photo,
        ),
      }));
    case 'retestOrdered':
      return withLot(state, fact.lot, (lot) => ({
        ...event(lot, at, by, `retest of sample ${fact.sample} (${fact.test}) ordered`, fact.reason),
        retests: [...lot.retests, { sample: fact.sample, test: fact.test, reason: fact.reason, done: false }],
      }));
    case 'lotHeld':
      return withLot(state, fact.lot, (lot) => ({
        ...event(lot, at, by, 'put on hold', fact.reason),
        held: true,
        heldBy: fact.cause,
        nextSteps: fact.nextSteps,
      }));
    case 'holdLifted':
      return withLot(state, fact.lot, (lot) => ({
        ...event(lot, at, by, 'hold lifted', fact.reason),
        held: false,
        heldBy: null,
        nextSteps: [],
      }));
    case 'lotInvestigated':
      return withLot(state, fact.lot, (lot) =>
        event(
          lot,
          at,
          by,
          fact.batches.length === 0 ? 'looked into' : `batches ${fact.batches.join(', ')} looked into`,
          fact.note,
        ),
      );
    case 'lotAccepted':
      return withLot(state, fact.lot, (lot) =>
        decidedAs(event(lot, at, by, 'accepted', fact.remark), 'accepted', by, at),
      );
    case 'lotRejected':
      return withLot(state, fact.lot, (lot) =>
        decidedAs(event(lot, at, by, 'rejected', fact.reason), 'rejected', by, at),
      );
    case 'lotSentToWaste':
      return withLot(state, fact.lot, (lot) => ({
        ...event(lot, at, by, 'sent to waste', fact.reason),
        done: 'sent to waste',
      }));
    case 'lotReworked':
      return withLot(state, fact.lot, (lot) => ({
        ...event(lot, at, by, 'being reworked', fact.reason),
        done: 'being reworked',
      }));
    case 'concessionAsked':
      return withLot(state, fact.lot, (lot) => ({
        ...event(lot, at, by, 'concession asked for', fact.reason),
        concession: { askedBy: by.person, at, reason: fact.reason },
      }));
    case 'concessionGranted':
      return withLot(state, fact.lot, (lot) =>
        decidedAs(
          event(lot, at, by, 'released by concession', fact.reason),
          'released by concession',
          by,
          at,
        ),
      );
    case 'concessionRefused':
      return withLot(state, fact.lot, (lot) => ({
        ...event(lot, at, by, 'concession refused', fact.reason),
        concession: null,
      }));
    case 'decisionReopened':
      return withLot(state, fact.lot, (lot) => ({
        ...event(
          lot,
          at,
          by,
          `decision re-opened, it was ${fact.was}${leftWords(fact.leftYardGrams)}`,
          fact.reason,
        ),
        leftYardGrams: fact.leftYardGrams,
        state: 'testing',
        done: null,
        held: lot.failing.length > 0,
        heldBy: lot.failing.length > 0 ? ('failing result' as const) : null,
        nextSteps: lot.failing.length > 0 ? NEXT_STEPS : [],
        decidedBy: null,
        decidedAt: null,
      }));
    default:
      return total(fact);
  }
};

/** A fact this book does not know is an error, never passed over. */
const total = (fact: never): never => {
  throw new Error(`the lab book does not know the fact ${JSON.stringify(fact)}`);
};
