/** The shifts of a record as a list for people: names, sizes, seals. */
import type { Scenario } from '../../machines/scenario/shift.schema.ts';
import type { ShiftRow } from '../routes/shifts.ts';
import type { Store } from '../store/store.ts';
import { countersignaturesOf } from './seals-of.ts';
import { type Span, spansOf } from './spans.ts';

/** Names by data folder and shift: a shift's files never change. */
const names = new Map<string, string>();
const NAMES_KEPT = 10_000;

const nameOf = async (store: Store, span: Span): Promise<string> => {
  const key = `${store.where}\n${span.shift}\n${span.openedWall}`;
  const known = names.get(key);
  if (known !== undefined) return known;
  const [opening] = await store.read({ after: span.shift - 1, limit: 1 });
  const digest = opening?.kind === 'opening' ? opening.body.scenarioDigest : '';
  const scenario = digest === '' ? null : ((await store.loadScenario(digest)) as Scenario | null);
  const name = scenario?.shift.name ?? span.scenario;
  if (names.size < NAMES_KEPT) names.set(key, name);
  return name;
};

const headOf = async (store: Store, span: Span): Promise<string | null> => {
  if (span.sealEntry !== null) return span.sealEntry.body.head;
  const [last] = await store.read({ after: span.covered - 1, limit: 1 });
  return last?.seq === span.covered ? last.hash : null;
};

export const shiftRows = async (store: Store): Promise<readonly ShiftRow[]> => {
  const countersignatures = await countersignaturesOf(store);
  const rows: ShiftRow[] = [];
  for (const span of await spansOf(store)) {
    const { ordinal, shift, scenario, day, openedWall, endedWall, batches, lots, root, archivedIn } = span;
    const { sealEntry, covered } = span;
    rows.push({
      ordinal,
      shift,
      id: scenario,
      name: await nameOf(store, span),
      date: day,
      openedWall,
      endedWall,
      running: span.isNewest && endedWall === null,
      entries: covered - shift + 1,
      last: covered,
      batches,
      lots,
      sealed: sealEntry !== null,
      head: await headOf(store, span),
      root,
      seal:
        sealEntry === null
          ? null
          : {
              seq: sealEntry.seq,
              wall: sealEntry.wall,
              key: sealEntry.body.key,
              closed: sealEntry.body.closed,
              by: sealEntry.body.by,
              remark: sealEntry.body.remark,
              countersigned: countersignatures
                .filter(({ body }) => body.seal === sealEntry.seq)
                .map(({ seq, wall, body }) => ({ seq, wall, by: body.by, remark: body.remark })),
            },
      archivedIn,
    });
  }
  return rows;
};
