/** What a shift is begun with when others stand before it in the same record. */
import type { ShiftChoice } from '../../machines/live/protocol.ts';
import type { Entry, OpeningBody } from '../../machines/record/entry.ts';
import { plantThisMorning, type Scenario } from '../../machines/scenario/shift.schema.ts';
import type { Store } from '../store/store.ts';
import { type CarriedOn, carriedOn } from './carried-on.ts';
import { type Levels, levelsAfter } from './levels-after.ts';
import { digestOf, openingFor } from './opening.ts';

/** Shifts a person may open from a console. `load` throws PlainError when its files are not sound. */
export type ShiftsOffered = {
  readonly list: readonly ShiftChoice[];
  readonly load: (id: string) => Scenario;
};

export const NO_OTHERS: ShiftsOffered = {
  list: [],
  load: (id) => {
    throw new Error(`no shift ${id} is offered`);
  },
};

/** Shifts a person may choose from: those offered, and the one at hand. */
export const choicesOf = (
  { shift: { id, name } }: Scenario,
  { list }: ShiftsOffered,
): readonly ShiftChoice[] => (list.some((offered) => offered.id === id) ? list : [{ id, name }, ...list]);

/** More than a hundred years of shifts. */
const OPENINGS_LIMIT = 100_000;
const DAY_MS = 24 * 3600_000;
const SEEDS = 2 ** 32;

const dayAfter = (date: string, days = 1): string =>
  new Date(Date.parse(`${date}T00:00:00.000Z`) + days * DAY_MS).toISOString().slice(0, 10);

/** Which day a shift is opened on, where it is not simply the next: so many days after the last, or not before a date. */
export type When = { readonly afterDays?: number | undefined; readonly notBefore?: string | undefined };

const openingsOf = async (store: Store): Promise<OpeningBody[]> => {
  if ((await store.tail()).shift === 0) return [];
  const entries: readonly Entry[] = await store.read({ after: 0, limit: OPENINGS_LIMIT, kind: 'opening' });
  return entries.flatMap((entry) => (entry.kind === 'opening' ? [entry.body] : []));
};

/** The files' own date, or the day after the last shift of the record when that is later: lots are named by the day. */
const dateAfter = async (
  store: Store,
  last: OpeningBody | undefined,
  own: string,
  { afterDays, notBefore }: When = {},
): Promise<string> => {
  const date = notBefore !== undefined && notBefore > own ? notBefore : own;
  if (last === undefined) return date;
  const before = (await store.loadScenario(last.scenarioDigest)) as Scenario | null;
  if (before === null) return date;
  const next = dayAfter(before.shift.date, afterDays);
  if (next > date) return next;
  return date;
};

/** The scenario with its date moved behind all shifts of the record; its seed stays. */
export const onItsOwnDay = async (store: Store, files: Scenario): Promise<Scenario> => {
  const date = await dateAfter(store, (await openingsOf(store)).at(-1), files.shift.date);
  return date === files.shift.date ? files : { ...files, shift: { ...files.shift, date } };
};

type Carried = CarriedOn & { readonly levels?: Levels };
const NOTHING: Carried = {};
/** More than people write into the books in one shift. */
const LEDGER_LIMIT = 100_000;

/** What the shift before left open or found, as the next one begins with it. */
const carriedFrom = async (
  store: Store,
  last: OpeningBody | undefined,
  files: Scenario,
): Promise<Carried> => {
  if (last === undefined) return NOTHING;
  const before = (await store.loadScenario(last.scenarioDigest)) as Scenario | null;
  if (before === null) return NOTHING;
  const { shift } = await store.tail();
  const { entries } = await store.inputsAfter(shift);
  const facts = entries.flatMap((entry) => (entry.kind === 'fact' ? [entry.body.fact] : []));
  const carried = carriedOn(files.shift, before.shift, facts);
  // What another plant's tanks hold says nothing of these.
  if (before.plant.id !== files.plant.id) return carried;
  const written = await store.read({ after: shift, limit: LEDGER_LIMIT, kind: 'ledger' });
  const levels = levelsAfter(
    before,
    [...entries, ...written].sort((a, b) => a.seq - b.seq),
  );
  return levels === null ? carried : { ...carried, levels };
};

export type Begun = { readonly scenario: Scenario; readonly opening: OpeningBody };

/**
 * Scenario and opening entry of the next shift from these files: its seed is the files' own plus the
 * number of shifts of the same name before it, its date is behind theirs; `when` may move it further on.
 */
export const nextShiftOf = async (
  store: Store,
  files: Scenario,
  openedBy?: string,
  when?: When,
): Promise<Begun> => {
  const before = await openingsOf(store);
  const sameName = before.filter((opening) => opening.scenario === files.shift.id).length;
  const seed = (files.shift.seed + sameName) % SEEDS;
  const date = await dateAfter(store, before.at(-1), files.shift.date, when);
  const carried = await carriedFrom(store, before.at(-1), files);
  const moved = seed !== files.shift.seed || date !== files.shift.date || Object.keys(carried).length > 0;
  const shift = { ...files.shift, seed, date, ...carried };
  // Levels stand in the shift and are put into its plant, as its moisture and warmth are when its files are read.
  const plant = 'levels' in carried ? plantThisMorning(files.plant, shift) : files.plant;
  const scenario = moved ? { ...files, shift, plant } : files;
  const opening = {
    ...openingFor(scenario),
    ...(moved ? { filesDigest: digestOf(files) } : {}),
    ...(openedBy === undefined ? {} : { openedBy }),
  };
  return { scenario, opening };
};

/** Keeps what a shift was begun with: the scenario it runs, and the files it came from. */
export const keepScenarios = async (store: Store, files: Scenario, { scenario }: Begun): Promise<void> => {
  await store.saveScenario(digestOf(scenario), scenario);
  if (scenario !== files) await store.saveScenario(digestOf(files), files);
};
