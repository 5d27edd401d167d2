/** The line in real time: durable before acknowledged, once each, and on from where the record ends. */
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import type { Entry } from '../../machines/record/entry.ts';
import { ticksOf } from '../../machines/record/replay.ts';
import type { Person } from '../../machines/scenario/people.schema.ts';
import type { Clock } from '../../server/runner/line-engine.ts';
import { openSqliteStore } from '../../server/store/sqlite.ts';
import type { Store } from '../../server/store/store.ts';
import { fakeLine } from './support/fake-line.ts';
import { fakeScenario } from './support/fake-scenario.ts';
import { commandOf, failing, scratchFolder, startLine, until } from './support/tools.ts';

const KIM: Person = { id: 'kim', name: 'Kim', role: 'operator' };
const OLA: Person = { id: 'ola', name: 'Ola', role: 'auditor' };

const all = (store: Store): Promise<readonly Entry[]> => store.read({ after: 0, limit: 100_000 });
const notes = async (store: Store): Promise<string[]> =>
  (await all(store)).flatMap((e) => (e.kind === 'note' ? [e.body.what] : []));

describe('runner', () => {
  it('opens the record, runs in real time and chains what it writes', async () => {
    const { runner, store, close } = await startLine(scratchFolder(), { speed: 10 });
    await until('two seconds of plant time', () => runner.shown().view.shift.atMs >= 2000);
    const entries = await all(store);
    expect(entries[0]).toMatchObject({ kind: 'opening', body: { scenario: 'fake-day', seed: 7 } });
    expect(entries[1]).toMatchObject({ kind: 'readings', body: { from: 1, to: 10 } });
    expect(await store.verify()).toMatchObject({ ok: true });
    await close();
  });

  it('keeps plant time to real time', async () => {
    const { runner } = await startLine(scratchFolder(), { speed: 10 });
    const seen: { realMs: number; plantMs: number }[] = [];
    runner.onShown(({ view }) => seen.push({ realMs: performance.now(), plantMs: view.shift.atMs }));
    await until('a second of it', () => seen.length >= 10);
    const [first, last] = [seen[0], seen.at(-1)] as [(typeof seen)[0], (typeof seen)[0]];
    const wantedMs = (last.realMs - first.realMs) * 10;
    // A turn of the loop is 25 ms, a quarter of a second of plant time; a busy machine may need a few.
    expect(Math.abs(last.plantMs - first.plantMs - wantedMs)).toBeLessThan(1000);
  });

  it('has a command and its fact on record before it answers', async () => {
    const { runner, store } = await startLine(scratchFolder());
    const command = commandOf({ do: 'takeControls' });
    expect(await runner.command(command)).toEqual({ ok: true });
    const entries = await all(store);
    const given = entries.find((e) => e.kind === 'command');
    expect(given).toMatchObject({ body: { envelope: command } });
    expect(entries.find((e) => e.kind === 'fact')).toMatchObject({
      body: { fact: { is: 'commandDone', id: command.id } },
    });
    expect(entries.findIndex((e) => e.kind === 'readings')).toBeLessThan(entries.indexOf(given as Entry));
  });

  it('gives a new shift its first tick without commands, also when it stands still', async () => {
    const seen: { readonly tick: number; readonly given: number }[] = [];
    const engine = {
      ...fakeLine,
      advance: (...[world, commands]: Parameters<typeof fakeLine.advance>) => {
        seen.push({ tick: world.tick + 1, given: commands.length });
        return fakeLine.advance(world, commands);
      },
    };
    const given = () => seen.filter((one) => one.given > 0).map((one) => one.tick);
    const running = await startLine(scratchFolder(), { engine });
    expect(await running.runner.command(commandOf({ do: 'takeControls' }))).toEqual({ ok: true });
    expect(given()).toHaveLength(1);
    expect(given()[0]).toBeGreaterThanOrEqual(2);
    await running.close();

    seen.length = 0;
    const clock: Clock = { monoMs: () => 0, wallMs: () => 0 };
    const standing = await startLine(scratchFolder(), { engine, clock });
    expect(await standing.runner.run({ do: 'pause' }, KIM)).toEqual({ ok: true });
    expect(await standing.runner.command(commandOf({ do: 'takeControls' }))).toEqual({ ok: true });
    expect(await standing.runner.command(commandOf({ do: 'hold' }))).toEqual({ ok: true });
    expect(seen).toEqual([
      { tick: 1, given: 0 },
      { tick: 2, given: 1 },
      { tick: 3, given: 1 },
    ]);
  });

  it('passes a refusal on with its reasons and records it', async () => {
    const { runner, store } = await startLine(scratchFolder());
    const answer = await runner.command(commandOf({ do: 'start', batches: 1 }));
    expect(answer).toEqual({ ok: false, because: ['Nobody has the controls. Take them first.'] });
    expect(await store.read({ after: 0, limit: 10, fact: 'commandRefused' })).toHaveLength(1);
  });

  it('carries a command out once, however often it is sent', async () => {
    const { runner, store } = await startLine(scratchFolder(), { speed: 10 });
    await runner.command(commandOf({ do: 'takeControls' }));
    const start = commandOf({ do: 'start', batches: 1 });
    const answers = await Promise.all([runner.command(start), runner.command(start)]);
    answers.push(await runner.command(start));
    expect(answers).toEqual([{ ok: true }, { ok: true }, { ok: true }]);
    const given = (await all(store)).filter((e) => e.kind === 'command' && e.body.envelope.id === start.id);
    expect(given).toHaveLength(1);
    const other = commandOf({ do: 'hold' }, 'console-a', start.id);
    expect(await runner.command(other)).toMatchObject({
      ok: false,
      because: [expect.stringContaining('start')],
    });
  });

  it('knows an answered command after a restart', async () => {
    const folder = scratchFolder();
    const first = await startLine(folder);
    const take = commandOf({ do: 'takeControls' });
    const abort = commandOf({ do: 'abort' });
    await first.runner.command(take);
    const refusal = await first.runner.command(abort);
    await first.close();
    const second = await startLine(folder);
    expect(await second.runner.command(take)).toEqual({ ok: true });
    expect(await second.runner.command(abort)).toEqual(refusal);
    expect(await second.store.read({ after: 0, limit: 100, kind: 'command' })).toHaveLength(2);
  });

  it('goes on where it stopped, with one unbroken row of ticks', async () => {
    const folder = scratchFolder();
    const first = await startLine(folder, { speed: 60 });
    await first.runner.command(commandOf({ do: 'takeControls' }));
    await until('a minute of plant time', () => first.runner.shown().view.shift.atMs > 60_000);
    await first.close();
    const second = await startLine(folder, { speed: 60 });
    const before = second.runner.shown().view;
    expect(before.shift.atMs).toBeGreaterThan(60_000);
    expect(before.seat.holder?.person).toBe('kim');
    await until('more plant time', () => second.runner.shown().view.shift.atMs > before.shift.atMs + 5000);
    const ticks = [...ticksOf(await all(second.store))].map((t) => t.tick);
    expect(ticks).toEqual(ticks.map((_, i) => i + 1));
    expect(await notes(second.store)).toEqual(['stopped', 'restored']);
  });

  it('is restored from the record alone when no checkpoint is left, and says when it decides differently', async () => {
    const folder = scratchFolder();
    const first = await startLine(folder, { speed: 60 });
    await first.runner.command(commandOf({ do: 'takeControls' }));
    await until('ten seconds of plant time', () => first.runner.shown().view.shift.atMs > 10_000);
    await first.close();
    const store = openSqliteStore(folder);
    const noCheckpoint = Object.assign(failing(store), { loadCheckpoint: async () => null });
    // This line starts its own batches on every 40th tick, the recorded one did on every 50th.
    const other = {
      ...fakeLine,
      advance: (...[world, commands]: Parameters<typeof fakeLine.advance>) => {
        const next = fakeLine.advance(world, commands);
        const facts = next.facts.filter((fact) => fact.is !== 'stepEntered');
        return { ...next, facts };
      },
    };
    const second = await startLine(folder, { store: noCheckpoint, engine: other });
    expect(second.runner.shown().view.seat.holder?.person).toBe('kim');
    const found = await second.store.read({ after: 0, limit: 1000, kind: 'note' });
    const differences = found.filter((e) => e.kind === 'note' && e.body.what === 'restored differently');
    expect(differences[0]).toMatchObject({
      body: { detail: expect.stringMatching(/^tick 50, facts: recorded .*stepEntered/) },
    });
  });

  it('notes what was cut off a tail that was never finished, and goes on before it', async () => {
    const folder = scratchFolder();
    const first = await startLine(folder);
    await first.runner.command(commandOf({ do: 'takeControls' }));
    await first.close();
    const db = new Database(join(folder, 'record.sqlite'));
    const last = db.prepare('SELECT max(seq) FROM entries').pluck().get() as number;
    db.prepare('UPDATE entries SET json = substr(json, 1, 40) WHERE seq = ?').run(last);
    db.close();
    const second = await startLine(folder);
    expect(second.runner.shown().view.seat.holder?.person).toBe('kim');
    const found = await second.store.read({ after: last - 1, limit: 10, kind: 'note' });
    expect(found[0]).toMatchObject({
      seq: last,
      body: { what: 'tail cut', detail: expect.stringContaining(`entries ${last} to ${last} were cut`) },
    });
    expect(await second.store.verify()).toMatchObject({ ok: true });
  });

  it('begins a new shift once the old one has ended, in the same chain', async () => {
    const folder = scratchFolder();
    const first = await startLine(folder);
    await first.runner.command(commandOf({ do: 'takeControls' }));
    expect(await first.runner.command(commandOf({ do: 'endShift' }))).toEqual({ ok: true });
    await first.close();
    const second = await startLine(folder);
    expect(second.runner.shown().view.shift).toMatchObject({ ended: false });
    expect(await second.store.read({ after: 0, limit: 10, kind: 'opening' })).toHaveLength(2);
    await second.close();
    const third = await startLine(folder);
    expect(third.runner.shown().view.seat.holder).toBeNull();
    expect(await third.store.verify()).toMatchObject({ ok: true });
    expect(await third.store.read({ after: 0, limit: 10, kind: 'opening' })).toHaveLength(2);
  });

  it('refuses a folder with another unfinished shift, unless told to begin anew', async () => {
    const folder = scratchFolder();
    await (await startLine(folder)).close();
    const scenario = fakeScenario('other-day');
    await expect(startLine(folder, { scenario })).rejects.toThrow(
      /unfinished shift fake-day, not other-day|holds shift fake-day/,
    );
    const anew = await startLine(folder, { scenario, newShift: true });
    expect(anew.runner.shown().view.shift.id).toBe('other-day');
  });

  it('goes on with the files a shift began with when they have changed since', async () => {
    const folder = scratchFolder();
    await (await startLine(folder)).close();
    const { runner, store } = await startLine(folder, { scenario: fakeScenario('fake-day', 8) });
    expect(runner.scenario.shift.seed).toBe(7);
    const found = await store.read({ after: 0, limit: 100, kind: 'note' });
    expect(found.at(-1)).toMatchObject({
      body: { what: 'restored', detail: expect.stringContaining('have changed since') },
    });
  });

  it('stands still while paused, and still carries out a command', async () => {
    const { runner, store } = await startLine(scratchFolder(), { speed: 10 });
    await until('the first tick', () => runner.shown().view.shift.atMs > 0);
    expect(await runner.run({ do: 'pause' }, KIM)).toEqual({ ok: true });
    const atMs = runner.shown().view.shift.atMs;
    await new Promise((go) => setTimeout(go, 300));
    expect(runner.shown().view.shift.atMs).toBe(atMs);
    expect(await runner.command(commandOf({ do: 'takeControls' }))).toEqual({ ok: true });
    expect(runner.shown().view.shift.atMs).toBe(atMs + 100);
    expect(await runner.run({ do: 'resume' }, KIM)).toEqual({ ok: true });
    await until('plant time moves', () => runner.shown().view.shift.atMs > atMs + 500);
    expect(await runner.run({ do: 'speed', speed: 60 }, OLA)).toMatchObject({ ok: false });
    const found = await store.read({ after: 0, limit: 100, kind: 'note' });
    expect(found.map((e) => (e.kind === 'note' ? e.body.detail : ''))).toEqual([
      'plant time paused, by Kim (operator)',
      'plant time resumed, by Kim (operator)',
    ]);
  });

  it('shows at most ten states a second', async () => {
    const { runner } = await startLine(scratchFolder(), { speed: 60 });
    let shown = 0;
    runner.onShown(() => {
      shown += 1;
    });
    await new Promise((go) => setTimeout(go, 1000));
    expect(shown).toBeGreaterThanOrEqual(3);
    expect(shown).toBeLessThanOrEqual(11);
  });

  it('notes a jump of the wall clock and does not follow it', async () => {
    let wallMs = Date.now();
    const clock: Clock = { monoMs: () => performance.now(), wallMs: () => wallMs + performance.now() };
    const { runner, store } = await startLine(scratchFolder(), { clock, speed: 10 });
    const atMs = runner.shown().view.shift.atMs;
    wallMs += 3600_000;
    await until('the note', async () => (await notes(store)).includes('clock jumped'));
    expect(runner.shown().view.shift.atMs - atMs).toBeLessThan(20_000);
  });

  it('after a stall makes up two seconds at most', async () => {
    let monoMs = 0;
    const clock: Clock = { monoMs: () => monoMs, wallMs: () => monoMs };
    const { runner } = await startLine(scratchFolder(), { clock });
    monoMs += 60_000;
    await until('a turn', () => runner.shown().view.shift.atMs > 0);
    expect(runner.shown().view.shift.atMs).toBe(2000);
  });

  it('stands still and says so when the line throws, with its record whole', async () => {
    const folder = scratchFolder();
    const { runner, store, close } = await startLine(folder);
    await runner.command(commandOf({ do: 'takeControls' }));
    const answer = await runner.command(commandOf({ do: 'resetHeater' }));
    expect(answer).toMatchObject({ ok: false, because: [expect.stringContaining('a fault planted')] });
    expect(runner.shown().run.trouble).toContain('Restart the server');
    expect(await runner.command(commandOf({ do: 'hold' }))).toMatchObject({ ok: false });
    expect(await notes(store)).toContain('fault');
    await close();
    const again = await startLine(folder);
    expect(again.runner.shown().run.trouble).toBeNull();
    expect(await again.runner.command(commandOf({ do: 'hold' }))).toEqual({ ok: true });
  });
});
