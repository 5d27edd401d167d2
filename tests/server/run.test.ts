/** `run`: a shift headless, the figures it prints, and the same record from the same seed. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { createLine } from '../../machines/line/create.ts';
import type { Fact } from '../../machines/line/facts.ts';
import { type Input, step } from '../../machines/line/step.ts';
import { replay, ticksOf } from '../../machines/record/replay.ts';
import type { Scenario } from '../../machines/scenario/shift.schema.ts';
import { main } from '../../server/cli.ts';
import { line } from '../../server/line.ts';
import { isOfStandIn } from '../../server/runner/stand-in-console.ts';
import { loadShift } from '../../server/scenarios/load.ts';
import { openSqliteStore } from '../../server/store/sqlite.ts';
import { scratchFolder } from './support/tools.ts';

afterEach(() => vi.restoreAllMocks());

/** A short shift with the shipped plant, mix and people. */
const shiftFile = (hours: number): string => {
  const file = join(scratchFolder(), 'short-day.yaml');
  writeFileSync(
    file,
    `kind: shift
id: short-day
name: Short day
plant: plants/demo-yard.yaml
people: people/demo-yard.yaml
mixes: [mixes/emulsion-patch.yaml]
date: 2026-05-04
startsAt: "06:00"
hours: ${hours}
seed: 11
weather: { startC: 15, warmestC: 22 }
orders: [{ mix: emulsion-patch, tonnes: 30, bay: 1 }]
standIn: { person: wrenna, skill: good }
`,
  );
  return file;
};

const runJson = async (...argv: string[]) => {
  const out: string[] = [];
  const spy = vi.spyOn(console, 'log').mockImplementation((text) => void out.push(String(text)));
  const code = await main(['run', ...argv, '--json']);
  spy.mockRestore();
  expect(code).toBe(0);
  expect(out).toHaveLength(1);
  return JSON.parse(out[0] as string);
};

describe('run', { timeout: 120_000 }, () => {
  it('prints one JSON object with the figures asked for', async () => {
    const report = await runJson(shiftFile(0.5));
    expect(report).toMatchObject({
      plantSeconds: expect.any(Number),
      wallSeconds: expect.any(Number),
      batches: expect.any(Number),
      massInKg: expect.any(Number),
      massOutKg: expect.any(Number),
      massBalanceErrorKg: 0,
      trips: 0,
      samples: expect.any(Number),
      ended: true,
      truth: { massErrorKg: expect.any(Number) },
      head: expect.stringMatching(/^[0-9a-f]{64}$/),
    });
    expect(report.batches).toBeGreaterThan(0);
    // What the simulated plant itself cannot account for is rounding of floating-point sums alone.
    expect(Math.abs(report.truth.massErrorKg)).toBeLessThan(1e-6);
    for (const lot of report.lots)
      expect(Object.keys(lot).sort()).toEqual(['batches', 'family', 'id', 'massKg', 'state']);
    for (const refusal of report.refusals)
      expect(Object.keys(refusal).sort()).toEqual(['at', 'because', 'command']);
  });

  it('hands the controls to the stand-in with the second tick, when the plant has been read once', async () => {
    const folder = scratchFolder();
    await runJson(shiftFile(0.1), '--data', folder);
    const store = openSqliteStore(folder);
    const [first] = await store.read({ after: 0, limit: 1, kind: 'command' });
    await store.close();
    expect(first).toMatchObject({ body: { tick: 2, envelope: { command: { do: 'standIn' } } } });
  });

  it('gives the same head for the same seed, with a data folder or without, and another for another', async () => {
    const file = shiftFile(0.25);
    const folder = scratchFolder();
    const [a, b, c] = [
      await runJson(file),
      await runJson(file, '--data', folder),
      await runJson(file, '--seed', '12'),
    ];
    expect(b.head).toBe(a.head);
    expect(c.head).not.toBe(a.head);
    const none = await runJson(file, '--record', 'none');
    expect(none).toMatchObject({ head: null, batches: a.batches, massOutKg: a.massOutKg });
    const store = openSqliteStore(folder);
    // Behind the shift stands its seal, by a key of this folder alone.
    expect(await store.read({ after: 0, limit: 9, kind: 'seal' })).toMatchObject([{ prev: a.head }]);
    expect(a.seal).toBeNull();
    expect(await store.verify()).toMatchObject({ ok: true });
    await store.close();
  });

  it('leaves a record that, run again, gives the same readings and the same decisions', async () => {
    const file = shiftFile(0.25);
    const folder = scratchFolder();
    await runJson(file, '--data', folder);
    const store = openSqliteStore(folder);
    const entries = await store.read({ after: 0, limit: 1_000_000 });
    await store.close();
    const scenario = loadShift(file).scenario as Scenario;
    const result = replay(ticksOf(entries), line.createWorld(scenario), (world, { commands }) => {
      const next = line.advance(
        world,
        commands.filter((envelope) => !isOfStandIn(envelope)),
      );
      return { state: next.world, changes: next.changes, facts: next.facts };
    });
    expect(result.differences).toEqual([]);
    expect(result.ticks).toBeGreaterThanOrEqual(0.25 * 36_000);
  });

  it('leaves a record whose readings and commands alone lead the line to the same decisions', async () => {
    const file = shiftFile(0.25);
    const folder = scratchFolder();
    await runJson(file, '--data', folder);
    const store = openSqliteStore(folder);
    const entries = await store.read({ after: 0, limit: 1_000_000 });
    await store.close();
    const scenario = loadShift(file).scenario as Scenario;
    // No plant and no stand-in here: the charts see what the record says was seen.
    const result = replay(ticksOf(entries), createLine(scenario, scenario.shift.seed), (before, recorded) => {
      let now = before;
      const facts: Fact[] = [];
      const put = (input: Input) => {
        const stepped = step(now, input);
        now = stepped.line;
        facts.push(...stepped.facts);
      };
      for (const envelope of recorded.commands) put({ input: 'command', envelope });
      const readings =
        recorded.changes === null ? before.readings : { ...before.readings, ...recorded.changes };
      put({ input: 'tick', readings });
      return { state: now, facts };
    });
    expect(result.differences).toEqual([]);
    const decided = entries.filter((e) => e.kind === 'fact' && e.body.fact.is === 'batchDischarged');
    expect(decided.length).toBeGreaterThan(0);
  });

  it('ends with 1 and says so when the shift never ends, its figures printed all the same', async () => {
    const file = shiftFile(0.1);
    // Its stand-in never sits down: nobody ends the shift.
    vi.spyOn(line, 'advance').mockImplementation((world) => {
      const tick = world.tick + 50;
      const next = { ...world, tick, atMs: tick * 100 };
      return { world: next, changes: null, commands: [], facts: [], answers: [] };
    });
    const out: string[] = [];
    const err: string[] = [];
    vi.spyOn(console, 'log').mockImplementation((text) => void out.push(String(text)));
    vi.spyOn(console, 'error').mockImplementation((text) => void err.push(String(text)));
    expect(await main(['run', file, '--record', 'none', '--json'])).toBe(1);
    expect(JSON.parse(out.join())).toMatchObject({ ended: false, head: null });
    expect(err).toEqual([expect.stringContaining('had not ended the shift two hours after its time')]);
  });

  it('refuses a shift that nobody leads', async () => {
    const file = shiftFile(0.25);
    const { readFileSync } = await import('node:fs');
    writeFileSync(file, readFileSync(file, 'utf8').replace(/^standIn.*$/m, ''));
    const err: string[] = [];
    vi.spyOn(console, 'error').mockImplementation((text) => void err.push(String(text)));
    expect(await main(['run', file])).toBe(1);
    expect(err.join()).toContain('names no stand-in operator');
  });
});
