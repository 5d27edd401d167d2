/** What becomes of a lot: the program proposes, a person decides, a second one concedes, nothing is ever lost. */
import { describe, expect, it } from 'vitest';
import { labBook } from '../../machines/lab/book.ts';
import { LAB_PERMISSIONS, labCommandSchema } from '../../machines/lab/commands.ts';
import { LOTS_KEPT, LOTS_WHOLE } from '../../machines/lab/fold-away.ts';
import { allLots, stateOfLot, whyNotLeave } from '../../machines/lab/lots.ts';
import { labWords } from '../../machines/lab/words.ts';
import { GOOD, LOT, TestLab } from './support/lab.ts';

const POOR = { ...GOOD, residualBinderMixPct: 4.1, residualBinderAggPct: 4.275 };
const tested = (truth = GOOD) => new TestLab().fill().logAll().later().testAll(truth);

describe('a lot', () => {
  it('goes through its states in plain words, with what is missing always listed', () => {
    const lab = new TestLab().fill({ close: false, batches: 0 });
    expect(lab.lot().state).toBe('open');
    expect(lab.lot().missing[0]).toBe('The lot is not closed yet.');
    const full = new TestLab().fill();
    expect(full.lot().state).toBe('sampling');
    full.logAll();
    expect(full.lot().state).toBe('testing');
    expect(full.lot().missing.length).toBeGreaterThan(4);
    full.later().testAll();
    expect(full.lot()).toMatchObject({ state: 'testing', verdict: 'pass', missing: [], proposal: 'accept' });
    expect(whyNotLeave(full.state, LOT)).toContain('only an accepted lot');
    full.does('isolde', { do: 'acceptLot', lot: LOT });
    expect(stateOfLot(full.state, LOT)).toBe('accepted');
    expect(whyNotLeave(full.state, LOT)).toBeNull();
  });

  it('is accepted by nobody but the officer, and not while anything is missing or fails', () => {
    const lab = new TestLab().fill().logAll();
    expect(lab.refused('halvard', { do: 'acceptLot', lot: LOT })).toContain('supervisor');
    expect(lab.refused('isolde', { do: 'acceptLot', lot: LOT })).toContain('It is missing: gradation');
    expect(tested(POOR).refused('isolde', { do: 'acceptLot', lot: LOT })).toContain(
      'It fails: residual binder',
    );
  });

  it('whose sampling plan does not hold is not accepted', () => {
    const lab = tested();
    const plan = lab.lot().plan;
    lab.state = {
      ...lab.state,
      lots: {
        ...lab.state.lots,
        [LOT]: {
          ...lab.lot(),
          plan: { ...(plan as NonNullable<typeof plan>), findings: ['it was opened otherwise'] },
        },
      },
    };
    expect(lab.refused('isolde', { do: 'acceptLot', lot: LOT })).toContain('sampling plan does not hold');
    expect(lab.view().tasks[0]?.what).toBe('plan');
  });

  it('held by a person stays held until that is lifted', () => {
    const lab = tested();
    lab.does('isolde', { do: 'holdLot', lot: LOT, reason: 'smells of diesel' });
    expect(lab.refused('isolde', { do: 'acceptLot', lot: LOT })).toContain('lift the hold first');
    expect(lab.refused('isolde', { do: 'holdLot', lot: LOT, reason: 'again' })).toContain('already');
    lab.does('isolde', {
      do: 'investigate',
      lot: LOT,
      note: 'tank smelt; contents identified',
      batches: [3, 4],
    });
    expect(lab.refused('isolde', { do: 'investigate', lot: LOT, note: 'other', batches: [99] })).toContain(
      'Batch 99',
    );
    lab
      .does('isolde', { do: 'liftHold', lot: LOT, reason: 'nothing found' })
      .does('isolde', { do: 'acceptLot', lot: LOT });
    expect(lab.lot().events.map((one) => one.what)).toEqual([
      'put on hold',
      'batches 3, 4 looked into',
      'hold lifted',
      'accepted',
    ]);
  });

  it('that fails is rejected and sent to waste, or reworked, once', () => {
    const lab = tested(POOR);
    expect(lab.refused('isolde', { do: 'sendToWaste', lot: LOT, reason: 'too lean' })).toContain(
      'reject it first',
    );
    expect(lab.refused('isolde', { do: 'liftHold', lot: LOT, reason: 'it will do' })).toContain(
      'does not meet',
    );
    lab
      .does('isolde', { do: 'rejectLot', lot: LOT, reason: 'too lean' })
      .does('halvard', { do: 'reworkLot', lot: LOT, reason: 'binder can be added' });
    expect(lab.lot()).toMatchObject({ state: 'rejected', done: 'being reworked' });
    expect(lab.refused('isolde', { do: 'sendToWaste', lot: LOT, reason: 'too lean' })).toContain(
      'being reworked already',
    );
  });

  it('is released by concession by a second person only: a supervisor who neither asked nor tested', () => {
    const lab = tested(POOR);
    const grant = { do: 'grantConcession', lot: LOT, reason: 'for a car park, half thickness' };
    expect(lab.refused('halvard', grant)).toContain('Nobody has asked');
    lab.does('isolde', { do: 'askConcession', lot: LOT, reason: 'binder a little low' });
    expect(lab.view().tasks.map((task) => task.what)).toContain('concession');
    expect(lab.refused('isolde', grant)).toContain('quality officer');
    lab.does('halvard', grant);
    expect(lab.lot()).toMatchObject({
      state: 'released by concession',
      decidedBy: 'halvard',
      verdict: 'fail',
    });
    expect(lab.facts.at(-1)).toMatchObject({
      askedBy: 'isolde',
      failing: expect.arrayContaining([expect.stringContaining('4.10 %')]),
    });
    expect(whyNotLeave(lab.state, LOT)).toBeNull();
  });

  it('tested by the supervisor is not conceded by the same', () => {
    const lab = new TestLab().fill().logAll().later();
    for (const { n } of lab.lot().samples)
      lab.does('halvard', { do: 'enterWorksheet', lot: LOT, sample: n, ...lab.readings(n, POOR) });
    lab.does('isolde', { do: 'askConcession', lot: LOT, reason: 'binder low' });
    expect(lab.refused('halvard', { do: 'grantConcession', lot: LOT, reason: 'fine' })).toContain(
      'a second person',
    );
    lab.does('halvard', { do: 'refuseConcession', lot: LOT, reason: 'not mine to give' });
    expect(lab.lot().concession).toBeNull();
  });

  it('once decided is left alone until the decision is re-opened with a reason', () => {
    const lab = tested().does('isolde', { do: 'acceptLot', lot: LOT });
    const id = lab.lot().worksheets[0]?.id;
    expect(lab.refused('isolde', { do: 'setWorksheetAside', worksheet: id, reason: 'doubt' })).toContain(
      're-open the decision first',
    );
    expect(lab.refused('isolde', { do: 'rejectLot', lot: LOT, reason: 'doubt' })).toContain(
      'accepted by isolde',
    );
    lab.does('isolde', { do: 'reopenDecision', lot: LOT, reason: 'balance found wrong' });
    expect(lab.lot()).toMatchObject({ state: 'testing', decidedBy: null });
    expect(lab.facts.at(-1)).toMatchObject({ was: 'accepted' });
    lab.does('isolde', { do: 'setWorksheetAside', worksheet: id, reason: 'balance found wrong' });
    expect(lab.lot().verdict).toBe('incomplete');
  });
});

describe('a decision that is re-opened', () => {
  it('says what of the lot has left the yard already, and where to look for it', () => {
    const lab = tested().does('isolde', { do: 'acceptLot', lot: LOT });
    lab.others = { stock: { lots: { [LOT]: { loadedGrams: 4_000_000, returnedGrams: 800_000 } } } };
    lab.does('isolde', { do: 'reopenDecision', lot: LOT, reason: 'balance found wrong' });
    expect(lab.facts.at(-1)).toMatchObject({ leftYardGrams: 3_200_000 });
    expect(lab.view().tasks[0]?.words).toContain('3.20 t of lot');
    expect(labWords(lab.facts.at(-1) as never)).toContain('3.20 t of it had left the yard');
  });
});

describe('the book', () => {
  it('has a row of permissions for every command and words for every fact it told', () => {
    const commands = labCommandSchema.options.map((one) => one.shape.do.value);
    expect(Object.keys(LAB_PERMISSIONS).sort()).toEqual([...commands].sort());
    const lab = tested(POOR).does('isolde', { do: 'rejectLot', lot: LOT, reason: 'too lean' });
    for (const fact of lab.facts) expect(labWords(fact)).toMatch(/^(Sample|Worksheet|Lot) /);
  });

  it('hears the same facts to the same state, and keeps it as plain JSON', () => {
    const lab = tested(POOR);
    expect(JSON.parse(JSON.stringify(lab.state))).toEqual(lab.state);
  });

  it('throws at a lab fact it does not know, and passes over other books', () => {
    const lab = tested();
    const heard = {
      seq: 9999,
      shift: 1,
      at: lab.at,
      by: { person: 'isolde', role: 'quality officer' } as const,
    };
    expect(() => labBook.hear(lab.state, { ...heard, from: 'lab', fact: { is: 'lotBlessed' } })).toThrow(
      'lotBlessed',
    );
    expect(labBook.hear(lab.state, { ...heard, from: 'stock', fact: { is: 'lotBlessed' } })).toBe(lab.state);
  });

  it('stays small: old decided lots keep a summary, very old ones are left to the record', () => {
    const lab = tested().does('isolde', { do: 'acceptLot', lot: LOT });
    const kept = lab.lot();
    const lots: Record<string, typeof kept> = {};
    const name = (i: number) => `${String(100101 + Math.floor(i / 9) * 7).padStart(6, '0')}-${(i % 9) + 1}`;
    for (let i = 0; i < LOTS_KEPT + 50; i += 1)
      lots[name(i)] = {
        ...kept,
        lot: name(i),
        samples: kept.samples.map((one) => ({ ...one, discarded: true })),
      };
    lab.state = { ...lab.state, lots };
    for (let round = 0; round < 2; round += 1) {
      // What is known and what is saved and read again must come to the same.
      if (round === 1) lab.state = JSON.parse(JSON.stringify(lab.state));
      lab.tell({
        is: 'lotOpened',
        lot: `99010${round}-1`,
        mix: kept.mixId,
        mixVersion: 1,
        family: 'emulsion',
        bay: 1,
      });
    }
    const all = allLots(lab.state);
    expect(all.length).toBeLessThanOrEqual(LOTS_KEPT + 1);
    expect(all.filter((one) => !one.folded).length).toBeLessThanOrEqual(LOTS_WHOLE + 1);
    const folded = all.find((one) => one.folded);
    expect(folded).toMatchObject({
      state: 'accepted',
      verdict: 'pass',
      results: kept.results,
      worksheets: [],
    });
    expect(whyNotLeave(lab.state, folded?.lot ?? '')).toBeNull();
    // Ten years have 25,000 lots; the book holds a year of summaries.
    expect(JSON.stringify(lab.state).length).toBeLessThan(8e6);
  });
});
