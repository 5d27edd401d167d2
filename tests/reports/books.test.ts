/** Totals of the reports against shifts worked out on paper, to the gram. */
import { describe, expect, it } from 'vitest';
import { documentOf } from '../../machines/reports/documents/document-of.ts';
import type { ReportFilter, ReportKind } from '../../machines/reports/filter.ts';
import { filterComplaints } from '../../machines/reports/filter.ts';
import { makeReport, type Report } from '../../machines/reports/report.ts';
import type { ReportSource } from '../../machines/reports/source.ts';
import {
  commandAt,
  emulsionBatch,
  HALVARD,
  lotOpened,
  SEAL,
  shiftOf,
  sourceOf,
  type Told,
  WRENNA,
} from './support/shift.ts';

const report = <K extends ReportKind>(kind: K, source: ReportSource, filter: ReportFilter = {}) => {
  const made = makeReport(kind, source, filter);
  if (!made.ok) throw new Error(made.why);
  return made.report as Extract<Report, { kind: K }>;
};

/** Two batches of 750.6 kg and one of 755.6 kg into one lot, one more dumped. */
const TOLD: Told[] = [
  commandAt(1, { do: 'start', batches: 3 }),
  lotOpened(2, '260414-1'),
  ...emulsionBatch(1, 10, '260414-1'),
  [250, { is: 'sampleDue', lot: '260414-1', sample: 1 }],
  [280, { is: 'sampleTaken', lot: '260414-1', sample: 1, batch: 1, by: WRENNA }],
  ...emulsionBatch(2, 400, '260414-1'),
  ...emulsionBatch(3, 800, '260414-1', { chipsKg: 316 }),
  ...emulsionBatch(4, 1200, '260414-1', { grams: 0 }).slice(0, -2),
  [1500, { is: 'massMoved', from: 'mixer', to: 'waste', grams: 750_600, material: 'waste' }],
  [1500, { is: 'batchDumped', batch: 4, grams: 750_600, reason: 'coating came off', by: WRENNA }],
  [1600, { is: 'massMoved', from: 'materials', to: 'hopper', grams: 12_345, material: 'Chips' }],
  [
    1700,
    {
      is: 'commandRefused',
      id: 'refused-1',
      command: 'lightBurner',
      by: WRENNA,
      because: ['FI-11 The pug mill holds solvent-bearing binder at 71.4 °C.', 'Another reason'],
    },
  ],
  [1800, { is: 'tripLatched', causes: ['FT-01'] }],
  [1810, { is: 'tripLatched', causes: ['FT-02'] }],
  [1900, { is: 'tripReset', by: HALVARD }],
  [
    2000,
    { is: 'lotClosed', lot: '260414-1', grams: 2_256_800, batches: 3, short: true, why: 'the shift ended' },
  ],
  [2000, { is: 'shiftEnded', by: WRENNA }],
];
const SOURCE = sourceOf(shiftOf(TOLD));

describe('the shift report', () => {
  const shift = report('shift', SOURCE);

  it('closes the books to the gram', () => {
    expect(shift.books).toMatchObject({
      inGrams: 3 * 750_600 + 755_600 + 12_345,
      lotsGrams: 2 * 750_600 + 755_600,
      lotsBookedGrams: 2 * 750_600 + 755_600,
      wasteGrams: 750_600,
      heldGrams: 12_345,
      held: [{ where: 'hopper', grams: 12_345 }],
      errorGrams: 0,
    });
    expect(shift.books.materialsIn.reduce((sum, one) => sum + one.grams, 0)).toBe(shift.books.inGrams);
  });

  it('shows it when the books do not close', () => {
    const crooked = TOLD.map(
      ([atS, told]): Told => [
        atS,
        'is' in told && told.is === 'batchDischarged' && told.batch === 2
          ? { ...told, grams: told.grams - 1 }
          : told,
      ],
    );
    const wrong = report('shift', sourceOf(shiftOf(crooked)));
    expect(wrong.books.errorGrams).toBe(1);
    const books = documentOf(wrong).sections.find((section) => section.id === 'books');
    expect(books?.is === 'table' && books.rows[books.look?.[0] ?? -1]).toEqual([
      'in less out less held',
      0.001,
      'the books do not close',
    ]);
  });

  it('counts what was made, dumped, sampled and refused', () => {
    expect(shift.made).toMatchObject({
      batches: 3,
      dumped: 1,
      lots: 1,
      grams: 2_256_800,
      trips: 1,
      refusals: 1,
      samplesTaken: 1,
    });
    expect(shift.lots[0]?.samples.map((sample) => sample.state)).toEqual(['taken', 'not reached']);
    expect(shift.trips).toMatchObject([
      { stoodS: 100, resetBy: 'Halvard Quill', causes: [{ id: 'FT-01' }, { id: 'FT-02' }] },
    ]);
  });

  it('sums materials over batches, weighed against asked for', () => {
    expect(shift.materials.find((one) => one.material === 'Chips')).toEqual({
      material: 'Chips',
      batches: 4,
      targetKg: 1244,
      weighedKg: 1249,
      offKg: 5,
      offPct: 0.402,
    });
  });

  it('marks a weight outside the tolerance of the mix: 316 kg of 311 kg at 1.5 %', () => {
    const chips = shift.batches[2]?.parts.find((part) => part.material === 'Chips');
    expect(chips).toMatchObject({ offKg: 5, offPct: 1.61, toleranceKg: 4.665, within: false });
    expect(shift.batches[0]?.parts.every((part) => part.within !== false)).toBe(true);
  });

  it('follows its filters, and says that the books do not', () => {
    const water = report('shift', SOURCE, { material: 'water' });
    expect(water.materials.map((one) => one.material)).toEqual(['water']);
    expect(water.books).toEqual(shift.books);
    expect(report('shift', SOURCE, { material: 'cutback' }).batches).toEqual([]);
    expect(report('shift', SOURCE, { person: 'halvard' }).batches).toEqual([]);
    // Batches of a run are started by the line; they belong to whoever asked for the run.
    expect(report('shift', SOURCE, { person: 'wrenna' }).batches).toHaveLength(4);
    expect(report('shift', SOURCE, { lot: 'no such' }).batches).toEqual([]);
  });
});

describe('the lot file', () => {
  it('agrees with its batches, the books and the closing', () => {
    const lot = report('lot', SOURCE, { lot: '260414-1' });
    expect(lot.lot.grams).toBe(2_256_800);
    expect(lot.bookedGrams).toBe(2_256_800);
    expect(lot.closedGrams).toBe(2_256_800);
    expect(lot.dumpedGrams).toBe(750_600);
    expect(lot.batches.reduce((sum, batch) => sum + batch.grams, 0)).toBe(2_256_800);
    expect(lot.lot.batches).toEqual([1, 2, 3]);
  });

  it('says in words that there is no such lot', () => {
    expect(makeReport('lot', SOURCE, { lot: 'x' })).toEqual({
      ok: false,
      why: 'Shift 1 has no lot x: its lots are 260414-1.',
    });
  });
});

describe('the batch sheet', () => {
  it('holds steps, weights and the binder on aggregate: 51.6 of 699 kg is 7.38 %', () => {
    const sheet = report('batch', SOURCE, { batch: 3 });
    expect(sheet.batch).toMatchObject({
      batch: 3,
      grams: 755_600,
      outcome: 'discharged',
      inRun: true,
      startedBy: { id: 'wrenna' },
    });
    expect(sheet.steps.map((step) => [step.step, step.forS])).toEqual([
      ['charging', 90],
      ['dropping', 40],
      ['mixing', 130],
      ['discharging', 40],
    ]);
    expect(sheet.binderPct).toEqual({ asked: 7.44, got: 7.38 });
  });

  it('of a dumped batch names who, why and what had been weighed, water by the books', () => {
    const sheet = report('batch', SOURCE, { batch: 4 });
    expect(sheet.batch).toMatchObject({
      outcome: 'dumped',
      grams: 0,
      dumpedGrams: 750_600,
      dumpedWhy: 'coating came off',
    });
    expect(sheet.batch.parts.find((part) => part.material === 'water')).toMatchObject({ weighedKg: 5 });
  });
});

describe('refusals and trips', () => {
  it('counts a reason by its words, whatever its figures, and keeps the numbers of causes', () => {
    const refusals = report('refusals', SOURCE);
    expect(refusals.byReason).toEqual([
      { words: 'Another reason', times: 1 },
      { words: 'FI-11 The pug mill holds solvent-bearing binder at … °C.', times: 1 },
    ]);
    expect(refusals.refusals[0]).toMatchObject({ at: '2026-04-14 06:28:20', by: { name: 'Wrenna Oskal' } });
    expect(report('refusals', SOURCE, { person: 'halvard' }).refusals).toEqual([]);
  });
});

describe('the seal in a report', () => {
  const words = (source: ReportSource): string => {
    const seal = documentOf(report('shift', source)).sections.find((section) => section.id === 'seal');
    return seal?.is === 'words' ? seal.lines.join('\n') : '';
  };

  it('is printed with root, key, signature and who countersigned', () => {
    const text = words(sourceOf(shiftOf(TOLD, { seal: SEAL })));
    for (const wanted of [SEAL.root, SEAL.key, SEAL.signature, 'Halvard Quill', 'looked at', 'entry 41'])
      expect(text).toContain(wanted);
  });

  it('is said to be missing where it is', () => {
    expect(words(SOURCE)).toMatch(/^Not sealed\. The shift has ended/);
    expect(words(sourceOf(shiftOf(TOLD.slice(0, -1))))).toMatch(/had not ended/);
  });
});

describe('what is handed over', () => {
  const closed = (inGrams: number): Told[] => [
    ...TOLD.slice(0, -1),
    [
      1950,
      {
        is: 'causeInhibited',
        cause: 'FT-01',
        minutes: 20,
        reason: 'detector test',
        askedBy: WRENNA,
        by: HALVARD,
      },
    ],
    [
      1960,
      { is: 'causeProved', cause: 'FT-02', on: '2026-04-14', result: 'passed', remark: '', by: HALVARD },
    ],
    [
      2000,
      {
        is: 'shiftEnded',
        by: WRENNA,
        handover: {
          notes: 'bin 3 is nearly empty',
          alarms: [{ alarm: 'step-slow', state: 'acknowledged' }],
          inhibits: [{ cause: 'FT-01', reason: 'detector test', by: 'wrenna' }],
          permits: [],
          counts: { inGrams, lots: [], wasteGrams: 0, waterLostGrams: 0, held: [], differenceGrams: 0 },
        },
      },
    ],
  ];
  const words = (inGrams: number, id: string): string => {
    const section = documentOf(report('shift', sourceOf(shiftOf(closed(inGrams))))).sections.find(
      (one) => one.id === id,
    );
    return section?.is === 'words'
      ? section.lines.join('\n')
      : JSON.stringify(section?.is === 'table' && section.rows);
  };

  it('is told with what was left open, and its count is held against the books', () => {
    const text = words(3_019_745, 'handover');
    for (const wanted of [
      'bin 3 is nearly empty',
      'This step takes longer',
      'Inhibit left by Wrenna Oskal: FT-01',
      'agrees with these books',
    ])
      expect(text).toContain(wanted);
    expect(words(3_019_744, 'handover')).toContain('does not agree: 3019744 g taken in');
  });

  it('comes with every proof test and inhibit of the shift', () => {
    expect(words(0, 'safety')).toContain('Inhibited for 20 min, asked for by wrenna: FT-01');
    expect(words(0, 'safety')).toContain('Proof test passed: FT-02');
  });
});

describe('filters', () => {
  it.each([
    ['batch', {}, 'needs the number of its batch'],
    ['lot', {}, 'needs the number of its lot'],
    ['alarms', { person: 'wrenna' }, 'has no filter by person'],
    ['shift', { from: '2026-05-02', to: '2026-05-01' }, 'run backwards'],
  ] as const)('%s with %j is refused in words', (kind, filter, words) => {
    expect(filterComplaints(kind, filter).join(' ')).toContain(words);
  });
});
