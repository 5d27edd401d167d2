/** Patch lists and the plan: a table of 5,000 holes read and taken, one of 100,000 refused, the week laid out. */
import Papa from 'papaparse';
import type { Heard } from '../../machines/record/book.types.ts';
import { patchesBook } from '../../machines/yard/patches/book.ts';
import type { PatchesCommand } from '../../machines/yard/patches/commands.ts';
import { guessColumns } from '../../machines/yard/patches/csv/columns.ts';
import { tooLarge } from '../../machines/yard/patches/csv/limits.ts';
import { readTable } from '../../machines/yard/patches/csv/rows.ts';
import { MOST_PATCHES } from '../../machines/yard/patches/limits.ts';
import { addDays } from '../../machines/yard/patches/schedule/days.ts';
import type { PlanInput, PlanJob } from '../../machines/yard/patches/schedule/plan.types.ts';
import { search } from '../../machines/yard/patches/schedule/search.ts';
import { bestSeconds, type Figure } from './measure.ts';

const TIMES = 5;
const BY = { person: 'pell', role: 'storekeeper' as const };
const AT = '2026-04-14T06:00:00';
const KINDS = ['cold emulsion', 'cutback', 'warm emulsion'] as const;

const ms = (id: string, what: string, seconds: number): Figure => ({
  id: `patches.${id}`,
  what,
  value: seconds * 1000,
  unit: 'ms',
});

const tableOf = (rows: number): string =>
  `Place,Route,Length (m),Width (m),Depth (mm)\n${'"Mill Lane, by the ford",North,1.2,0.8,90\n'.repeat(rows)}`;

const read = (text: string) => {
  const rows = Papa.parse<string[]>(text, { delimiter: ',' }).data;
  return readTable(rows, {
    ...guessColumns(rows[0] ?? []),
    decimal: '.',
    fillDown: false,
    otherwise: { compactedBy: 'roller', surface: 'bituminous', route: '' },
  });
};

const take = (command: PatchesCommand): void => {
  const told = patchesBook.answer(patchesBook.empty, { command, by: BY, at: AT }, {});
  if (!told.ok) throw new Error(told.because.join(' '));
  let state = patchesBook.empty;
  told.facts.forEach((fact, i) => {
    state = patchesBook.hear(state, { seq: i + 1, shift: 1, at: AT, from: 'patches', by: BY, fact } as Heard);
  });
};

const weekOf = (orders: number): PlanInput => ({
  startsAt: '06:00',
  days: Array.from({ length: 21 }, (_, i) => ({
    date: addDays('2026-04-15', i),
    minutes: i % 7 > 4 ? 0 : 480,
  })),
  jobs: Array.from({ length: orders }, (_, i): PlanJob => {
    const kind = KINDS[i % KINDS.length] ?? 'cutback';
    return {
      order: `PO-260414-${i + 1}`,
      mix: kind,
      mixName: kind,
      kind,
      family: kind === 'cutback' ? 'cutback' : 'emulsion',
      batches: 5 + ((i * 7) % 23),
      batchKg: 750,
      batchMin: kind === 'cold emulsion' ? 4.7 : 11,
      binderKg: 50,
      heatMin: 0,
      neededBy: addDays('2026-04-16', (i * 5) % 8),
    };
  }),
  bays: [1, 2, 3].map((id) => ({ id, name: `Bay ${id}`, capacityKg: 60_000, kg: 0, mixes: [] })),
  binderKg: { emulsion: null, cutback: null },
  leftAs: 'cold emulsion',
  arranged: null,
});

export async function benchPatches(): Promise<Figure[]> {
  const text = tableOf(MOST_PATCHES);
  const patches = read(text).good.map(({ hole }) => hole);
  const source = { how: 'file' as const, file: null, leftOut: 0 };
  const huge = tableOf(100_000);
  const figures = [
    ms(
      'read',
      `table of ${patches.length} holes read row by row`,
      await bestSeconds(TIMES, () => void read(text)),
    ),
    ms(
      'take',
      `list of ${patches.length} holes taken: take-off, facts, state`,
      await bestSeconds(TIMES, () => take({ do: 'takeList', name: 'Bench', source, patches })),
    ),
    ms(
      'refuse',
      'table of 100 000 rows refused in words',
      await bestSeconds(TIMES, () => {
        if (tooLarge(huge) === null) throw new Error('it was not refused');
      }),
    ),
  ];
  for (const orders of [5, 7, 9]) {
    const week = weekOf(orders);
    let proved = false;
    const seconds = await bestSeconds(TIMES, () => {
      proved = search(week).proved;
    });
    figures.push(
      ms(`plan${orders}`, `week of ${orders} orders, ${proved ? 'best proved' : 'best found'}`, seconds),
    );
  }
  return figures;
}
