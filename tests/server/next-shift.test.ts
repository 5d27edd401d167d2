/** One shift after another in the same record: opened at a console, each with a seed and a day of its own. */
import { cpSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Fact } from '../../machines/line/facts.ts';
import type { Entry, OpeningBody } from '../../machines/record/entry.ts';
import { ticksOf } from '../../machines/record/replay.ts';
import type { Person } from '../../machines/scenario/people.schema.ts';
import { line } from '../../server/line.ts';
import { runHeadless } from '../../server/runner/headless.ts';
import type { ShiftsOffered } from '../../server/runner/next-shift.ts';
import { scenarioOrError } from '../../server/scenarios/load.ts';
import { shiftsIn, shippedShifts } from '../../server/scenarios/shipped.ts';
import { openSqliteStore } from '../../server/store/sqlite.ts';
import type { Store } from '../../server/store/store.ts';
import { fakeLine } from './support/fake-line.ts';
import { fakeScenario } from './support/fake-scenario.ts';
import { openConsole, serveFake } from './support/serve-fake.ts';
import { commandOf, failing, scratchFolder, startLine, type UnderTest, until } from './support/tools.ts';

const KIM: Person = { id: 'kim', name: 'Kim', role: 'operator' };
const OLA: Person = { id: 'ola', name: 'Ola', role: 'auditor' };

const OTHERS: ShiftsOffered = {
  list: [{ id: 'other-day', name: 'Another day' }],
  load: (id) => fakeScenario(id, 40),
};

const openingsOf = async (store: Store): Promise<OpeningBody[]> =>
  (await store.read({ after: 0, limit: 100, kind: 'opening' })).flatMap((e) =>
    e.kind === 'opening' ? [e.body] : [],
  );

const endShift = async ({ runner }: UnderTest): Promise<void> => {
  await runner.command(commandOf({ do: 'takeControls' }));
  expect(await runner.command(commandOf({ do: 'endShift' }))).toEqual({ ok: true });
};

/** Entries of the shift that began last. */
const lastShift = async (store: Store): Promise<readonly Entry[]> =>
  store.read({ after: (await store.tail()).shift, limit: 100_000 });

describe('the next shift', () => {
  it('is refused while this one runs, to who may not open it, and when there is no such shift', async () => {
    const under = await startLine(scratchFolder(), { shifts: OTHERS });
    const { runner } = under;
    expect(await runner.run({ do: 'nextShift' }, KIM)).toEqual({
      ok: false,
      because: ['This shift has not ended: end it first, then open the next one.'],
    });
    await endShift(under);
    expect(await runner.run({ do: 'nextShift' }, OLA)).toEqual({
      ok: false,
      because: ['An auditor may not open a shift; it is for: operator, supervisor, trainer, trainee.'],
    });
    expect(await runner.run({ do: 'nextShift', shift: '../demo-day' }, KIM)).toEqual({
      ok: false,
      because: ['There is no shift ../demo-day: there are fake-day, other-day.'],
    });
    expect(runner.shown().view.shift.ended).toBe(true);
    expect(await openingsOf(under.store)).toHaveLength(1);
  });

  it('begins a new world behind an opening entry of its own, with another seed and a later day', async () => {
    const under = await startLine(scratchFolder(), { speed: 60 });
    const { runner, store } = under;
    await until('a minute of plant time', () => runner.shown().view.shift.atMs > 60_000);
    await endShift(under);
    expect(await runner.run({ do: 'nextShift' }, KIM)).toEqual({ ok: true });
    expect(runner.shown().view.shift).toMatchObject({ ended: false, date: '2026-05-05', batchesDone: 0 });
    expect(runner.shown().view.shift.atMs).toBeLessThan(20_000);
    expect(runner.shown().view.seat.holder).toBeNull();
    const [first, second] = await openingsOf(store);
    expect(second).toMatchObject({ scenario: 'fake-day', seed: 8, openedBy: 'Kim (operator)' });
    expect(second?.filesDigest).toBe(first?.scenarioDigest);
    expect(await store.loadScenario(second?.scenarioDigest ?? '')).toMatchObject({
      shift: { seed: 8, date: '2026-05-05' },
    });
    await until('it runs', () => runner.shown().view.shift.atMs > 10_000);
    const ticks = [...ticksOf(await lastShift(store))].map((t) => t.tick);
    expect(ticks.slice(0, 3)).toEqual([1, 2, 3]);
    expect(ticks).toEqual(ticks.map((_, i) => i + 1));
    expect(await store.verify()).toMatchObject({ ok: true });
  });

  it('may be another one, and no two shifts of a record share a day or a seed', async () => {
    const under = await startLine(scratchFolder(), { shifts: OTHERS });
    const { runner, store } = under;
    expect(runner.shifts.map((shift) => shift.id)).toEqual(['fake-day', 'other-day']);
    for (const shift of ['other-day', undefined]) {
      await endShift(under);
      const command =
        shift === undefined ? { do: 'nextShift' as const } : { do: 'nextShift' as const, shift };
      expect(await runner.run(command, KIM)).toEqual({ ok: true });
    }
    const openings = await openingsOf(store);
    expect(openings.map((opening) => [opening.scenario, opening.seed])).toEqual([
      ['fake-day', 7],
      ['other-day', 40],
      ['other-day', 41],
    ]);
    const dates = await Promise.all(
      openings.map(async (opening) => (await store.loadScenario(opening.scenarioDigest)) as never),
    );
    expect(dates.map(({ shift }: { shift: { date: string } }) => shift.date)).toEqual([
      '2026-05-04',
      '2026-05-05',
      '2026-05-06',
    ]);
  });

  it('is opened once, however many consoles ask for it at once', async () => {
    const under = await startLine(scratchFolder());
    await endShift(under);
    const answers = await Promise.all([1, 2, 3].map(() => under.runner.run({ do: 'nextShift' }, KIM)));
    expect(answers.filter((answer) => answer.ok)).toHaveLength(1);
    expect(await openingsOf(under.store)).toHaveLength(2);
  });

  it('is the one that is restored after the power went, checkpoints and all', async () => {
    const folder = scratchFolder();
    const under = await startLine(folder, { speed: 60, shifts: OTHERS });
    await until('a minute of plant time', () => under.runner.shown().view.shift.atMs > 60_000);
    await endShift(under);
    await under.runner.run({ do: 'nextShift', shift: 'other-day' }, KIM);
    await under.runner.command(commandOf({ do: 'takeControls' }));
    const { shift } = await under.store.tail();
    const saved = async () => (await under.store.loadCheckpoint(shift)) !== null;
    await until('a checkpoint in the second shift', saved);
    await until('more plant time', () => under.runner.shown().view.shift.atMs > 100_000);
    const { atMs } = under.runner.shown().view.shift;
    // As a power cut leaves it: nothing is written any more.
    await under.store.close();
    const store = openSqliteStore(folder);
    const again = await startLine(folder, { store, shifts: OTHERS });
    expect(again.runner.shown().view.shift).toMatchObject({ id: 'other-day', date: '2026-05-05' });
    expect(again.runner.shown().view.shift.atMs).toBeGreaterThanOrEqual(atMs - 1000);
    expect(again.runner.shown().view.seat.holder?.person).toBe('kim');
    const [note] = (await store.read({ after: shift, limit: 100, kind: 'note' })).filter(
      (e) => e.kind === 'note' && e.body.what === 'restored',
    );
    expect(JSON.stringify(note)).toContain('which Kim (operator) opened at a console, goes on');
    expect(await store.verify()).toMatchObject({ ok: true });
    // What follows it goes by its files, not by what was moved on from them.
    await endShift(again);
    await again.runner.run({ do: 'nextShift' }, KIM);
    expect((await openingsOf(store)).at(-1)).toMatchObject({ scenario: 'other-day', seed: 41 });
  });

  it('of the same files goes on after a restart without a word about changed files', async () => {
    const folder = scratchFolder();
    const under = await startLine(folder);
    await endShift(under);
    await under.runner.run({ do: 'nextShift' }, KIM);
    await under.close();
    const again = await startLine(folder);
    expect(again.runner.scenario.shift).toMatchObject({ seed: 8, date: '2026-05-05' });
    const found = await lastShift(again.store);
    expect(JSON.stringify(found)).not.toContain('have changed since');
  });

  it('is refused in words when it cannot be kept, and the old one stays', async () => {
    const folder = scratchFolder();
    const store = failing(openSqliteStore(folder));
    const under = await startLine(folder, { store });
    await endShift(under);
    store.saveScenario = async () => {
      throw Object.assign(new Error('database or disk is full'), { code: 'SQLITE_FULL' });
    };
    expect(await under.runner.run({ do: 'nextShift' }, KIM)).toEqual({
      ok: false,
      because: ['The shift could not be opened: the disk is full'],
    });
    expect(under.runner.shown().view.shift.ended).toBe(true);
  });

  it('reaches every console as a whole new state', async () => {
    const { url } = await serveFake({ speed: 60, shifts: OTHERS });
    const [a, b] = [await openConsole(url, 'console-a'), await openConsole(url, 'console-b')];
    expect(a.hellos[0]?.shifts).toEqual([
      { id: 'fake-day', name: 'A day that is not there' },
      { id: 'other-day', name: 'Another day' },
    ]);
    await a.iAm('kim');
    await a.give({ do: 'takeControls' });
    await a.give({ do: 'endShift' });
    const [before, n] = [b.states.length, b.changes.at(-1)?.n ?? 0];
    const answer = await a.socket.timeout(5000).emitWithAck('run', { do: 'nextShift', shift: 'other-day' });
    expect(answer).toEqual({ ok: true });
    await until('the other console has it', () => b.states.length > before);
    expect(b.states).toHaveLength(before + 1);
    expect(b.states.at(-1)?.view.shift).toMatchObject({ id: 'other-day', ended: false });
    expect(b.states.at(-1)?.n).toBeGreaterThan(n);
    expect(a.hellos.at(-1)?.me?.id).toBe('kim');
    const from = b.states.at(-1)?.n ?? 0;
    await until('changes follow', () => b.changes.some((change) => change.n > from));
    expect(b.changes.find((change) => change.n > from)?.n).toBe(from + 1);
    const refusal = await b.socket.timeout(5000).emitWithAck('run', { do: 'nextShift' });
    expect(refusal).toMatchObject({ ok: false, because: [expect.stringContaining('Say who you are')] });
  });
});

describe('shipped shifts', () => {
  it('are offered by name and can all be loaded', () => {
    const { list, load } = shippedShifts();
    const ids = list.map((shift) => shift.id);
    for (const id of ['demo-day', 'cutback-day', 'reckless-day']) expect(ids).toContain(id);
    for (const id of ids) expect(load(id).shift.id).toBe(id);
  });

  it('leave out a file that is not sound', () => {
    const folder = join(scratchFolder(), 'shifts');
    mkdirSync(folder);
    cpSync('scenarios/shifts/demo-day.yaml', join(folder, 'a.yaml'));
    cpSync('scenarios/plants/demo-yard.yaml', join(folder, 'b.yaml'));
    expect(shiftsIn(folder).list).toEqual([{ id: 'demo-day', name: expect.any(String) }]);
  });
});

it('lots of the real line have other names in every shift of a record', async () => {
  const emulsion = scenarioOrError('scenarios/shifts/emulsion-day.yaml');
  const scenario = { ...emulsion, shift: { ...emulsion.shift, hours: 0.25 } };
  const store = openSqliteStore(scratchFolder());
  const lots: string[] = [];
  const onFact = (fact: Fact) => {
    if (fact.is === 'lotOpened') lots.push(fact.lot);
  };
  for (const _twice of [1, 2]) await runHeadless({ engine: line, scenario, store, onFact });
  expect(lots.length).toBeGreaterThanOrEqual(2);
  expect(new Set(lots).size).toBe(lots.length);
  await store.close();
}, 60_000);

it('a headless run into a folder with shifts keeps its seed and takes a later day', async () => {
  const folder = scratchFolder();
  const scenario = scenarioOrError('scenarios/shifts/emulsion-day.yaml');
  const store = openSqliteStore(folder);
  const onFact = () => undefined;
  const engine = {
    ...fakeLine,
    advance: (...[world, commands]: Parameters<typeof fakeLine.advance>) => {
      const next = fakeLine.advance(world, commands);
      if (next.world.tick < 20) return next;
      return { ...next, facts: [{ is: 'shiftEnded', by: { person: 'kim', role: 'line' } } as const] };
    },
  };
  await runHeadless({ engine, scenario, store, onFact });
  const { view } = await runHeadless({ engine, scenario, store, onFact });
  expect(view.shift.date > scenario.shift.date).toBe(true);
  expect((await openingsOf(store)).map((opening) => opening.seed)).toEqual([
    scenario.shift.seed,
    scenario.shift.seed,
  ]);
  await store.close();
});
