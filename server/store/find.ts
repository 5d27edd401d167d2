/** Questions to the index: shifts, lots, batches, people, materials, days. None of them reads the record. */
import type Database from 'better-sqlite3';
import { namedBy } from './mentions.ts';
import type { FindQuery, Found, IndexKind, Mention, ShiftSummary } from './store.ts';
import { entryOf, type Row } from './tables.ts';

const FOUND_AT_MOST = 1000;

const SUMMARY = `
  SELECT s.shift, s.scenario, s.day, s.opened_wall AS openedWall, s.ended_wall AS endedWall, s.seal, s.root,
    coalesce((SELECT min(n.shift) FROM shifts n WHERE n.shift > s.shift) - 1, @tail) AS last,
    (SELECT count(*) FROM mentions m WHERE m.shift = s.shift AND m.kind = 'lot') AS lots,
    (SELECT count(*) FROM mentions m WHERE m.shift = s.shift AND m.kind = 'batch') AS batches,
    (SELECT a.file FROM archived a WHERE a.shift = s.shift) AS archivedIn
  FROM shifts s`;

const MENTION = 'SELECT kind, key, shift, first, last, count FROM mentions';

/** Conditions on names, as the index spells them. */
const namesIn = (query: FindQuery): (readonly [IndexKind, string])[] => {
  const { lot, batch, person, material, mix } = query;
  const all: (readonly [IndexKind, string | undefined])[] = [
    ['lot', lot],
    ['batch', batch === undefined ? undefined : String(batch)],
    ['person', person],
    ['material', material],
    ['mix', mix],
  ];
  return all.filter((pair): pair is readonly [IndexKind, string] => pair[1] !== undefined);
};

/** The statement for a query: every condition is a search in an index, the narrowest of which SQLite begins with. */
export const findStatement = (query: FindQuery): { sql: string; values: Record<string, string | number> } => {
  const names = namesIn(query);
  const values: Record<string, string | number> = { limit: query.limit ?? FOUND_AT_MOST };
  const where: string[] = [];
  const joins = names.map(([kind, key], i) => {
    values[`kind${i}`] = kind;
    values[`key${i}`] = key;
    return `JOIN mentions m${i} ON m${i}.kind = @kind${i} AND m${i}.key = @key${i} AND m${i}.shift = s.shift`;
  });
  if (query.fromDay !== undefined) {
    where.push('s.day >= @fromDay');
    values.fromDay = query.fromDay;
  }
  if (query.toDay !== undefined) {
    where.push('s.day <= @toDay');
    values.toDay = query.toDay;
  }
  const condition = where.length === 0 ? '' : `WHERE ${where.join(' AND ')}`;
  // First which shifts, then what is to be said of them: counts are taken for those that are given only.
  const hits = `SELECT s.shift FROM shifts s ${joins.join(' ')} ${condition} ORDER BY s.shift DESC LIMIT @limit`;
  return { sql: `${SUMMARY} WHERE s.shift IN (${hits}) ORDER BY s.shift DESC`, values };
};

export const createFinder = (db: Database.Database) => {
  const all = db.prepare(`${SUMMARY} ORDER BY s.shift`);
  const oneMention = db.prepare(`${MENTION} WHERE kind = ? AND key = ? AND shift = ?`);
  const ofShift = db.prepare(`${MENTION} WHERE shift = ? AND kind = ? ORDER BY key`);
  const decisions = db.prepare(
    `SELECT seq, hash, json FROM entries WHERE seq >= ? AND seq <= ? AND +kind <> 'readings' ORDER BY seq`,
  );

  /** By their text: conditions come in a few combinations. */
  const statements = new Map<string, Database.Statement>();
  const prepared = (sql: string): Database.Statement => {
    const known = statements.get(sql) ?? db.prepare(sql);
    statements.set(sql, known);
    return known;
  };

  return {
    shifts: (tail: number) => all.all({ tail }) as ShiftSummary[],
    find: (query: FindQuery, tail: number): Found[] => {
      const { sql, values } = findStatement(query);
      const names = namesIn(query);
      return (prepared(sql).all({ ...values, tail }) as ShiftSummary[]).map((shift) => ({
        shift,
        mentions: names.map(([kind, key]) => oneMention.get(kind, key, shift.shift) as Mention),
      }));
    },
    mentions: (kind: IndexKind, shift: number): Mention[] => {
      const found = ofShift.all(shift, kind) as Mention[];
      // Batches are numbers: 10 comes behind 9.
      return kind === 'batch' ? found.sort((a, b) => Number(a.key) - Number(b.key)) : found;
    },
    naming: ({ kind, key, first, last }: Mention) =>
      (decisions.all(first, last) as Row[])
        .map(entryOf)
        .filter((entry) => namedBy(entry).some(([k, name]) => k === kind && name === key)),
  };
};
