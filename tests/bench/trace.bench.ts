/**
 * Tracing in a store of ten years: the whole trace of a binder delivery, a lot and a patch, beside the bare recursive SQL
 * of the same run; and what the books cost a shift. SHIFTS=n makes a smaller store.
 *
 * The store holds the trace tables alone, filled by the writer that fills them in the plant's record: eight lots a shift
 * of thirteen batches, three loads a lot, ten patches a load, a binder tank that holds two deliveries. Entries beside
 * them would change nothing: tracing reads none.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { beginListening, listen } from '../../machines/ledger/listen.ts';
import { apportion } from '../../machines/yard/trace/apportion.ts';
import type { Edge, NodeRef } from '../../machines/yard/trace/edges.ts';
import { trace } from '../../server/ledger/trace.ts';
import { line } from '../../server/line.ts';
import { runHeadless } from '../../server/runner/headless.ts';
import { scenarioOrError } from '../../server/scenarios/load.ts';
import { markHeard, scenarioReader } from '../../server/store/books.ts';
import { openDatabase, RECORD_FILE } from '../../server/store/database.ts';
import { heardOfRecord } from '../../server/store/heard.ts';
import { openSqliteStore, storeOn } from '../../server/store/sqlite.ts';
import { createTraceWriter, TRACE_TABLES } from '../../server/store/trace-tables.ts';
import { benchFolder, type Figure, percentile } from './measure.ts';

const SHIFTS = Number(process.env.SHIFTS ?? 2500);
const LOTS = 8;
const BATCHES = 13;
const LOADS = 3;
const PATCHES = 10;
const BATCH_G = 750_600;
const BINDER_G = 51_700;
const QUERIES = 60;
const AIM_MS = 200;

const figure = (id: string, what: string, value: number, unit: string): Figure => ({ id, what, value, unit });

const dayOf = (shift: number): string =>
  new Date(Date.UTC(2016, 0, 4) + (Math.floor(shift / 5) * 7 + (shift % 5)) * 86_400_000)
    .toISOString()
    .slice(0, 10);
const short = (day: string): string => day.slice(2).replaceAll('-', '');
const ref = (kind: NodeRef['kind'], id: string): NodeRef => ({ kind, id });

/** Edges of one shift. A binder delivery is in use for four shifts, the second half of them mixed with the next. */
const shiftEdges = (
  shift: number,
  seq: { n: number },
): { edges: Edge[]; lots: string[]; patches: string[] } => {
  const day = short(dayOf(shift));
  const edges: Edge[] = [];
  const [lots, patches]: [string[], string[]] = [[], []];
  const put = (from: NodeRef, to: NodeRef, grams: number): void => {
    if (grams > 0) edges.push({ from, to, grams, seq: seq.n });
  };
  const tank = [
    ref('delivery', `D-B-${Math.floor(shift / 2)}`),
    ref('delivery', `D-B-${Math.floor(shift / 2) + 1}`),
  ];
  for (let l = 1; l <= LOTS; l++) {
    const lot = ref('lot', `${day}-${l}`);
    lots.push(lot.id);
    for (let b = 1; b <= BATCHES; b++) {
      seq.n += 100;
      const batch = ref('batch', `${lot.id}/${(l - 1) * BATCHES + b}`);
      for (const [bin, grams] of [311_000, 243_000, 140_000].entries())
        put(ref('delivery', `D-S${bin}-${Math.floor(shift / 3)}`), batch, grams);
      put(ref('delivery', 'MAINS'), batch, 4_900);
      const shares = apportion([15_000_000, shift % 2 === 0 ? 0 : 5_000_000], BINDER_G);
      for (const [i, delivery] of tank.entries()) put(delivery, batch, shares[i] as number);
      put(batch, lot, BATCH_G);
    }
    for (let d = 1; d <= LOADS; d++) {
      seq.n += 1;
      const load = ref('load', `L-${day}-${(l - 1) * LOADS + d}`);
      put(lot, load, 3_200_000);
      for (let p = 1; p <= PATCHES; p++) {
        seq.n += 1;
        const patch = ref('patch', `PL-${day}-${l}/${(d - 1) * PATCHES + p}`);
        patches.push(patch.id);
        put(load, patch, 290_000);
      }
    }
  }
  return { edges, lots, patches };
};

type Made = { readonly db: Database.Database; readonly edges: number; readonly seconds: number };

const makeStore = (folder: string): Made => {
  const startedMs = performance.now();
  const db = openDatabase(folder, {});
  db.pragma('synchronous = OFF');
  const writer = createTraceWriter(db);
  const seq = { n: 0 };
  let edges = 0;
  for (let shift = 0; shift < SHIFTS; shift += 25)
    db.transaction(() => {
      for (let k = shift; k < Math.min(SHIFTS, shift + 25); k++) {
        const made = shiftEdges(k, seq);
        edges += made.edges.length;
        writer.write(null, made.edges, '');
      }
    })();
  // Filled by hand: the books must not make these tables again from a record that has no entries.
  markHeard(db);
  db.pragma('wal_checkpoint(TRUNCATE)');
  return { db, edges, seconds: (performance.now() - startedMs) / 1000 };
};

/** What the bare SQL has to do at the least: every node below, and the grams that came to each patch. In its best order. */
const DOWN = `
  WITH RECURSIVE down (node) AS (
    SELECT node FROM trace_nodes WHERE kind = ? AND id = ?
    UNION SELECT e.to_node FROM down d CROSS JOIN trace_edges e ON e.from_node = d.node)
  SELECT n.id, sum(e.grams) AS grams FROM down d CROSS JOIN trace_nodes n ON n.node = d.node
    CROSS JOIN trace_edges e ON e.to_node = d.node WHERE n.kind = 'patch' GROUP BY n.id`;
const UP = `
  WITH RECURSIVE up (node) AS (
    SELECT node FROM trace_nodes WHERE kind = ? AND id = ?
    UNION SELECT e.from_node FROM up u CROSS JOIN trace_edges e ON e.to_node = u.node)
  SELECT n.kind, n.id FROM up u CROSS JOIN trace_nodes n ON n.node = u.node`;

const timesOf = async (ids: readonly string[], ask: (id: string) => unknown): Promise<number[]> => {
  const out: number[] = [];
  for (const id of ids) {
    const startedMs = performance.now();
    await ask(id);
    out.push(performance.now() - startedMs);
  }
  return out;
};

/** Numbers spread over 0..below, the same in every run. */
const spread = (below: number): number[] =>
  Array.from({ length: QUERIES }, (_, i) => (i * 7919 + 13) % below);

const benchTraces = async (folder: string): Promise<Figure[]> => {
  const { db, edges, seconds } = makeStore(folder);
  const store = storeOn(folder, db);
  const shifts = spread(SHIFTS - 4);
  const kinds = [
    [
      'delivery',
      'a binder delivery forward to every patch',
      shifts.map((n) => `D-B-${Math.floor(n / 2) + 1}`),
      DOWN,
    ],
    ['lot', 'a lot forward to every patch', shifts.map((n) => `${short(dayOf(n))}-3`), DOWN],
    ['patch', 'a patch back to its deliveries', shifts.map((n) => `PL-${short(dayOf(n))}-5/7`), UP],
  ] as const;
  const out: Figure[] = [
    figure('trace.edges', `movements in a store of ${SHIFTS} shifts`, edges, ''),
    figure(
      'trace.bytes',
      'its trace tables on disk',
      ((db.pragma('page_count', { simple: true }) as number) * 4096) / 1e6,
      'MB',
    ),
    figure('trace.made', 'to fill them', seconds, 's'),
  ];
  for (const [kind, what, ids, sql] of kinds) {
    const bare = db.prepare(sql);
    const found = await trace(store, { kind, id: ids[0] as string });
    const rows = bare.all(kind, ids[0]);
    if (kind !== 'patch' && rows.length !== found.patches.length)
      throw new Error(
        `${kind}: the bare SQL finds ${rows.length} patches, the trace ${found.patches.length}`,
      );
    const ours = await timesOf(ids, (id) => trace(store, { kind, id }));
    const sqls = await timesOf(ids, (id) => bare.all(kind, id));
    const [p95, sql95] = [percentile(ours, 95), percentile(sqls, 95)];
    out.push(
      figure(
        `trace.${kind}`,
        `${what}, shares and words and all, 95 of 100 within (aim ${AIM_MS})`,
        p95,
        'ms',
      ),
      figure(`trace.${kind}.sql`, 'the bare recursive SQL of it', sql95, 'ms'),
    );
    if (kind === 'delivery')
      out.push(figure('trace.delivery.patches', 'patches it finds', found.patches.length, ''));
  }
  db.close();
  return out;
};

/** What hearing costs a headless shift. */
const benchHearing = async (folder: string): Promise<Figure[]> => {
  const store = openSqliteStore(folder);
  const scenario = scenarioOrError('scenarios/shifts/emulsion-day.yaml');
  await runHeadless({ engine: line, scenario, store, onFact: () => undefined });
  await store.close();
  const db = new Database(join(folder, RECORD_FILE), { readonly: true });
  const heard = [...heardOfRecord(db, 0)];
  const scenarioOf = scenarioReader(db);
  let best = Number.POSITIVE_INFINITY;
  let state = beginListening();
  for (let i = 0; i < 5; i++) {
    state = beginListening();
    const startedMs = performance.now();
    for (const one of heard) state = listen(state, one, scenarioOf).listening;
    best = Math.min(best, performance.now() - startedMs);
  }
  const edges = db.prepare(`SELECT count(*) FROM ${TRACE_TABLES[1]}`).pluck().get() as number;
  db.close();
  return [
    figure(
      'ledger.hear',
      `the books hear a shift of eight hours (${heard.length} facts, ${edges} movements)`,
      best,
      'ms',
    ),
    figure('ledger.state', 'their state after it', JSON.stringify(state).length / 1e3, 'kB'),
  ];
};

export const benchTrace = async (): Promise<Figure[]> => {
  const folder = mkdtempSync(join(benchFolder(), 'trace-'));
  try {
    return [
      ...(await benchHearing(mkdtempSync(join(folder, 'shift-')))),
      ...(await benchTraces(mkdtempSync(join(folder, 'years-')))),
    ];
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};
