/** The wall clock set back or forward during a shift: order stays by number, the jump is an entry, the plant's pace does not care. */
import { describe, expect, it } from 'vitest';
import type { Clock } from '../../server/runner/line-engine.ts';
import type { openSqliteStore } from '../../server/store/sqlite.ts';
import { commandOf, scratchFolder, startLine, until } from '../server/support/tools.ts';

const HOUR_MS = 3600_000;

/** Real monotonic time; a wall clock that can be moved. */
const movable = (): Clock & { moveBy: (ms: number) => void } => {
  let offMs = 0;
  return {
    monoMs: () => performance.now(),
    wallMs: () => Date.now() + offMs,
    moveBy: (ms) => {
      offMs += ms;
    },
  };
};

const jumpsIn = async (store: ReturnType<typeof openSqliteStore>): Promise<string[]> =>
  (await store.read({ after: 0, limit: 1000, kind: 'note' })).flatMap((entry) =>
    entry.kind === 'note' && entry.body.what === 'clock jumped' ? [entry.body.detail] : [],
  );

describe('a wall clock that jumps', () => {
  it('back by three hours and forward by a day is on record twice, and moves no entry', async () => {
    const folder = scratchFolder();
    const clock = movable();
    const { runner, store } = await startLine(folder, { clock, speed: 10 });
    await until('the line runs', () => runner.shown().view.shift.atMs > 2000);
    await runner.command(commandOf({ do: 'takeControls' }));
    const plantMs = () => runner.shown().view.shift.atMs;

    clock.moveBy(-3 * HOUR_MS);
    await until('the jump back is on record', async () => (await jumpsIn(store)).length === 1);
    const [fromMs, realFromMs] = [plantMs(), performance.now()];
    expect(await runner.command(commandOf({ do: 'start', batches: 1 }))).toEqual({ ok: true });
    await until('two seconds of plant time', () => plantMs() > fromMs + 2000);
    // At ten times real time; by the moved wall clock it would have been three hours back.
    const pace = (plantMs() - fromMs) / (performance.now() - realFromMs);
    expect(pace).toBeGreaterThan(2);
    expect(pace).toBeLessThan(20);

    clock.moveBy(24 * HOUR_MS);
    await until('the jump forward is on record', async () => (await jumpsIn(store)).length === 2);
    expect(await jumpsIn(store)).toEqual([
      expect.stringMatching(/^the computer's clock jumped by -1080\d\.\d s; plant time did not$/),
      expect.stringMatching(/^the computer's clock jumped by 86[34]\d\d\.\d s; plant time did not$/),
    ]);

    const entries = await store.read({ after: 0, limit: 10_000 });
    expect(entries.map((entry) => entry.seq)).toEqual(entries.map((_, i) => i + 1));
    // Plant time never went back though the wall did.
    const times = entries.map((entry) => entry.atMs);
    expect(times).toEqual([...times].sort((a, b) => a - b));
    const walls = entries.map((entry) => Date.parse(entry.wall));
    expect(Math.min(...walls.slice(1).map((wall, i) => wall - (walls[i] ?? 0)))).toBeLessThan(-2 * HOUR_MS);
    expect(await store.verify()).toMatchObject({ ok: true });
  });

  it('back while no server runs is noted at the next start, and the line goes on', async () => {
    const folder = scratchFolder();
    const first = await startLine(folder, { speed: 60 });
    await until('the line runs', () => first.runner.shown().view.shift.atMs > 5000);
    await first.close();
    const clock = movable();
    clock.moveBy(-2 * HOUR_MS);
    const { runner, store } = await startLine(folder, { clock, speed: 60 });
    const atMs = runner.shown().view.shift.atMs;
    await until('it goes on', () => runner.shown().view.shift.atMs > atMs + 3000);
    const notes = (await store.read({ after: 0, limit: 100, kind: 'note' })).flatMap((entry) =>
      entry.kind === 'note' ? [`${entry.body.what}: ${entry.body.detail}`] : [],
    );
    expect(notes.filter((note) => note.startsWith('clock behind'))).toEqual([
      expect.stringMatching(/stands 7[12]\d\d\.\d s behind the newest entry of the record/),
    ]);
    // It counts from there: no further jump is seen.
    expect(await jumpsIn(store)).toEqual([]);
    expect(await store.verify()).toMatchObject({ ok: true });
  });

  it('by less than two seconds, as a time service does, is not noted', async () => {
    const folder = scratchFolder();
    const clock = movable();
    const { runner, store } = await startLine(folder, { clock, speed: 60 });
    clock.moveBy(1500);
    await until('the line runs', () => runner.shown().view.shift.atMs > 10_000);
    expect(await jumpsIn(store)).toEqual([]);
  });
});
