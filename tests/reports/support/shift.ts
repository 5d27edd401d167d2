/** Shifts written by hand, fact by fact, so that what a report must say can be worked out on paper. */

import type { CommandEnvelope } from '../../../machines/line/commands.ts';
import type { Fact, Who } from '../../../machines/line/facts.ts';
import { CHAIN_START, sealEntry } from '../../../machines/record/chain.ts';
import type { Entry, EntryContent } from '../../../machines/record/entry.ts';
import type { ReportSource, SealPrint, ShiftSource } from '../../../machines/reports/source.ts';
import { sha256 } from '../../../server/digest.ts';
import { scenarioOf } from '../../line/yard.ts';

export const WRENNA: Who = { person: 'wrenna', role: 'operator' };
export const HALVARD: Who = { person: 'halvard', role: 'supervisor' };
export const LINE: Who = { person: 'line', role: 'line' };

export type Told = readonly [atS: number, content: Fact | EntryContent];

const contentOf = (atS: number, told: Fact | EntryContent): EntryContent =>
  'is' in told ? { kind: 'fact', body: { tick: Math.round(atS * 10), fact: told } } : told;

export const commandAt = (atS: number, command: CommandEnvelope['command'], by = WRENNA): Told => [
  atS,
  {
    kind: 'command',
    body: {
      tick: Math.round(atS * 10),
      envelope: {
        id: `command-${atS}`,
        by: { ...by, console: 'console-a' } as CommandEnvelope['by'],
        command,
      },
    },
  },
];

/** A sealed chain out of what was told, behind an opening and the fact that the shift was opened. */
export const entriesOf = (told: readonly Told[], date = '2026-04-14'): Entry[] => {
  const opening: Told = [
    0,
    {
      kind: 'opening',
      body: {
        format: 1,
        program: 'patchyard test',
        physics: 1,
        engine: 'test',
        scenario: 'plain-mixes',
        scenarioDigest: '0'.repeat(64),
        seed: 1,
      },
    },
  ];
  const opened: Told = [0, { is: 'shiftOpened', shift: 'plain-mixes', date, startsAt: '06:00' }];
  const entries: Entry[] = [];
  let end = CHAIN_START;
  for (const [atS, content] of [opening, opened, ...told]) {
    const { entry } = sealEntry(end, contentOf(atS, content), atS * 1000, '2026-04-14T06:00:00.000Z', sha256);
    entries.push(entry);
    end = { seq: entry.seq, hash: entry.hash };
  }
  return entries;
};

export const shiftOf = (told: readonly Told[], more: Partial<ShiftSource> = {}): ShiftSource => ({
  shift: 1,
  scenario: scenarioOf('plain-mixes'),
  entries: entriesOf(told),
  seal: null,
  ...more,
});

export const sourceOf = (...shifts: readonly ShiftSource[]): ReportSource => ({
  shifts,
  plantKey: 'ab'.repeat(32),
});

export const raise = (atS: number, alarm = 'step-slow'): Told => [
  atS,
  { is: 'alarmChanged', alarm, state: 'unacknowledged', by: null, reason: null },
];
export const settle = (atS: number, alarm: string, state: string, by: Who | null = null): Told => [
  atS,
  { is: 'alarmChanged', alarm, state, by, reason: null },
];

const part = (material: string, targetKg: number, weighedKg: number, accepted: string | null = null) => ({
  material,
  targetKg,
  weighedKg,
  accepted: accepted === null ? null : { by: HALVARD, reason: accepted },
});

/** One emulsion batch of the demonstration mix, 300 s long, weighed as given; all masses in whole grams. */
export const emulsionBatch = (
  n: number,
  atS: number,
  lot: string,
  { chipsKg = 311, waterKg = 5, grams }: { chipsKg?: number; waterKg?: number; grams?: number } = {},
): Told[] => {
  const parts = [
    part('Chips', 311, chipsKg),
    part('Grit', 243, 243),
    part('Fines', 140, 140),
    part('emulsion', 51.6, 51.6),
    part('water', 5, waterKg),
  ];
  const inGrams = Math.round((chipsKg + 243 + 140 + 51.6 + waterKg) * 1000);
  const outGrams = grams ?? inGrams;
  return [
    [
      atS,
      {
        is: 'batchStarted',
        batch: n,
        mix: 'emulsion-patch',
        mixVersion: 1,
        lot,
        by: n === 1 ? WRENNA : LINE,
      },
    ],
    [atS, { is: 'stepEntered', batch: n, step: 'charging' }],
    [
      atS + 60,
      {
        is: 'massMoved',
        from: 'materials',
        to: 'hopper',
        grams: Math.round(chipsKg * 1000),
        material: 'Chips',
      },
    ],
    [atS + 60, { is: 'partWeighed', batch: n, part: part('Chips', 311, chipsKg) }],
    [atS + 70, { is: 'massMoved', from: 'materials', to: 'hopper', grams: 243_000, material: 'Grit' }],
    [atS + 80, { is: 'massMoved', from: 'materials', to: 'hopper', grams: 140_000, material: 'Fines' }],
    [atS + 85, { is: 'massMoved', from: 'materials', to: 'bucket', grams: 51_600, material: 'emulsion' }],
    [atS + 90, { is: 'stepEntered', batch: n, step: 'dropping' }],
    [
      atS + 100,
      {
        is: 'massMoved',
        from: 'hopper',
        to: 'mixer',
        grams: Math.round((chipsKg + 383) * 1000),
        material: 'aggregate',
      },
    ],
    [
      atS + 110,
      {
        is: 'massMoved',
        from: 'materials',
        to: 'mixer',
        grams: Math.round(waterKg * 1000),
        material: 'water',
      },
    ],
    [atS + 120, { is: 'massMoved', from: 'bucket', to: 'mixer', grams: 51_600, material: 'binder' }],
    [atS + 130, { is: 'stepEntered', batch: n, step: 'mixing' }],
    [atS + 250, { is: 'lookConfirmed', batch: n, by: WRENNA, coatedPct: 97, mixedS: 85 }],
    [atS + 260, { is: 'stepEntered', batch: n, step: 'discharging' }],
    [atS + 300, { is: 'massMoved', from: 'mixer', to: `lot:${lot}`, grams: outGrams, material: 'mix' }],
    [
      atS + 300,
      { is: 'batchDischarged', batch: n, lot, bay: 1, grams: outGrams, mixC: 14.2, mixedS: 85, parts },
    ],
  ];
};

export const lotOpened = (atS: number, lot: string): Told => [
  atS,
  {
    is: 'lotOpened',
    lot,
    mix: 'emulsion-patch',
    mixVersion: 1,
    family: 'emulsion',
    bay: 1,
    samplesAtKg: [500, 6000],
  },
];

export const SEAL: SealPrint = {
  root: 'c'.repeat(64),
  key: 'ab'.repeat(32),
  signature: 'U0lHTkFUVVJF',
  first: 1,
  last: 40,
  count: 40,
  seq: 41,
  wall: '2026-04-14T14:00:00.000Z',
  countersigned: [
    { by: 'Halvard Quill', remark: 'looked at', key: 'ab'.repeat(32), wall: '2026-04-14T15:00:00.000Z' },
  ],
};
