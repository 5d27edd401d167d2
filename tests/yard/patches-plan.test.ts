/** The week's plan: its search against every sequence there is, its rules, and its reasons. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays, dayNumber, daysBetween, weekdayOf } from '../../machines/yard/patches/schedule/days.ts';
import { compareCost } from '../../machines/yard/patches/schedule/lay.ts';
import { planWeek } from '../../machines/yard/patches/schedule/plan.ts';
import type { Cost, PlanInput, PlanJob } from '../../machines/yard/patches/schedule/plan.types.ts';
import { changesBetween, type RunKind } from '../../machines/yard/patches/schedule/rates.ts';
import { layAll, search } from '../../machines/yard/patches/schedule/search.ts';

const KINDS: readonly RunKind[] = ['cold emulsion', 'warm emulsion', 'cutback'];

const job = (order: string, change: Partial<PlanJob> = {}): PlanJob => ({
  order,
  mix: 'emulsion-patch',
  mixName: 'Emulsion patch mix',
  kind: 'cold emulsion',
  family: 'emulsion',
  batches: 20,
  batchKg: 750,
  batchMin: 5,
  binderKg: 50,
  heatMin: 0,
  neededBy: '2026-04-17',
  ...change,
});
const cutback = (order: string, change: Partial<PlanJob> = {}): PlanJob =>
  job(order, {
    mix: 'cutback-patch',
    mixName: 'Cutback patch mix',
    kind: 'cutback',
    family: 'cutback',
    batchMin: 11,
    ...change,
  });
const input = (jobs: readonly PlanJob[], change: Partial<PlanInput> = {}): PlanInput => ({
  startsAt: '06:00',
  days: ['2026-04-15', '2026-04-16', '2026-04-17', '2026-04-18'].map((date) => ({ date, minutes: 480 })),
  jobs,
  bays: [1, 2, 3].map((id) => ({ id, name: `Bay ${id}`, capacityKg: 60_000, kg: 0, mixes: [] })),
  binderKg: { emulsion: null, cutback: null },
  leftAs: null,
  arranged: null,
  ...change,
});

const permutations = <T>(all: readonly T[]): T[][] =>
  all.length < 2
    ? [[...all]]
    : all.flatMap((one) => permutations(all.filter((o) => o !== one)).map((p) => [one, ...p]));

describe('days', () => {
  // 1 January 2000 was a Saturday, 14 April 2026 is a Tuesday, 29 February 2028 exists: the calendar.
  it('are counted as the calendar has them', () => {
    expect(weekdayOf('2000-01-01')).toBe(5);
    expect(weekdayOf('2026-04-14')).toBe(1);
    expect(addDays('2026-12-31', 1)).toBe('2027-01-01');
    expect(addDays('2028-02-28', 2)).toBe('2028-03-01');
    expect(addDays('2026-02-28', 1)).toBe('2026-03-01');
    expect(daysBetween('2026-04-14', '2026-04-10')).toBe(-4);
  });

  it('agree with the platform over four hundred years', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -80_000, max: 80_000 }),
        fc.integer({ min: 0, max: 60 }),
        (from, days) => {
          const text = (n: number) => new Date(n * 86_400_000).toISOString().slice(0, 10);
          expect(addDays(text(from), days)).toBe(text(from + days));
          expect(dayNumber(text(from)) - dayNumber('1970-01-01')).toBe(from);
        },
      ),
    );
  });
});

describe('the search', () => {
  it('finds what trying every sequence finds', () => {
    const anyJob = fc.record({
      kind: fc.constantFrom(...KINDS),
      batches: fc.integer({ min: 1, max: 90 }),
      due: fc.integer({ min: 0, max: 4 }),
      heatMin: fc.constantFrom(0, 40, 120),
    });
    const anyInput = fc.record({
      jobs: fc.array(anyJob, { minLength: 1, maxLength: 5 }),
      left: fc.constantFrom(null, ...KINDS),
      hours: fc.array(fc.constantFrom(0, 4, 8), { minLength: 2, maxLength: 5 }),
      bays: fc.array(fc.constantFrom(10_000, 40_000), { minLength: 1, maxLength: 3 }),
      binder: fc.constantFrom(null, 2000, 9000),
    });
    fc.assert(
      fc.property(anyInput, ({ jobs, left, hours, bays, binder }) => {
        const made = jobs.map(({ kind, batches, due, heatMin }, i) =>
          job(`PO-260414-${i + 1}`, {
            mix: kind,
            mixName: kind,
            kind,
            family: kind === 'cutback' ? 'cutback' : 'emulsion',
            batches,
            batchMin: kind === 'cold emulsion' ? 5 : 11,
            heatMin,
            neededBy: addDays('2026-04-15', due),
          }),
        );
        const given = input(made, {
          days: hours.map((h, i) => ({ date: addDays('2026-04-15', i), minutes: h * 60 })),
          bays: bays.map((capacityKg, i) => ({
            id: i + 1,
            name: `Bay ${i + 1}`,
            capacityKg,
            kg: 0,
            mixes: [],
          })),
          binderKg: { emulsion: binder, cutback: binder },
          leftAs: left,
        });
        const all = permutations(made).map((sequence) => layAll(given, sequence).cost);
        const least = all.reduce<Cost>((a, b) => (compareCost(b, a) < 0 ? b : a), all[0] as Cost);
        const found = search(given);
        expect(found.proved).toBe(true);
        expect(found.standing.cost).toEqual(least);
      }),
      { numRuns: 80 },
    );
  });

  it('says when there were too many sequences to try', () => {
    const jobs = Array.from({ length: 14 }, (_, i) =>
      job(`PO-260414-${i + 1}`, {
        mix: KINDS[i % 3] as string,
        kind: KINDS[i % 3] as RunKind,
        batches: 7 + i,
        neededBy: addDays('2026-04-15', i % 5),
      }),
    );
    const plan = planWeek(input(jobs));
    expect(plan.proved).toBe(false);
    expect(new Set(plan.sequence).size).toBe(14);
  });
});

describe('what is laid', () => {
  const minutesOk = (given: PlanInput) => {
    const plan = planWeek(given);
    for (const day of plan.days) {
      let free = 0;
      for (const run of day.runs) {
        expect(run.fromMin).toBeGreaterThanOrEqual(free);
        expect(run.toMin).toBeLessThanOrEqual(day.minutes);
        free = run.toMin;
      }
    }
    return plan;
  };

  it('keeps families together: two cutbacks between emulsions are made in one go', () => {
    const plan = minutesOk(
      input([job('PO-260414-1'), cutback('PO-260414-2'), job('PO-260414-3'), cutback('PO-260414-4')]),
    );
    const kinds = plan.sequence.map((id) =>
      ['PO-260414-2', 'PO-260414-4'].includes(id) ? 'cutback' : 'cold',
    );
    expect(kinds.filter((kind, i) => i > 0 && kind !== kinds[i - 1])).toHaveLength(1);
    // Tank, dryer and flame rules once.
    expect(plan.cost).toMatchObject({ stuckBatches: 0, lateDays: 0, changes: 3 });
  });

  it('changes over once more rather than be late', () => {
    const urgent = cutback('PO-260414-9', { batches: 30, neededBy: '2026-04-15' });
    const plan = minutesOk(
      input([job('PO-260414-1', { batches: 60, neededBy: '2026-04-20' }), urgent], {
        leftAs: 'cold emulsion',
      }),
    );
    expect(plan.sequence[0]).toBe('PO-260414-9');
    expect(plan.late).toEqual([]);
    expect(plan.cost.changes).toBe(6);
    expect(plan.days[0]?.runs[0]?.why.join(' ')).toContain('Cutback after cold emulsion');
  });

  it('waits for a cold tank, and says from when to heat', () => {
    const plan = minutesOk(input([cutback('PO-260414-1', { heatMin: 90 })]));
    const run = plan.days[0]?.runs[0];
    expect(run?.fromMin).toBe(90);
    // Opened at 10, lit and purged by 30: 60 minutes of waiting.
    expect(run?.waitMin).toBe(60);
    expect(run?.why.join(' ')).toContain('heat it from 06:00, it is warm by 07:30');
  });

  it('heats while emulsion is made', () => {
    const plan = minutesOk(
      input([cutback('PO-260414-1', { heatMin: 120 }), job('PO-260414-2', { batches: 30 })]),
    );
    expect(plan.sequence).toEqual(['PO-260414-2', 'PO-260414-1']);
    expect(plan.days[0]?.runs.map(({ waitMin }) => waitMin)).toEqual([0, 0]);
  });

  it('does not work on days off, and goes on the next', () => {
    const given = input([job('PO-260414-1', { batches: 150, neededBy: '2026-04-18' })], {
      days: [
        { date: '2026-04-15', minutes: 480 },
        { date: '2026-04-16', minutes: 0 },
        { date: '2026-04-17', minutes: 480 },
      ],
    });
    const plan = minutesOk(given);
    expect(plan.days.map(({ runs }) => runs.reduce((sum, { batches }) => sum + batches, 0))).toEqual([
      92, 0, 58,
    ]);
    expect(plan.days[2]?.runs[0]?.why.join(' ')).toContain('Goes on');
  });

  it('puts one mix in one bay, another elsewhere, and says when there is no room', () => {
    const bays = [
      { id: 1, name: 'Bay 1', capacityKg: 20_000, kg: 12_000, mixes: ['emulsion-patch'] },
      { id: 2, name: 'Bay 2', capacityKg: 20_000, kg: 5_000, mixes: ['cutback-patch'] },
    ];
    const plan = minutesOk(input([job('PO-260414-1', { batches: 20 })], { bays }));
    expect(plan.days[0]?.runs.map(({ bay, batches }) => [bay, batches])).toEqual([[1, 10]]);
    expect(plan.stuck).toEqual([
      { order: 'PO-260414-1', batches: 10, why: expect.stringContaining('clear a bay') },
    ]);
  });

  it('stops when the binder is used up, and says how much to have delivered', () => {
    const plan = minutesOk(input([job('PO-260414-1')], { binderKg: { emulsion: 520, cutback: 0 } }));
    expect(plan.days[0]?.runs[0]?.batches).toBe(10);
    expect(plan.stuck[0]).toMatchObject({
      batches: 10,
      why: expect.stringContaining('have 0.5 t delivered'),
    });
  });

  it('follows a person, and says what that costs', () => {
    const jobs = [job('PO-260414-1'), cutback('PO-260414-2'), job('PO-260414-3')];
    const arranged = ['PO-260414-1', 'PO-260414-2', 'PO-260414-3'];
    const plan = minutesOk(input(jobs, { arranged }));
    expect(plan.sequence).toEqual(arranged);
    expect(plan.byHand).toBe(true);
    expect([plan.cost.changes, plan.best.cost.changes]).toEqual([6, 3]);
    expect(plan.days[0]?.runs.every(({ why }) => why[0] === 'Stands where a person put it.')).toBe(true);
    // The plan's own sequence put by hand is the plan's own.
    expect(planWeek(input(jobs, { arranged: plan.best.sequence })).byHand).toBe(false);
  });

  it('makes every batch it does not call stuck, and never exceeds a bay or the binder', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 120 }), { minLength: 1, maxLength: 4 }),
        fc.integer({ min: 0, max: 12_000 }),
        (sizes, binderKg) => {
          const jobs = sizes.map((batches, i) =>
            i % 2 === 0 ? job(`PO-260414-${i + 1}`, { batches }) : cutback(`PO-260414-${i + 1}`, { batches }),
          );
          const plan = minutesOk(input(jobs, { binderKg: { emulsion: binderKg, cutback: binderKg } }));
          const runs = plan.days.flatMap((day) => day.runs);
          for (const { order, batches } of jobs) {
            const made = runs.filter((run) => run.order === order).reduce((sum, run) => sum + run.batches, 0);
            const stuck = plan.stuck
              .filter((one) => one.order === order)
              .reduce((sum, one) => sum + one.batches, 0);
            expect(made + stuck).toBe(batches);
          }
          for (const bay of [1, 2, 3]) {
            const there = runs.filter((run) => run.bay === bay);
            expect(there.reduce((sum, run) => sum + run.kg, 0)).toBeLessThanOrEqual(60_000);
            expect(new Set(there.map(({ mix }) => mix)).size).toBeLessThanOrEqual(1);
          }
          for (const kind of ['cold emulsion', 'cutback'])
            expect(
              runs.filter((run) => run.kind === kind).reduce((sum, run) => sum + run.batches * 50, 0),
            ).toBeLessThanOrEqual(binderKg);
        },
      ),
      { numRuns: 80 },
    );
  });
});

describe('changes between kinds', () => {
  it.each([
    [null, 'cutback', []],
    ['cutback', 'cutback', []],
    ['cold emulsion', 'warm emulsion', ['dryer']],
    ['cold emulsion', 'cutback', ['tank', 'dryer', 'flame rules']],
    ['cutback', 'warm emulsion', ['tank', 'flame rules']],
  ] as const)('from %s to %s: %j', (from, to, changes) => {
    expect(changesBetween(from, to)).toEqual(changes);
  });
});
