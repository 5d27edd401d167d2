/** From the yard's plan to the next shift: orders, approved mixes and the day in one opening, days let pass, words when not. */
import { describe, expect, it } from 'vitest';
import type { Person } from '../../machines/scenario/people.schema.ts';
import { type Scenario, shiftSchema } from '../../machines/scenario/shift.schema.ts';
import type { Measured } from '../../machines/yard/patches/patch.types.ts';
import type { PatchesState } from '../../machines/yard/patches/state.ts';
import { line } from '../../server/line.ts';
import type { PlantRunner } from '../../server/runner/runner.ts';
import { scenarioOrError } from '../../server/scenarios/load.ts';
import { commandOf, scratchFolder, startLine, type UnderTest } from './support/tools.ts';

const HALVARD: Person = { id: 'halvard', name: 'Halvard Quill', role: 'supervisor' };
const HOLE: Measured = {
  place: 'Mill Lane 4',
  route: 'North',
  lengthM: 1.9,
  widthM: 0.9,
  depthMm: 60,
  baseReached: false,
  compactedBy: 'hand rammer',
  surface: 'bituminous',
};

const opened = (): Promise<UnderTest> =>
  startLine(scratchFolder(), {
    engine: line as never,
    scenario: scenarioOrError('scenarios/shifts/plain-mixes.yaml'),
    speed: 60,
  });

let asked = 0;
const ask = ({ runner }: UnderTest, command: { readonly do: string }) =>
  (runner as PlantRunner).askBook({
    id: `planned-${String(++asked).padStart(6, '0')}`,
    book: 'patches',
    by: { person: 'halvard', role: 'supervisor' },
    command,
  });

const ordered = async (under: UnderTest, mix: string, neededBy: string): Promise<void> => {
  const list = {
    do: 'takeList',
    name: 'Week 16',
    source: { how: 'typed', file: null, leftOut: 0 },
    patches: [HOLE],
  };
  expect(await ask(under, list)).toEqual({ ok: true });
  const { lists } = (await under.store.books()).ledger.patches as PatchesState;
  const order = {
    do: 'makeOrder',
    lists: [Object.keys(lists).at(-1)],
    route: null,
    mix,
    neededBy,
    rounding: 'batches',
    useStock: true,
  };
  expect(await ask(under, order)).toEqual({ ok: true });
};

const endShift = async ({ runner }: UnderTest): Promise<void> => {
  const by = { person: 'halvard', role: 'supervisor' as const, console: 'console-a' };
  await runner.command({ ...commandOf({ do: 'takeControls' }), by });
  expect(await runner.command({ ...commandOf({ do: 'endShift' }), by })).toEqual({ ok: true });
};

const lastScenario = async ({ store }: UnderTest): Promise<Scenario> => {
  const last = (await store.read({ after: 0, limit: 100, kind: 'opening' })).at(-1);
  if (last?.kind !== 'opening') throw new Error('no opening');
  return (await store.loadScenario(last.body.scenarioDigest)) as Scenario;
};

describe('the planned shift', () => {
  it('is refused in words while nothing is planned, and the old shift stays', async () => {
    const under = await opened();
    await endShift(under);
    expect(await under.runner.run({ do: 'nextShift', planned: true }, HALVARD)).toEqual({
      ok: false,
      because: [expect.stringContaining('make an order there first')],
    });
    expect(under.runner.shown().view.shift.ended).toBe(true);
  });

  it('has the plan’s orders in the sequence with fewest change-overs, each for its production order', async () => {
    const under = await opened();
    await ordered(under, 'cutback-patch', '2026-04-17');
    await ordered(under, 'emulsion-patch', '2026-04-17');
    await endShift(under);
    expect(await under.runner.run({ do: 'nextShift', planned: true }, HALVARD)).toEqual({ ok: true });
    const { shift, mixes, plant } = await lastScenario(under);
    expect(shiftSchema.parse(shift)).toEqual(shift);
    expect(shift).toMatchObject({ id: 'planned-shift', date: '2026-04-15', hours: 8, incidents: [] });
    // The line was left set up for emulsion: that comes first, into the bay that is empty for it.
    expect(shift.orders.map((order) => [order.mix, order.tonnes, order.for])).toEqual([
      ['emulsion-patch', 0.75, 'PO-260414-2'],
      ['cutback-patch', 0.75, 'PO-260414-1'],
    ]);
    expect(new Set(shift.orders.map(({ bay }) => bay)).size).toBe(2);
    expect(mixes.map(({ id }) => id)).toEqual(expect.arrayContaining(['emulsion-patch', 'cutback-patch']));
    expect(plant.name).toBe('Larkmoor Road Yard');
    expect(under.runner.shown().view).toMatchObject({
      shift: { ended: false, date: '2026-04-15' },
      orders: [{ mix: 'emulsion-patch' }, { mix: 'cutback-patch' }],
    });
    expect(await under.store.verify()).toMatchObject({ ok: true });
    // The book has heard it: the shift's orders name their production orders.
    const { shift: heard } = (await under.store.books()).ledger.patches as PatchesState;
    expect(heard?.orders.map((order) => order.for)).toEqual(['PO-260414-2', 'PO-260414-1']);
  });

  it('opens on the plan’s first day of work, over a weekend and over a day off', async () => {
    const under = await opened();
    await ordered(under, 'emulsion-patch', '2026-04-24');
    for (const date of ['2026-04-15', '2026-04-16', '2026-04-17'])
      expect(await ask(under, { do: 'setHours', date, hours: 0, reason: 'closed' } as never)).toEqual({
        ok: true,
      });
    await endShift(under);
    expect(await under.runner.run({ do: 'nextShift', planned: true }, HALVARD)).toEqual({ ok: true });
    // 18 and 19 April 2026 are a Saturday and a Sunday.
    expect((await lastScenario(under)).shift.date).toBe('2026-04-20');
  });

  it('lets days pass when asked to, with a plan and without', async () => {
    const under = await opened();
    await ordered(under, 'emulsion-patch', '2026-04-24');
    await endShift(under);
    expect(await under.runner.run({ do: 'nextShift', afterDays: 42 }, HALVARD)).toEqual({ ok: true });
    expect((await lastScenario(under)).shift).toMatchObject({ id: 'plain-mixes', date: '2026-05-26' });
    await endShift(under);
    expect(await under.runner.run({ do: 'nextShift', planned: true, afterDays: 3 }, HALVARD)).toEqual({
      ok: true,
    });
    expect((await lastScenario(under)).shift).toMatchObject({ id: 'planned-shift', date: '2026-05-29' });
  });
});
