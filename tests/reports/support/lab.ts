/** A lot with its whole life in the lab, played through the lab book itself: sealed plan, samples, worksheets, decision. */
import { benchReadings, type Truth } from '../../../machines/lab/bench/index.ts';
import { labBook } from '../../../machines/lab/book.ts';
import { labCommandSchema } from '../../../machines/lab/commands.ts';
import { drawPlan, nonceOf, planText, samplesOf } from '../../../machines/lab/plan.ts';
import type { SheetId } from '../../../machines/lab/sheet-ids.ts';
import { sheetContext } from '../../../machines/lab/sheet-work.ts';
import type { LabState } from '../../../machines/lab/state.ts';
import { beginListening, heardEntryOf, listen } from '../../../machines/ledger/listen.ts';
import type { Fact, Who } from '../../../machines/line/facts.ts';
import type { Entry, EntryContent } from '../../../machines/record/entry.ts';
import { labWorkOf } from '../../../machines/reports/lab-papers.ts';
import type { LabWork } from '../../../machines/reports/lab-work.ts';
import type { Scenario } from '../../../machines/scenario/shift.schema.ts';
import { sha256 } from '../../../server/digest.ts';
import { shippedSpecification } from '../../lab/judge/support.ts';
import { uniforms } from '../../lab/stats/normals.ts';
import { scenarioOf } from '../../line/yard.ts';
import { emulsionBatch, entriesOf, HALVARD, lotOpened, type Told, WRENNA } from './shift.ts';

export const ISOLDE: Who = { person: 'isolde', role: 'quality officer' };
export const LOT = '260414-1';
const SECRET = '5'.repeat(64);
const SPEC = shippedSpecification('emulsion-patch');

/** The demonstration day, its emulsion mix judged by the shipped specification. */
export const labScenario = (): Scenario => {
  const scenario = scenarioOf('plain-mixes');
  return {
    ...scenario,
    mixes: scenario.mixes.map((mix) =>
      mix.id === 'emulsion-patch' ? { ...mix, specification: SPEC.id } : mix,
    ),
    specifications: [SPEC],
  };
};

/** What is told, and the book as it hears it told: entry by entry, so that each command is answered at once. */
class Life {
  readonly told: Told[] = [];
  #scenario = labScenario();
  #listening = beginListening();
  #seq = 0;

  constructor() {
    this.#hear(0, { kind: 'opening', body: { scenarioDigest: '' } } as never);
    this.#hear(0, fact({ is: 'shiftOpened', shift: 'plain-mixes', date: '2026-04-14', startsAt: '06:00' }));
  }

  #hear(atS: number, content: EntryContent): void {
    this.#seq += 1;
    const entry = { ...content, seq: this.#seq, atMs: atS * 1000, wall: '', prev: '', hash: '' } as Entry;
    const heard = heardEntryOf(entry);
    if (heard !== null) this.#listening = listen(this.#listening, heard, () => this.#scenario).listening;
  }

  tell(...more: readonly Told[]): void {
    for (const [atS, content] of more) {
      this.told.push([atS, content]);
      this.#hear(atS, 'is' in content ? fact(content) : content);
    }
  }

  get state(): LabState {
    return this.#listening.ledger.lab as LabState;
  }
}

const fact = (one: Fact): EntryContent => ({ kind: 'fact', body: { tick: 0, fact: one } });

const clock = (atS: number): string => {
  const whole = 6 * 3600 + atS;
  const s = whole % 86_400;
  const two = (n: number): string => String(n).padStart(2, '0');
  return `2026-04-${14 + Math.floor(whole / 86_400)}T${two(Math.floor(s / 3600))}:${two(Math.floor(s / 60) % 60)}:${two(s % 60)}`;
};

/** Puts a command to the lab book as it stands and adds the facts it answers with. */
const ask = (life: Life, atS: number, by: Who, command: object): void => {
  const parsed = labCommandSchema.parse(command);
  const answer = labBook.answer(life.state, { command: parsed, by, at: clock(atS) }, {});
  if (!answer.ok) throw new Error(`${parsed.do}: ${answer.because.join(' ')}`);
  for (const one of answer.facts)
    life.tell([
      atS,
      {
        kind: 'ledger',
        body: { id: `${parsed.do}-${atS}`, do: parsed.do, by, at: clock(atS), book: 'lab', fact: one },
      } as never,
    ]);
};

const TRUTH: Truth = {
  'passing:12.5': 100,
  'passing:9.5': 95,
  'passing:4.75': 34,
  'passing:2.36': 7,
  'passing:0.6': 2.8,
  'passing:0.075': 0.8,
  residualBinderMixPct: 5,
  waterPct: 1.2,
  solventPct: 0,
  bondKgCm2: 2.6,
  workable: 1,
  breakUpS: 40,
  coatedPct: 95,
};

const SHEET: { readonly [test: string]: SheetId } = {
  gradation: 'sieve',
  'binder content': 'extraction',
  bond: 'bond',
  workability: 'workability',
  'water resistance': 'water-resistance',
};

export type LabLife = {
  /** Residual binder of the second binder sample, % of mix. */
  readonly secondBinderPct?: number;
  readonly end?: 'accepted' | 'rejected' | 'released by concession' | 'none';
};

/** Everything told of the shift: a lot of 13 batches, seven samples, their worksheets, and what was decided. */
export const labLife = ({ secondBinderPct = 5, end = 'accepted' }: LabLife = {}): Told[] => {
  const samples = samplesOf(SPEC.frequencies);
  const drawn = drawPlan(sha256, SECRET, LOT, 10_000, samples);
  const nonce = nonceOf(sha256, SECRET, LOT);
  const commitment = sha256(planText(LOT, nonce, drawn));
  const life = new Life();
  life.tell(lotOpened(2, LOT), [
    2,
    { is: 'samplesPlanned', lot: LOT, specification: SPEC.id, commitment, samples },
  ]);
  const grams = 750_600;
  for (let n = 1; n <= 13; n += 1) {
    const atS = 10 + (n - 1) * 400;
    for (const sample of drawn)
      if (sample.atKg * 1000 >= (n - 1) * grams && sample.atKg * 1000 < n * grams)
        life.tell([
          atS,
          { is: 'sampleDue', lot: LOT, sample: sample.n, test: sample.test, atKg: sample.atKg, batch: n },
        ]);
    life.tell(...emulsionBatch(n, atS, LOT));
    for (const sample of drawn)
      if (sample.atKg * 1000 >= (n - 1) * grams && sample.atKg * 1000 < n * grams)
        life.tell([atS + 305, { is: 'sampleTaken', lot: LOT, sample: sample.n, batch: n, by: WRENNA }]);
  }
  life.tell([5300, { is: 'lotClosed', lot: LOT, grams: 13 * grams, batches: 13, short: false, why: 'full' }]);
  life.tell([5300, { is: 'samplePlanOpened', lot: LOT, nonce, atKg: drawn.map((one) => one.atKg) }]);
  let atS = 6000;
  const rng = uniforms(11);
  for (const sample of samples) {
    ask(life, atS, WRENNA, {
      do: 'logSample',
      lot: LOT,
      sample: sample.n,
      massKg: 6,
      container: 'tin with lid',
      retainedKg: sample.test === 'binder content' ? 2 : 0,
    });
    ask(life, atS, WRENNA, {
      do: 'handOverSample',
      lot: LOT,
      sample: sample.n,
      from: 'wrenna',
      to: 'isolde',
      remark: '',
    });
    atS += 60;
  }
  let seen = 0;
  atS = 20_000;
  for (const sample of samples) {
    const sheet = SHEET[sample.test];
    if (sheet === undefined) continue;
    if (sample.test === 'binder content') seen += 1;
    const state = life.state;
    const lot = state.lots[LOT];
    if (lot === undefined) throw new Error('the book has no such lot');
    const truth =
      seen === 2 && sheet === 'extraction' ? { ...TRUTH, residualBinderMixPct: secondBinderPct } : TRUTH;
    const readings = benchReadings(
      sheet,
      truth,
      rng,
      0,
      sheetContext(state, lot, sample.n, clock(86_400 + atS)),
    );
    ask(life, atS + 86_400, ISOLDE, {
      do: 'enterWorksheet',
      sheet,
      lot: LOT,
      sample: sample.n,
      readings,
      balance: 'B-2',
    });
    atS += 300;
  }
  const last = 86_400 + atS;
  if (end === 'accepted') ask(life, last, ISOLDE, { do: 'acceptLot', lot: LOT, remark: 'All in order.' });
  if (end === 'rejected') ask(life, last, ISOLDE, { do: 'rejectLot', lot: LOT, reason: 'Binder too lean.' });
  if (end === 'released by concession') {
    ask(life, last, ISOLDE, { do: 'askConcession', lot: LOT, reason: 'For a temporary patch in the yard.' });
    ask(life, last + 60, HALVARD, {
      do: 'grantConcession',
      lot: LOT,
      reason: 'Temporary patch in our own yard only.',
    });
  }
  return life.told;
};

const NAMES = new Map(scenarioOf('plain-mixes').people.map((person) => [person.id, person.name]));

/** What the lab did, as the papers show it. */
export const labWorkOfTold = (told: readonly Told[]): LabWork => {
  const entries: Entry[] = entriesOf(told);
  const replayed = new Life();
  replayed.tell(...told);
  const { state } = replayed;
  const lot = state.lots[LOT];
  const newest = entries.at(-1);
  if (lot === undefined || newest === undefined) throw new Error('no such lot');
  const nameOf = (id: string): string => NAMES.get(id) ?? id;
  const decided = entries.findLast(
    (one) =>
      one.kind === 'ledger' && ['lotAccepted', 'lotRejected', 'concessionGranted'].includes(one.body.fact.is),
  );
  const fact = decided?.kind === 'ledger' ? decided.body.fact : null;
  return labWorkOf(state, lot, {
    nameOf,
    record: { seq: newest.seq, hash: newest.hash, wall: newest.wall },
    decision:
      decided?.kind !== 'ledger' || fact === null
        ? null
        : {
            what: lot.state,
            by: nameOf(decided.body.by.person),
            role: decided.body.by.role,
            at: decided.body.at.replace('T', ' '),
            reason: String(fact.remark ?? fact.reason ?? ''),
            askedBy: typeof fact.askedBy === 'string' ? nameOf(fact.askedBy) : null,
            seq: decided.seq,
            hash: decided.hash,
          },
  });
};
