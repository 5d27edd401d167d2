/** The book of job mixes: versions, who may approve, what withdraws, trials, factors, bins; and what it is shown as. */
import { describe, expect, it } from 'vitest';
import type { Who } from '../../../machines/line/facts.ts';
import type { Heard, Told } from '../../../machines/record/book.types.ts';
import type { Mix } from '../../../machines/scenario/mix.schema.ts';
import { shiftSchema } from '../../../machines/scenario/shift.schema.ts';
import { approvedMix, approvedMixes } from '../../../machines/yard/mixes/approved.ts';
import { mixesBook } from '../../../machines/yard/mixes/book.ts';
import {
  MIXES_PERMISSIONS,
  type MixesCommand,
  mixesCommandSchema,
} from '../../../machines/yard/mixes/commands.ts';
import type { MixFact } from '../../../machines/yard/mixes/facts.ts';
import { TRIALS_KEPT } from '../../../machines/yard/mixes/hear.ts';
import type { MixesState } from '../../../machines/yard/mixes/state.ts';
import { viewMixes } from '../../../machines/yard/mixes/view.ts';
import { mixWords } from '../../../machines/yard/mixes/words.ts';
import { cutbackMix, demoSpec, emulsionMix } from '../../plant/demo.ts';

const AT = '2026-05-12T09:30:00';
const isolde: Who = { person: 'isolde', role: 'quality officer' };
const halvard: Who = { person: 'halvard', role: 'supervisor' };
const pell: Who = { person: 'pell', role: 'storekeeper' };

const shift = shiftSchema.parse({
  kind: 'shift',
  id: 'a-day',
  name: 'A day',
  plant: 'p',
  people: 'p',
  mixes: ['m'],
  date: '2026-05-12',
  startsAt: '06:00',
  hours: 8,
  seed: 1,
  weather: { startC: 9, warmestC: 20 },
  moisture: [{ bin: 3, testedPct: 9.5, truePct: 9.4 }],
  orders: [{ mix: emulsionMix.id, tonnes: 10, bay: 1 }],
});

const opening = (...mixes: Mix[]): Heard => ({
  seq: 1,
  shift: 1,
  at: '2026-05-12T06:00:00',
  from: 'opening',
  scenario: { shift, plant: demoSpec, mixes, people: [] },
});

/** The book with the demo mixes as a shift was opened with them. */
const opened = (...mixes: Mix[]): MixesState =>
  mixesBook.hear(mixesBook.empty, opening(...(mixes.length > 0 ? mixes : [emulsionMix, cutbackMix])));

const hear = (state: MixesState, by: Who, facts: readonly MixFact[], at = AT): MixesState =>
  facts.reduce(
    (now, fact, i) => mixesBook.hear(now, { seq: 10 + i, shift: 1, at, from: 'mixes', by, fact }),
    state,
  );

const ask = (state: MixesState, by: Who, command: MixesCommand): Told<MixFact> =>
  mixesBook.answer(state, { command, by, at: AT }, {});

/** Puts a command and hears its facts; throws the reasons when it was refused. */
const put = (state: MixesState, by: Who, command: MixesCommand): MixesState => {
  const told = ask(state, by, mixesCommandSchema.parse(command));
  if (!told.ok) throw new Error(told.because.join(' '));
  return hear(state, by, told.facts);
};

const because = (told: Told<MixFact>): string => (told.ok ? 'done' : told.because.join(' '));

const dosed = (mix: Mix, dosePct: number): Mix => ({ ...mix, binder: { ...mix.binder, dosePct } });
const draft = (content: Mix, why = 'a trial said so'): MixesCommand => ({
  do: 'draftMix',
  content,
  why,
  from: { mix: content.id, version: 1 },
});
const EMULSION = emulsionMix.id;
const CUTBACK = cutbackMix.id;

describe('versions', () => {
  it('those a shift was opened with are in force from the start', () => {
    const state = opened();
    expect(approvedMixes(state)).toEqual([cutbackMix, emulsionMix]);
    expect(state.mixes[EMULSION]?.[0]?.why).toBe('came with the files of shift a-day');
    expect(state.plant?.bins[2]?.testedMoisturePct).toBe(9.5);
  });

  it('a draft keeps its whole content and gets the next number; the one in force stays', () => {
    const state = put(opened(), isolde, draft(dosed(emulsionMix, 7.9)));
    const [first, second] = state.mixes[EMULSION] ?? [];
    expect(first?.state).toBe('approved');
    expect(second).toMatchObject({
      state: 'draft',
      draftedBy: isolde,
      draftedAt: AT,
      why: 'a trial said so',
    });
    expect(second?.content).toEqual({ ...dosed(emulsionMix, 7.9), version: 2 });
    expect(approvedMix(state, EMULSION)).toEqual(emulsionMix);
  });

  it('approved, it takes the place of the one before; withdrawn, that one is in force again', () => {
    let state = put(opened(), isolde, draft(dosed(emulsionMix, 7.9)));
    state = put(state, isolde, { do: 'approveMix', mix: EMULSION, version: 2, note: '' });
    expect(approvedMix(state, EMULSION)?.binder.dosePct).toBe(7.9);
    expect(state.mixes[EMULSION]?.map((one) => one.state)).toEqual(['superseded', 'approved']);
    state = put(state, halvard, { do: 'withdrawMix', mix: EMULSION, version: 2, reason: 'runs off' });
    expect(approvedMix(state, EMULSION)).toEqual(emulsionMix);
    expect(state.mixes[EMULSION]?.[1]?.withdrawn).toEqual({ by: halvard, at: AT, reason: 'runs off' });
  });

  it('a cutback mix is not approved by its author alone, an emulsion mix may be', () => {
    const state = put(opened(), isolde, draft(dosed(cutbackMix, 5.8)));
    const own = ask(state, isolde, { do: 'approveMix', mix: CUTBACK, version: 2, note: '' });
    expect(because(own)).toContain('somebody else than the person who drafted it');
    expect(ask(state, halvard, { do: 'approveMix', mix: CUTBACK, version: 2, note: '' }).ok).toBe(true);
  });

  it('only the supervisor and the quality officer approve', () => {
    expect([...MIXES_PERMISSIONS.approveMix].sort()).toEqual(['quality officer', 'supervisor']);
  });

  it('refuses in words what cannot be', () => {
    const state = put(opened(), isolde, draft(dosed(emulsionMix, 7.9)));
    const approve = (version: number): MixesCommand => ({
      do: 'approveMix',
      mix: EMULSION,
      version,
      note: '',
    });
    expect(because(ask(state, isolde, draft(dosed(emulsionMix, 7.9))))).toContain(
      'says exactly this already',
    );
    expect(because(ask(state, isolde, draft({ ...cutbackMix, id: EMULSION })))).toContain(
      'never changes its family',
    );
    expect(because(ask(state, halvard, approve(9)))).toContain('There is no version 9');
    expect(because(ask(state, halvard, approve(1)))).toContain('is approved already');
    const gone = put(state, isolde, { do: 'withdrawMix', mix: EMULSION, version: 2, reason: 'mistake' });
    expect(because(ask(gone, halvard, approve(2)))).toContain('draft it anew');
    const withdraw: MixesCommand = { do: 'withdrawMix', mix: EMULSION, version: 1, reason: 'no reason' };
    expect(because(ask(state, pell, withdraw))).toContain('by the supervisor or the quality officer');
  });

  it('refuses a mix the plant cannot make, naming what to change', () => {
    const state = opened();
    const big = { ...emulsionMix, batchKg: 900 };
    expect(because(ask(state, isolde, draft(big)))).toContain('does not fit the mixer, which holds 750 kg');
    const strange = { ...emulsionMix, aggregates: [{ bin: 4, dryPct: 100 }] };
    expect(because(ask(state, isolde, draft(strange)))).toContain('take the share of bin 4 from another');
    const soaked = dosed(emulsionMix, 15);
    expect(ask(state, isolde, draft(soaked)).ok).toBe(true);
  });

  it('a later shift with a newer file puts that in force; other content under a known number is told', () => {
    const newer = { ...dosed(emulsionMix, 8), version: 3 };
    const state = mixesBook.hear(opened(), opening(newer));
    expect(approvedMix(state, EMULSION)?.version).toBe(3);
    const older = mixesBook.hear(state, opening({ ...dosed(emulsionMix, 7), version: 2 }));
    expect(approvedMix(older, EMULSION)?.version).toBe(3);
    expect(older.mixes[EMULSION]?.map((one) => one.content.version)).toEqual([1, 2, 3]);
    const other = mixesBook.hear(opened(), opening(dosed(emulsionMix, 6)));
    expect(other.mixes[EMULSION]?.[0]?.differs).toContain('says something else');
    expect(other.mixes[EMULSION]?.[0]?.content).toEqual(emulsionMix);
  });
});

describe('trials, factors and bins', () => {
  const results = [{ property: 'residualBinderMixPct', unit: '%', predicted: 4.31, measured: 4.4 }];
  const trial: MixesCommand = {
    do: 'recordTrial',
    mix: EMULSION,
    version: 1,
    batch: '260512-1/3',
    kg: 750,
    results,
    note: '',
  };

  it('a trial gets a name, and a correction keeps what it said before', () => {
    let state = put(opened(), isolde, trial);
    expect(state.trials[0]).toMatchObject({ trial: 'T-260512-1', batch: '260512-1/3', results });
    const now = [{ ...results[0], measured: 4.2 } as (typeof results)[number]];
    state = put(state, isolde, { do: 'correctTrial', trial: 'T-260512-1', results: now, reason: 'misread' });
    expect(state.trials[0]?.results).toEqual(now);
    expect(state.trials[0]?.corrections).toEqual([{ by: isolde, at: AT, reason: 'misread', was: results }]);
    expect(
      because(ask(state, isolde, { ...trial, results: [...results, ...results] } as MixesCommand)),
    ).toContain('stands twice');
    expect(because(ask(state, isolde, { ...trial, version: 7 } as MixesCommand))).toContain('no version 7');
  });

  it('keeps the newest trials at hand and no more', () => {
    let state = opened();
    for (let i = 0; i < TRIALS_KEPT + 5; i += 1) state = put(state, isolde, trial);
    expect(state.trials).toHaveLength(TRIALS_KEPT);
    expect(state.trials.at(-1)?.trial).toBe(`T-260512-${TRIALS_KEPT + 5}`);
  });

  it('a factor keeps its source; an unknown one and the same again are refused', () => {
    const set: MixesCommand = {
      do: 'setFactor',
      factor: 'fuelPricePerL',
      value: 1.35,
      source: 'bill of May',
      reason: 'new price',
    };
    const state = put(opened(), pell, set);
    const row = viewMixes(state, AT).factors.find((one) => one.id === 'fuelPricePerL');
    expect(row).toMatchObject({ value: 1.35, source: 'bill of May', changed: true });
    expect(because(ask(state, pell, set))).toContain('says exactly this already');
    expect(because(ask(state, pell, { ...set, factor: 'toString' } as MixesCommand))).toContain(
      'There is no factor',
    );
  });

  it('a bin described anew shows in the view; reclaimed pavement needs its own binder', () => {
    const now = {
      kind: 'reclaimed' as const,
      grading: [
        { sieveMm: 9.5, passingPct: 100 },
        { sieveMm: 2.36, passingPct: 30 },
      ],
      absorptionPct: 0.9,
      ownBinderPct: 4.5,
      source: 'extraction of 10 May',
    };
    const describe_ = (bin: number, change = {}): MixesCommand => ({
      do: 'describeBin',
      bin,
      now: { ...now, ...change },
      reason: 'delivery of milled pavement',
    });
    const state = put(opened(), pell, describe_(2));
    expect(viewMixes(state, AT).bins[1]).toMatchObject({ ...now, described: true, name: 'Grit' });
    expect(viewMixes(state, AT).bins[0]).toMatchObject({ kind: 'crushed stone', described: false });
    expect(because(ask(state, pell, describe_(2, { ownBinderPct: 0 })))).toContain('from an extraction');
    expect(because(ask(state, pell, describe_(2, { kind: 'crushed stone' })))).toContain('Only reclaimed');
    expect(because(ask(state, pell, describe_(4)))).toContain('there is no bin 4');
  });

  it('shows the moisture and analysis the lab has of a bin, and the lab results of lots', () => {
    const lab = {
      moisture: [{ bin: 3, moisturePct: 7.1, at: AT, worksheet: 'W-260512-2' }],
      others: [
        {
          id: 'W-260512-1',
          subject: { kind: 'bin', id: '1' },
          testedAt: AT,
          aside: null,
          results: [
            { property: 'passing:2.36', value: 4 },
            { property: 'passing:9.5', value: 91 },
          ],
        },
      ],
      lots: {
        '260512-1': {
          lot: '260512-1',
          state: 'accepted',
          mixId: EMULSION,
          mixVersion: 1,
          openedAt: AT,
          results: [{ property: 'passing:4.75', value: 50 }],
        },
      },
    };
    const view = viewMixes(opened(), AT, { lab });
    expect(view.bins[2]).toMatchObject({ moisturePct: 7.1, moistureSource: 'W-260512-2, 2026-05-12 09:30' });
    expect(view.bins[0]?.analysis?.grading).toEqual([
      { sieveMm: 9.5, passingPct: 91 },
      { sieveMm: 2.36, passingPct: 4 },
    ]);
    expect(view.mixes.find((mix) => mix.id === EMULSION)?.lots[0]?.lot).toBe('260512-1');
  });
});

it('the state is plain JSON: nothing is lost on the way to disk and back', () => {
  let state = put(opened(), isolde, draft(dosed(emulsionMix, 7.9)));
  state = put(state, halvard, { do: 'approveMix', mix: EMULSION, version: 2, note: 'seen' });
  expect(JSON.parse(JSON.stringify(state))).toEqual(state);
});

it('facts of other books and of the line leave it as it is', () => {
  const state = opened();
  const at = { seq: 5, shift: 1, at: AT, by: isolde } as const;
  expect(mixesBook.hear(state, { ...at, from: 'stock', fact: { is: 'anything' } })).toBe(state);
  expect(mixesBook.hear(state, { ...at, from: 'lab', fact: { is: 'anything' } })).toBe(state);
  expect(() => mixesBook.hear(state, { ...at, from: 'mixes', fact: { is: 'anything' } })).toThrow(
    'does not know',
  );
});

it('every fact has words for the record', () => {
  const told = ask(opened(), isolde, draft(dosed(emulsionMix, 7.9)));
  expect(told.ok && told.facts.map(mixWords)).toEqual([`Drafted ${EMULSION} version 2: a trial said so`]);
});
