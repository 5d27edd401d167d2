/** Tracing through a store, at the command line and over HTTP; recalls and recall drills kept in the record. */
import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import type { EntryContent, LedgerFact } from '../../machines/record/entry.ts';
import type { Traced } from '../../machines/yard/trace/traced.types.ts';
import { main } from '../../server/cli.ts';
import { trace } from '../../server/ledger/trace.ts';
import { suggest } from '../../server/ledger/trace-origins.ts';
import { line } from '../../server/line.ts';
import { runHeadless } from '../../server/runner/headless.ts';
import { Journal } from '../../server/runner/journal.ts';
import { scenarioOrError } from '../../server/scenarios/load.ts';
import { openSqliteStore } from '../../server/store/sqlite.ts';
import type { Store } from '../../server/store/store.ts';
import { fakeScenario } from './support/fake-scenario.ts';
import { serveFake } from './support/serve-fake.ts';
import { scratchFolder } from './support/tools.ts';

type Layer = { readonly n: number; readonly lot: string; readonly grams: number };

/** One short shift of the real line, then two loads laid in five patches, one of them entered by mistake. */
const madeOf = async (folder: string): Promise<void> => {
  const store = openSqliteStore(folder);
  const emulsion = scenarioOrError('scenarios/shifts/emulsion-day.yaml');
  const scenario = { ...emulsion, shift: { ...emulsion.shift, hours: 0.4 } };
  await runHeadless({ engine: line, scenario, store, onFact: () => undefined });
  const { seq, hash } = await store.tail();
  const journal = new Journal(store, () => '2026-05-12T12:00:00.000Z', { seq, hash }, 0);
  let n = 0;
  const put = async (fact: LedgerFact): Promise<void> => {
    n += 1;
    const by = { person: 'pell', role: 'storekeeper' } as const;
    const at = `2026-05-12T12:${String(n).padStart(2, '0')}:00`;
    const body = { id: `made-${n}-by-hand`, do: 'byHand', by, at, book: 'stock', fact } as const;
    journal.add({ kind: 'ledger', body } satisfies EntryContent, 3600_000);
    await journal.commit();
  };
  const stock = async () =>
    (await store.books()).ledger.stock as { places: Record<string, readonly Layer[]> };
  const [[place, layers] = ['', []]] = Object.entries((await stock()).places).filter(
    ([, own]) => own.length > 0,
  );
  const layer = layers[0] as Layer;
  for (const load of ['L-260512-1', 'L-260512-2']) {
    const grams = 600_000;
    const lots = [{ lot: layer.lot, grams }];
    const common = {
      load,
      mix: 'emulsion-patch',
      mixName: 'Patch',
      family: 'emulsion',
      as: 'bulk',
      vehicle: '',
      crew: '',
    };
    await put({ is: 'loadMadeOut', ...common, list: 'PL-260512-1', route: '', for: [], grams });
    const drawn = [{ ...lots[0], place, layer: layer.n, bags: 0, returned: null }];
    await put({
      is: 'loadWeighedOut',
      load,
      tareGrams: 1,
      grossGrams: grams + 1,
      netGrams: grams,
      bags: 0,
      drawn,
      lots,
      byConcession: [],
    });
  }
  const lay = (load: string, no: number, row: number, grams: number) => {
    const patch = `PL-260512-1/${row}`;
    const lots = [{ lot: layer.lot, grams }];
    return put({ is: 'patchLaid', load, n: no, patch, where: `hole ${row}`, grams, lots, layers: [60] });
  };
  await lay('L-260512-1', 1, 1, 250_001);
  await lay('L-260512-1', 2, 2, 249_999);
  await lay('L-260512-2', 1, 9, 100_000);
  await put({
    is: 'patchLaidReversed',
    load: 'L-260512-2',
    n: 1,
    patch: 'PL-260512-1/9',
    grams: 100_000,
    lots: [{ lot: layer.lot, grams: 100_000 }],
    reason: 'another patch was meant',
  });
  await lay('L-260512-2', 2, 10, 333_333);
  await store.close();
};

const folder = { path: '' };
beforeAll(async () => {
  folder.path = mkdtempSync(join(tmpdir(), 'patchyard-trace-'));
  await madeOf(folder.path);
  return () => {
    rmSync(folder.path, { recursive: true, force: true });
  };
}, 60_000);
const inStore = async <T>(ask: (store: Store) => Promise<T>): Promise<T> => {
  const store = openSqliteStore(folder.path);
  try {
    return await ask(store);
  } finally {
    await store.close();
  }
};
const sum = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0);
const tracing = (from: Parameters<typeof trace>[1]): Promise<Traced> =>
  inStore((store) => trace(store, from));

describe('a trace through the record', () => {
  it('finds every patch of a delivery, and where the rest is, to the gram', async () => {
    const found = await tracing({ kind: 'delivery', id: 'OPENING:emulsion' });
    expect(found.patches.map(({ patch }) => patch)).toEqual([
      'PL-260512-1/1',
      'PL-260512-1/2',
      'PL-260512-1/10',
    ]);
    expect(found.patches[0]).toMatchObject({
      place: 'hole 1',
      laidAt: '2026-05-12T12:05:00',
      by: 'pell',
      loads: ['L-260512-1'],
      affectedGrams: 250_001,
    });
    expect(found.affectedPatchGrams).toBe(250_001 + 249_999 + 333_333);
    const shares = [...found.patches, ...found.left].map(({ shareGrams }) => shareGrams);
    expect(sum(shares)).toBe(found.grams);
    expect(found.grams).toBeGreaterThan(0);
    expect(found.batches.length).toBeGreaterThan(2);
    expect(found.batches[0]).toMatchObject({ by: 'wrenna', shift: 1, mix: 'emulsion-patch version 1' });
  });

  it('goes back from a patch to its batches and deliveries, and the sums are what was laid', async () => {
    const found = await tracing({ kind: 'patch', id: 'PL-260512-1/2' });
    expect(found.direction).toBe('backward');
    expect(found.grams).toBe(249_999);
    expect(sum(found.madeOf.map(({ grams }) => grams))).toBe(249_999);
    expect(sum(found.batches.map(({ shareGrams }) => shareGrams))).toBe(249_999);
    expect(found.madeOf.map(({ id }) => id)).toContain('OPENING:emulsion');
    const forward = await tracing({ kind: 'delivery', id: 'OPENING:emulsion' });
    const there = forward.patches.find(({ patch }) => patch === 'PL-260512-1/2')?.shareGrams;
    expect(found.madeOf.find(({ id }) => id === 'OPENING:emulsion')?.grams).toBe(there);
  });

  it('starts from a lot, a batch, a load, an operator and a scale', async () => {
    const lot = await tracing({ kind: 'lot', id: '260512-1' });
    const made = sum(lot.left.concat().map(({ shareGrams }) => shareGrams)) + lot.affectedPatchGrams;
    expect(made).toBe(sum(lot.left.map(({ affectedGrams }) => affectedGrams)) + lot.affectedPatchGrams);
    expect((await tracing({ kind: 'load', id: 'L-260512-2' })).patches.map(({ patch }) => patch)).toEqual([
      'PL-260512-1/10',
    ]);
    const batch = await tracing({ kind: 'batch', id: '260512-1/2' });
    expect(batch.patches).toHaveLength(3);
    expect(sum([...batch.patches, ...batch.left].map(({ shareGrams }) => shareGrams))).toBe(batch.grams);
    const by = await tracing({ kind: 'operator', id: 'wrenna' });
    const scale = await tracing({ kind: 'scale', id: 'hopper', from: '2026-05-12', to: '2026-05-12' });
    expect(by.batches.map(({ batch: id }) => id)).toEqual(scale.batches.map(({ batch: id }) => id));
    const none = tracing({ kind: 'operator', id: 'wrenna', from: '2027-01-01' });
    await expect(none).rejects.toThrow('The record has no batch started by wrenna from 2027-01-01.');
    await expect(tracing({ kind: 'scale', id: 'kitchen' })).rejects.toThrow('There is no scale kitchen');
    await expect(tracing({ kind: 'delivery', id: 'MAINS' })).rejects.toThrow('goes into every batch');
    await expect(tracing({ kind: 'lot', id: 'nine' })).rejects.toThrow('knows no movement of lot nine');
  });

  it('suggests what is on record by a part of its name', async () => {
    const found = await inStore((store) => suggest(store, '260512-1'));
    const ids = found.map(({ kind, id }) => `${kind} ${id}`);
    for (const one of ['lot 260512-1', 'batch 260512-1/2', 'load L-260512-1', 'patch PL-260512-1/10'])
      expect(ids).toContain(one);
    expect((await inStore((store) => suggest(store, 'wren'))).map(({ id }) => id)).toEqual(['wrenna']);
    expect(await inStore((store) => suggest(store, '100%_'))).toEqual([]);
  });
});

describe('patchyard trace', () => {
  const said: string[] = [];
  beforeEach(() => {
    said.length = 0;
    vi.spyOn(console, 'log').mockImplementation((text) => void said.push(String(text)));
    vi.spyOn(console, 'error').mockImplementation((text) => void said.push(String(text)));
    vi.spyOn(process.stdout, 'write').mockImplementation((text) => {
      said.push(String(text));
      return true;
    });
    return () => void vi.restoreAllMocks();
  });
  const run = (...args: string[]) => main(['trace', '--data', folder.path, ...args]);

  it('says it in words, as JSON and as a table', async () => {
    expect(await run('--delivery', 'OPENING:emulsion')).toBe(0);
    expect(said.join('\n')).toContain('3 patches with 0.833 t of mix are affected');
    said.length = 0;
    expect(await run('--delivery', 'OPENING:emulsion', '--json')).toBe(0);
    expect((JSON.parse(said.join('')) as Traced).patches).toHaveLength(3);
    said.length = 0;
    expect(await run('--patch', 'PL-260512-1/2', '--csv')).toBe(0);
    const rows = said.join('').split('\r\n');
    expect(rows[0]).toContain('affected mix kg');
    expect(rows[1]).toMatch(
      /^patch,PL-260512-1\/2,hole 2,2026-05-12T12:06:00,pell,L-260512-1,260512-1,249\.999,249\.999$/,
    );
    expect(rows.filter((row) => row.startsWith('delivery,'))).toHaveLength(5);
  });

  it('says what is wrong with what it was asked', async () => {
    expect(await run('--lot', 'nine')).toBe(1);
    expect(await run()).toBe(2);
    expect(await run('--lot', 'a', '--batch', 'b')).toBe(2);
    expect(await run('--lot', '260512-1', '--from', '2026-05-12')).toBe(2);
    expect(await run('--operator', 'wrenna', '--from', 'monday')).toBe(2);
    expect(said.join('\n')).toContain('--from monday is no time');
    expect(said.join('\n')).toContain('knows no movement of lot nine');
  });
});

describe('recalls and drills', () => {
  /** A fake line goes on in a copy of the record. */
  const served = async () => {
    // A folder of its own for each.
    const dataFolder = scratchFolder();
    cpSync(folder.path, dataFolder, { recursive: true });
    const { plant, mixes } = scenarioOrError('scenarios/shifts/emulsion-day.yaml');
    return serveFake({ dataFolder, newShift: true, scenario: { ...fakeScenario(), plant, mixes } });
  };
  const ask = async (url: string, path: string, body: unknown) => {
    const response = await fetch(`${url}${path}`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
    return response.json();
  };
  const by = (person: string) => ({ person, console: 'console-a' });

  it('score a drill by the truth the server knows, and keep it in the record', async () => {
    const { url } = await served();
    const from = { kind: 'delivery', id: 'OPENING:emulsion' };
    const begun = await ask(url, '/api/trace/drills', { by: by('kim'), from });
    expect(begun.patches.map(({ patch }: { patch: string }) => patch)).toEqual([
      'PL-260512-1/1',
      'PL-260512-1/2',
      'PL-260512-1/10',
    ]);
    const path = `/api/trace/drills/${begun.drill}`;
    const ticked = ['PL-260512-1/1', 'PL-260512-1/2', 'PL-260512-1/9'];
    expect((await ask(url, path, { by: by('noor'), ticked })).because[0]).toContain("This drill is kim's");
    // Two of three found and one wrong: a third of the points.
    expect(await ask(url, path, { by: by('kim'), ticked })).toMatchObject({
      ok: true,
      score: 33,
      missed: ['PL-260512-1/10'],
      wrong: ['PL-260512-1/9'],
    });
    expect((await ask(url, path, { by: by('kim'), ticked })).because[0]).toContain('This drill is over');
    const shown = await (await fetch(`${url}/api/ledger/recalls`)).json();
    expect(shown.view.drills).toMatchObject([{ by: 'kim', score: 33, patches: 3 }]);
    const forged = await ask(url, '/api/ledger/recalls/commands', {
      id: 'forged-drill',
      by: by('kim'),
      command: { do: 'keepDrill', from, words: '', seconds: 1, truth: [], ticked: [] },
    });
    expect(forged).toEqual({
      ok: false,
      because: ['A drill is kept by the program itself when it is over.'],
    });
    const none = await ask(url, '/api/trace/drills', { by: by('kim'), from: { kind: 'lot', id: 'nine' } });
    expect(none.because[0]).toContain('knows no movement');
  });

  it('is worked through patch by patch, taken back with a reason, closed and opened again', async () => {
    const { url } = await served();
    let n = 0;
    const put = async (person: string, command: object) => {
      n += 1;
      const path = '/api/ledger/recalls/commands';
      return ask(url, path, { id: `recall-step-${n}`, by: by(person), command });
    };
    const open = {
      do: 'openRecall',
      from: { kind: 'lot', id: '260512-1' },
      words: 'Lot 260512-1',
      reason: 'failed',
    };
    expect((await put('kim', open)).because[0]).toContain('An operator may not do this');
    expect(await put('noor', open)).toEqual({ ok: true });
    expect((await put('noor', open)).because[0]).toContain('is open already');
    const book = async () => (await (await fetch(`${url}/api/ledger/recalls`)).json()).view.recalls[0];
    const { id: recall } = await book();
    const tick = { do: 'tickPatch', recall, patch: 'PL-260512-1/2', what: 'crew told' };
    expect(await put('kim', tick)).toEqual({ ok: true });
    expect((await put('kim', tick)).because[0]).toContain('is marked "crew told" already');
    const back = { do: 'takeBackTick', recall, patch: tick.patch, n: 1, reason: 'wrong crew' };
    expect(await put('kim', back)).toEqual({ ok: true });
    expect((await put('kim', back)).because[0]).toContain('no such mark');
    expect((await book()).ticks[tick.patch]).toMatchObject([
      { what: 'crew told', by: 'kim', back: 'wrong crew' },
    ]);
    expect(await put('noor', { do: 'closeRecall', recall, remark: 'all sound' })).toEqual({ ok: true });
    expect((await put('kim', tick)).because[0]).toContain('open it again first');
    expect(await put('noor', { do: 'reopenRecall', recall, reason: 'one forgotten' })).toEqual({ ok: true });
    expect((await book()).closed).toBeNull();
    const lot = await (await fetch(`${url}/api/ledger/lots/260512-1`)).json();
    expect(lot.entries.some((entry: { book: string }) => entry.book === 'line')).toBe(true);
    expect((await fetch(`${url}/api/ledger/lots/nine`)).status).toBe(404);
    const traced = await (await fetch(`${url}/api/trace?kind=lot&id=260512-1`)).json();
    expect(traced.patches).toHaveLength(3);
    const csv = await fetch(`${url}/api/trace.csv?kind=lot&id=260512-1`);
    expect(csv.headers.get('content-disposition')).toContain('trace-lot-260512-1.csv');
    expect((await fetch(`${url}/api/trace?kind=lot&id=nine`)).status).toBe(404);
  });
});
