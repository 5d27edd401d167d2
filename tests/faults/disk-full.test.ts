/** When the record cannot be written the line is held, says why, acknowledges nothing, and goes on by itself. */
import { describe, expect, it } from 'vitest';
import { openSqliteStore } from '../../server/store/sqlite.ts';
import { commandOf, failing, scratchFolder, startLine, until } from '../server/support/tools.ts';

const full = () => Object.assign(new Error('database or disk is full'), { code: 'SQLITE_FULL' });

describe('a full disk', () => {
  it('holds the line, keeps what waits, and goes on when there is room again', async () => {
    const folder = scratchFolder();
    const store = failing(openSqliteStore(folder));
    const log: string[] = [];
    const { runner } = await startLine(folder, { store, log: (line) => log.push(line) });
    await runner.command(commandOf({ do: 'takeControls' }));
    const { seq } = await store.tail();

    store.failWith(full());
    const start = commandOf({ do: 'start', batches: 1 });
    let answered = false;
    const answer = runner.command(start).finally(() => {
      answered = true;
    });
    await until('the trouble shows', () => runner.shown().run.trouble !== null);
    expect(runner.shown().run.trouble).toBe(
      'the record cannot be written (the disk is full). The line is held until it can; it is tried every second.',
    );
    // The view is still the last one that is on record: the batch that was started does not show.
    expect(runner.shown().view.now.over).toBe('Batch 0');
    const heldMs = runner.shown().view.shift.atMs;
    expect(await runner.command(commandOf({ do: 'hold' }))).toMatchObject({
      ok: false,
      because: [expect.stringContaining('the disk is full')],
    });
    const stop = await runner.command(commandOf({ do: 'emergencyStop' }));
    expect(stop).toMatchObject({
      ok: false,
      because: [expect.stringMatching(/emergency stop is not pressed: the simulated plant stands still/)],
    });
    await new Promise((go) => setTimeout(go, 1200));
    expect(answered).toBe(false);
    expect(runner.shown().view.shift.atMs).toBe(heldMs);
    expect((await store.tail()).seq).toBe(seq);

    store.failWith(null);
    expect(await answer).toEqual({ ok: true });
    await until('the line goes on', () => runner.shown().view.shift.atMs > heldMs + 300);
    expect(runner.shown().run.trouble).toBeNull();
    expect(runner.shown().view.now.over).toBe('Batch 1');
    expect(await store.verify()).toMatchObject({ ok: true });
    expect(await store.answerTo(start.id)).toEqual({ command: 'start', answer: { ok: true } });
    expect(log[0]).toContain('the disk is full');
  });

  it('when the server is stopped meanwhile, nothing that was acknowledged is missing', async () => {
    const folder = scratchFolder();
    const store = failing(openSqliteStore(folder));
    const log: string[] = [];
    const { runner, close } = await startLine(folder, { store, log: (line) => log.push(line) });
    const take = commandOf({ do: 'takeControls' });
    await runner.command(take);
    store.failWith(full());
    void runner.command(commandOf({ do: 'start', batches: 1 }));
    await until('the trouble shows', () => runner.shown().run.trouble !== null);
    await close();
    expect(log.at(-1)).toContain('could not be recorded');
    const again = await startLine(folder);
    expect(again.runner.shown().view.seat.holder?.person).toBe('kim');
    expect(again.runner.shown().view.now.over).toBe('Batch 0');
    expect(await again.store.verify()).toMatchObject({ ok: true });
  });

  it('as SQLite itself reports it, is met the same way', async () => {
    const folder = scratchFolder();
    const store = openSqliteStore(folder, { pagesAtMost: 40 });
    const { runner } = await startLine(folder, { store, speed: 60 });
    await until('the file is full', () => runner.shown().run.trouble !== null, 20_000);
    expect(runner.shown().run.trouble).toContain('the disk is full');
    const heldMs = runner.shown().view.shift.atMs;
    expect(heldMs).toBeGreaterThan(1000);
    expect(await store.verify()).toMatchObject({ ok: true });
    await new Promise((go) => setTimeout(go, 300));
    expect(runner.shown().view.shift.atMs).toBe(heldMs);
  });
});
