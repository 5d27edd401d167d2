/** The books of lab and yard beside the record: durable before they answer, once an id, and what is kept is what the record makes. */
import { existsSync, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { SHELF } from '../../machines/ledger/shelf.ts';
import { canonical } from '../../machines/record/canonical.ts';
import { archiveShift, dueForArchive, restoreShift } from '../../server/archive/archive.ts';
import { archivedEntriesAtHand } from '../../server/archive/archived-entries.ts';
import { writeExport } from '../../server/archive/write-export.ts';
import { main } from '../../server/cli.ts';
import { line } from '../../server/line.ts';
import { runHeadless } from '../../server/runner/headless.ts';
import type { PlantRunner } from '../../server/runner/runner.types.ts';
import { scenarioOrError } from '../../server/scenarios/load.ts';
import { RECORD_FILE } from '../../server/store/database.ts';
import { withRecord } from '../../server/store/exclusive.ts';
import { rebuildBooks } from '../../server/store/rebuild-books.ts';
import { openSqliteStore, storeOn } from '../../server/store/sqlite.ts';
import type { Store } from '../../server/store/store.ts';
import { verifyFile } from '../../server/verify/verify-file.ts';
import { verifyRecord } from '../../server/verify/verify-record.ts';
import { testKey } from '../record/support/made-export.ts';
import { fakeScenario } from './support/fake-scenario.ts';
import { serveFake } from './support/serve-fake.ts';
import { commandOf, failing, scratchFolder, startLine, until } from './support/tools.ts';

beforeEach(() => {
  vi.spyOn(console, 'log').mockImplementation(() => undefined);
  vi.spyOn(console, 'error').mockImplementation(() => undefined);
  return () => void vi.restoreAllMocks();
});

const KIM = { person: 'kim', role: 'operator' } as const;
const NOOR = { person: 'noor', role: 'supervisor' } as const;
const hole = (place: string) => ({
  place,
  route: 'north',
  lengthM: 1.2,
  widthM: 0.8,
  depthMm: 60,
  baseReached: false,
  compactedBy: 'roller' as const,
  surface: 'bituminous' as const,
});
const takeList = (name: string) => ({
  do: 'takeList',
  name,
  source: { how: 'typed', file: null, leftOut: 0 },
  patches: [hole('by the mill'), hole('at the ford')],
});
const asked = (id: string, command: unknown, by = KIM as typeof KIM | typeof NOOR) => ({
  id,
  book: 'patches' as const,
  by,
  command,
});
const listsOf = async (store: Store): Promise<readonly string[]> =>
  Object.values(
    ((await store.books()).ledger.patches as { lists: Record<string, { name: string }> }).lists,
  ).map(({ name }) => name);
const ledgerEntries = async (store: Store) => store.read({ after: 0, limit: 100, kind: 'ledger' });

const started = async (more: Parameters<typeof startLine>[1] = {}, folder = scratchFolder()) => {
  const under = await startLine(folder, more);
  return { ...under, runner: under.runner as PlantRunner, folder };
};

describe('a command to a book', () => {
  it('is durable when it is answered, carried out once, and there after a restart', async () => {
    const { runner, store, close, folder } = await started();
    const command = takeList('May, north');
    expect(await runner.askBook(asked('list-one-1', command))).toEqual({ ok: true });
    expect(await runner.askBook(asked('list-one-1', command))).toEqual({ ok: true });
    const [same, twin] = await Promise.all([
      runner.askBook(asked('list-two-1', takeList('May, south'))),
      runner.askBook(asked('list-two-1', takeList('May, south'))),
    ]);
    expect([same, twin]).toEqual([{ ok: true }, { ok: true }]);
    expect(await listsOf(store)).toEqual(['May, north', 'May, south']);
    const other = await runner.askBook(asked('list-one-1', { do: 'finishList', list: 'PL-260504-1' }));
    expect(other.ok === false && other.because[0]).toContain(
      'This id was used before, for patches: takeList',
    );
    const entries = await ledgerEntries(store);
    expect(new Set(entries.map((entry) => entry.kind === 'ledger' && entry.body.id)).size).toBe(2);
    expect(entries[0]).toMatchObject({
      kind: 'ledger',
      body: { id: 'list-one-1', do: 'takeList', by: KIM, book: 'patches' },
    });
    expect(entries[0]?.kind === 'ledger' && entries[0].body.at).toMatch(/^2026-05-04T06:00:\d\d$/);
    const before = canonical((await store.books()).ledger);
    await close();
    const again = openSqliteStore(folder);
    expect(canonical((await again.books()).ledger)).toBe(before);
    await again.close();
    expect(await verifyRecord(folder)).toMatchObject({ result: expect.any(String) });
  });

  it('is refused with words when the role, the form or the person is wrong', async () => {
    const { runner, store } = await started();
    const role = await runner.askBook({
      ...asked('wrong-role', takeList('x')),
      by: { person: 'ola', role: 'auditor' },
    });
    expect(role).toEqual({
      ok: false,
      because: [expect.stringMatching(/^An auditor may not do this; it is for: supervisor/)],
    });
    const form = await runner.askBook(asked('wrong-form', { do: 'takeList', name: 'x' }));
    expect(form.ok === false && form.because.join(' ')).toContain('patches');
    const unknown = await runner.askBook(asked('wrong-word', { do: 'burnEverything' }));
    expect(unknown.ok).toBe(false);
    expect(await ledgerEntries(store)).toEqual([]);
  });

  it('that makes a book fail is refused in words, and neither record nor line is hurt', async () => {
    const { runner, store } = await started();
    const { book } = SHELF.patches as { book: { answer: unknown; hear: unknown } };
    const whole = { ...book };
    const fails = () => {
      throw new Error('a fault planted in the book');
    };
    try {
      book.answer = fails;
      const answer = await runner.askBook(asked('planted-1', takeList('x')));
      expect(answer.ok === false && answer.because[0]).toContain('a fault planted in the book');
      book.answer = () => ({ ok: true, facts: [{ is: 'listTaken', list: Number.NaN }] });
      expect((await runner.askBook(asked('planted-2', takeList('x')))).ok).toBe(true);
      book.answer = whole.answer;
      book.hear = fails;
      expect(await runner.askBook(asked('planted-3', takeList('heard by nobody')))).toEqual({ ok: true });
    } finally {
      Object.assign(book, whole);
    }
    expect(runner.shown().run.trouble).toBeNull();
    expect(await runner.command(commandOf({ do: 'takeControls' }))).toEqual({ ok: true });
    expect((await ledgerEntries(store)).length).toBeGreaterThan(1);
  });

  it('waits for nothing while the record cannot be written, and is not done twice afterwards', async () => {
    const store = failing(openSqliteStore(scratchFolder()));
    const { runner } = await started({ store }, '');
    store.failWith(new Error('no room'));
    const first = await runner.askBook(asked('no-room-1', takeList('once')));
    expect(first.ok === false && first.because[0]).toContain('kept until the record can be written again');
    const second = await runner.askBook(asked('no-room-1', takeList('once')));
    expect(second.ok === false && second.because[0]).toContain('Nothing is carried out just now');
    store.failWith(null);
    await until('the record', () => runner.shown().run.trouble === null);
    expect(await runner.askBook(asked('no-room-1', takeList('once')))).toEqual({ ok: true });
    expect(await listsOf(store)).toEqual(['once']);
  });

  it('comes in over HTTP from a person of the plant, and the book is shown with its entry and the plant’s clock', async () => {
    const { url } = await serveFake();
    const post = async (person: string, id: string) => {
      const response = await fetch(`${url}/api/ledger/patches/commands`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ id, by: { person, console: 'console-a' }, command: takeList('by wire') }),
      });
      return { status: response.status, body: await response.json() };
    };
    expect(await post('nobody', 'http-no-one')).toMatchObject({ body: { ok: false } });
    expect(await post('kim', 'http-kim-1')).toEqual({ status: 200, body: { ok: true } });
    const shown = await (await fetch(`${url}/api/ledger/patches`)).json();
    expect(shown.at).toMatch(/^2026-05-04T06:0/);
    expect(shown.view.lists.map(({ name }: { name: string }) => name)).toEqual(['by wire']);
    const { run } = await (await fetch(`${url}/api/state`)).json();
    expect(run.ledger).toBeGreaterThanOrEqual(shown.seq - 1);
    expect((await fetch(`${url}/api/ledger/novels`)).status).toBe(400);
  });
});

describe('what is kept of the books', () => {
  const emulsion = scenarioOrError('scenarios/shifts/emulsion-day.yaml');
  const scenario = { ...emulsion, shift: { ...emulsion.shift, hours: 0.3 } };
  const onFact = () => undefined;
  const key = testKey(5);

  /** Two short shifts of the real line, sealed; then a patch list by hand. */
  const madeOf = async (folder: string): Promise<string> => {
    const store = openSqliteStore(folder);
    for (const _twice of [1, 2]) await runHeadless({ engine: line, scenario, store, key, onFact });
    await store.close();
    const after = { ...fakeScenario('after'), plant: emulsion.plant, mixes: emulsion.mixes };
    const { runner, close } = await startLine(folder, { scenario: after, key });
    await (runner as PlantRunner).askBook(asked('after-1', takeList('after two shifts')));
    await close();
    const again = openSqliteStore(folder);
    const text = canonical((await again.books()).ledger);
    await again.close();
    return text;
  };
  const textOf = async (folder: string): Promise<string> => {
    const store = openSqliteStore(folder);
    const text = canonical((await store.books()).ledger);
    await store.close();
    return text;
  };
  const inFile = (folder: string, work: (db: Database.Database) => void): void => {
    const db = new Database(join(folder, RECORD_FILE));
    work(db);
    db.close();
  };
  const compared = (folder: string, mend = false) => withRecord(folder, (db) => rebuildBooks(db, mend));

  it('is what the record makes: saved or not, archived or not, file of the archive there or not', async () => {
    const folder = scratchFolder();
    const text = await madeOf(folder);
    expect(await compared(folder)).toMatchObject({ differences: 0, told: [], unheard: [] });
    expect((await compared(folder)).edges).toBeGreaterThan(20);
    inFile(folder, (db) => db.exec('DELETE FROM books'));
    expect(await textOf(folder)).toBe(text);
    inFile(folder, (db) =>
      db.exec(`UPDATE books SET version = 0; UPDATE versions SET version = 0 WHERE of = 'ledger'`),
    );
    expect(await textOf(folder)).toBe(text);
    expect(await compared(folder)).toMatchObject({ differences: 0 });

    const stub = await withRecord(folder, async (db) => {
      const store = storeOn(folder, db);
      const [due] = dueForArchive(await store.shifts(), Date.parse('2999-01-01'));
      if (due === undefined) throw new Error('no shift is due');
      return archiveShift(db, store, due, folder, writeExport);
    });
    inFile(folder, (db) => {
      db.exec('DELETE FROM books');
      expect(db.prepare('SELECT count(*) FROM heard').pluck().get()).toBe(1);
    });
    const away = `${stub.file}.away`;
    renameSync(stub.file, away);
    expect(await textOf(folder)).toBe(text);
    expect(await compared(folder)).toMatchObject({ differences: 0, unheard: [] });
    renameSync(away, stub.file);
    // A program without books archived it: its file tells, and without that it is said.
    inFile(folder, (db) => db.exec('DELETE FROM heard; DELETE FROM books'));
    const unheard = await withRecord(folder, (db) => rebuildBooks(db, false));
    expect(unheard.unheard).toEqual([1]);
    expect(unheard.differences).toBeGreaterThan(0);
    const heard = await withRecord(folder, async (db) =>
      rebuildBooks(db, true, (await archivedEntriesAtHand(db)).entriesOf),
    );
    expect(heard).toMatchObject({ differences: 0, unheard: [] });
    expect(await textOf(folder)).toBe(text);
    await withRecord(folder, (db) => restoreShift(db, stub.file));
    inFile(folder, (db) => {
      db.exec('DELETE FROM books');
      expect(db.prepare('SELECT count(*) FROM heard').pluck().get()).toBe(0);
    });
    expect(await textOf(folder)).toBe(text);
    expect(await main(['rebuild', '--data', folder, '--check'])).toBe(0);
  }, 60_000);

  it('is found out and put right when somebody changed it', async () => {
    const folder = scratchFolder();
    const text = await madeOf(folder);
    inFile(folder, (db) => {
      db.exec(`UPDATE books SET json = replace(json, 'after two shifts', 'after no shift')`);
      db.exec('UPDATE trace_edges SET grams = grams + 1 WHERE seq = (SELECT min(seq) FROM trace_edges)');
      db.exec('DELETE FROM trace_batches WHERE batch = 1');
    });
    const found = await compared(folder);
    expect(found.differences).toBeGreaterThanOrEqual(4);
    expect(found.told.join('\n')).toContain('the book of patches is not what the record makes it');
    expect(found.told.join('\n')).toContain('missing in trace_batches');
    expect(await main(['rebuild', '--data', folder, '--check'])).toBe(1);
    expect(await main(['rebuild', '--data', folder])).toBe(0);
    expect(await compared(folder)).toMatchObject({ differences: 0 });
    expect(await textOf(folder)).toBe(text);
  }, 60_000);

  it('does without what is damaged on disk, tells it, and the line goes on', async () => {
    const folder = scratchFolder();
    await madeOf(folder);
    inFile(folder, (db) => {
      db.exec(`DELETE FROM books; UPDATE scenarios SET json = '{'`);
      db.exec(
        `UPDATE entries SET json = 'torn' WHERE seq = (SELECT min(seq) FROM entries WHERE fact = 'lotOpened')`,
      );
    });
    const told: string[] = [];
    const store = openSqliteStore(folder, {}, ({ seq, why }) => told.push(`${seq} ${why}`));
    expect(await listsOf(store)).toContain('after two shifts');
    expect(told.join('\n')).toContain('the entry cannot be read');
    await store.close();
  }, 60_000);

  it('goes back with a tail that is cut off', async () => {
    const folder = scratchFolder();
    await madeOf(folder);
    inFile(folder, (db) => {
      const last = db.prepare(`SELECT min(seq) FROM entries WHERE kind = 'ledger'`).pluck().get() as number;
      db.prepare('UPDATE entries SET json = substr(json, 1, 40) WHERE seq >= ?').run(last);
    });
    rmSync(join(folder, 'high-water.json'), { force: true });
    const store = openSqliteStore(folder);
    expect(store.cut).toContain('were cut off');
    expect(await listsOf(store)).not.toContain('after two shifts');
    await store.close();
    expect(await compared(folder)).toMatchObject({ differences: 0 });
  }, 60_000);

  it('lies in the export of its shift, which verifies', async () => {
    const folder = scratchFolder();
    const { runner, store, close } = await started({ key }, folder);
    await runner.askBook(asked('in-export-1', takeList('in the export')));
    await runner.command(commandOf({ do: 'takeControls' }));
    await runner.command(commandOf({ do: 'endShift', notes: '' }));
    await until(
      'the seal',
      async () => (await store.read({ after: 0, limit: 9, kind: 'seal' })).length === 1,
    );
    expect(await runner.askBook(asked('behind-seal-1', takeList('behind the seal')))).toEqual({ ok: true });
    const file = join(folder, 'shift.zip');
    await close();
    expect(await main(['export', '--data', folder, '--shift', '1', '--out', file])).toBe(0);
    expect(existsSync(file)).toBe(true);
    expect(await verifyFile(file)).toMatchObject({ result: 'intact' });
    // What was written behind the seal is in the chain, and the next shift names it.
    expect(await verifyRecord(folder)).toMatchObject({ result: 'intact' });
    const next = await started({ key }, folder);
    expect(await listsOf(next.store)).toEqual(['in the export', 'behind the seal']);
    const entries = await next.store.read({ after: 0, limit: 1000 });
    const behind = entries.findLast((entry) => entry.kind === 'ledger');
    const opening = entries.find((entry) => entry.kind === 'opening' && entry.seq > (behind?.seq ?? 0));
    expect(entries.find(({ seq }) => seq === (opening?.seq ?? 0) - 1)?.hash).toBe(opening?.prev);
  });
});
