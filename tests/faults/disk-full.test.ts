/** When the record cannot be written the line is held, says why, acknowledges nothing, and goes on by itself. */
import { describe, expect, it } from 'vitest';
import { ticksOf } from '../../machines/record/replay.ts';
import { openSqliteStore } from '../../server/store/sqlite.ts';
import { commandOf, failing, scratchFolder, startLine, until } from '../server/support/tools.ts';

/** A record of 4 KiB pages that is full after a few minutes of plant time. */
const PAGES = 60;

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
    // The gap itself is on record, behind what had waited and before what came after.
    const notes = await store.read({ after: seq, limit: 100, kind: 'note' });
    expect(notes.map((entry) => (entry.kind === 'note' ? entry.body : null))).toEqual([
      {
        what: 'record trouble over',
        detail: expect.stringMatching(
          /^the disk is full: the line was held for \d+\.\d s, plant time stood still and nothing was acknowledged meanwhile$/,
        ),
      },
    ]);
    const [done] = await store.read({ after: seq, limit: 1, fact: 'commandDone' });
    expect(done?.seq).toBeLessThan(notes[0]?.seq ?? 0);
    // What happens afterwards is recorded like anything before: commands, facts, and their order.
    expect(await runner.command(commandOf({ do: 'hold' }))).toEqual({ ok: true });
    const [after] = await store.read({ after: notes[0]?.seq ?? 0, limit: 1, fact: 'commandDone' });
    expect(after?.kind === 'fact' && after.body.fact.is === 'commandDone' && after.body.fact.command).toBe(
      'hold',
    );
    const kim = { id: 'kim', name: 'Kim', role: 'operator' } as const;
    expect(await runner.run({ do: 'speed', speed: 60 }, kim)).toEqual({ ok: true });
    const { atMs } = runner.shown().view.shift;
    const steps = (await store.read({ after: 0, limit: 1000, fact: 'stepEntered' })).length;
    await until('the line decides again', async () => {
      const now = (await store.read({ after: 0, limit: 1000, fact: 'stepEntered' })).length;
      return now > steps && runner.shown().view.shift.atMs > atMs;
    });
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

  it('as SQLite itself reports it, is met the same way, and room that comes back is used', async () => {
    const folder = scratchFolder();
    const store = openSqliteStore(folder, { pagesAtMost: PAGES });
    const log: string[] = [];
    const { runner, close } = await startLine(folder, { store, speed: 60, log: (line) => log.push(line) });
    await until('the file is full', () => runner.shown().run.trouble !== null, 20_000);
    expect(runner.shown().run.trouble).toContain('the disk is full');
    const { seq } = await store.tail();
    const heldMs = runner.shown().view.shift.atMs;
    expect(heldMs).toBeGreaterThan(1000);
    expect(await store.verify()).toMatchObject({ ok: true, entries: seq });
    await new Promise((go) => setTimeout(go, 300));
    expect(runner.shown().view.shift.atMs).toBe(heldMs);
    await close();
    expect(log.at(-1)).toContain('could not be recorded');

    const roomy = openSqliteStore(folder, { pagesAtMost: 4 * PAGES });
    const again = await startLine(folder, { store: roomy, speed: 60 });
    await until('the line goes on', () => again.runner.shown().view.shift.atMs > heldMs + 5000);
    expect(again.runner.shown().run.trouble).toBeNull();
    expect(await roomy.verify()).toMatchObject({ ok: true });
    const entries = await roomy.read({ after: 0, limit: 10_000 });
    const ticks = [...ticksOf(entries)].map(({ tick }) => tick);
    expect(ticks).toEqual(ticks.map((_, i) => i + 1));
  });
});
