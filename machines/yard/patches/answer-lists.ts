/** Answers about patch lists: taking one, changing a row, taking it back. */
import type { Told } from '../../record/book.types.ts';
import type { PatchesCommand } from './commands.ts';
import type { ListedPatch, PatchesFact } from './facts.ts';
import { isLive, nextListId, orderCovers, patchId } from './naming.ts';
import type { Measured, Patch, PatchList } from './patch.types.ts';
import type { PatchesState } from './state.ts';
import { takeOffOf } from './take-off.ts';
import { troubleWith } from './trouble.ts';

type Of<D extends PatchesCommand['do']> = Extract<PatchesCommand, { do: D }>;
export type Answer = Told<PatchesFact>;

export const no = (...because: string[]): Answer => ({ ok: false, because });
export const yes = (...facts: PatchesFact[]): Answer => ({ ok: true, facts });

/** An entry of the record stays small: a long list is told in several. */
const PATCHES_A_FACT = 250;
/** So many rows are named when a list is refused. */
const ROWS_NAMED = 12;

const toMm = (m: number): number => Math.round(m * 1000) / 1000;

/** To the millimetre, as it can be measured. */
const listed = (hole: Measured, row: number, state: PatchesState): ListedPatch => {
  const measured = {
    ...hole,
    lengthM: toMm(hole.lengthM),
    widthM: toMm(hole.widthM),
    depthMm: Math.round(hole.depthMm),
  };
  return { ...measured, row, takeOff: takeOffOf(measured, state.basis) };
};

export const takeList = (state: PatchesState, command: Of<'takeList'>, at: string): Answer => {
  const wrong = command.patches.flatMap((hole, i) =>
    troubleWith(hole).map(({ message }) => `Row ${i + 1}: ${message}`),
  );
  if (wrong.length > 0) {
    const more = wrong.length - ROWS_NAMED;
    return no(
      'Nothing was taken: a list is taken whole or not at all. Mend these rows or leave them out.',
      ...wrong.slice(0, ROWS_NAMED),
      ...(more > 0 ? [`And ${more} more.`] : []),
    );
  }
  const list = nextListId(state, at);
  const { name, source, patches } = command;
  const rows = patches.map((hole, i) => listed(hole, i + 1, state));
  const facts: PatchesFact[] = [{ is: 'listTaken', list, name, source, patches: rows.length }];
  for (let from = 0; from < rows.length; from += PATCHES_A_FACT)
    facts.push({ is: 'patchesListed', list, patches: rows.slice(from, from + PATCHES_A_FACT) });
  return yes(...facts);
};

type Found =
  | { readonly ok: true; readonly list: PatchList; readonly patch: Patch }
  | { readonly ok: false; readonly why: string };

const openList = (state: PatchesState, id: string): PatchList | string => {
  const list = state.lists[id];
  if (list === undefined) return `There is no patch list ${id}.`;
  if (list.state !== 'open')
    return `List ${id} is ${list.state}: nothing in it is changed any more. Take a new list.`;
  return list;
};

const findPatch = (state: PatchesState, id: string, row: number): Found => {
  const list = openList(state, id);
  if (typeof list === 'string') return { ok: false, why: list };
  const patch = list.patches.find((one) => one.row === row);
  return patch === undefined
    ? { ok: false, why: `List ${id} has no row ${row}.` }
    : { ok: true, list, patch };
};

const bare = ({ takenOut: _out, ...patch }: Patch): ListedPatch => patch;

const laidAlready = (list: PatchList, row: number): string | null =>
  (list.laidKg[row] ?? 0) > 0
    ? `${patchId(list.id, row)} has been filled: reverse what was laid there first (Loads).`
    : null;

export const changePatch = (state: PatchesState, command: Of<'changePatch'>): Answer => {
  const found = findPatch(state, command.list, command.row);
  if (!found.ok) return no(found.why);
  const { list, patch } = found;
  if (patch.takenOut !== null) return no(`Row ${patch.row} is taken out: put it back first.`);
  const laid = laidAlready(list, patch.row);
  if (laid !== null) return no(laid);
  const wrong = troubleWith(command.now);
  if (wrong.length > 0) return no(...wrong.map(({ message }) => message));
  const was = bare(patch);
  const now = listed(command.now, patch.row, state);
  if (JSON.stringify(was) === JSON.stringify(now))
    return no('Nothing is different: change a figure, or leave it.');
  return yes({ is: 'patchChanged', list: list.id, was, now, reason: command.reason });
};

export const takeOutPatch = (state: PatchesState, command: Of<'takeOutPatch'>): Answer => {
  const found = findPatch(state, command.list, command.row);
  if (!found.ok) return no(found.why);
  if (found.patch.takenOut !== null) return no(`Row ${command.row} is taken out already.`);
  const laid = laidAlready(found.list, command.row);
  if (laid !== null) return no(laid);
  return yes({ is: 'patchTakenOut', list: command.list, was: bare(found.patch), reason: command.reason });
};

export const putBackPatch = (state: PatchesState, command: Of<'putBackPatch'>): Answer => {
  const found = findPatch(state, command.list, command.row);
  if (!found.ok) return no(found.why);
  if (found.patch.takenOut === null) return no(`Row ${command.row} stands in the list.`);
  return yes({ is: 'patchPutBack', list: command.list, row: command.row, reason: command.reason });
};

const liveOrders = (state: PatchesState, list: string): readonly string[] =>
  Object.values(state.orders)
    .filter((order) => isLive(order) && order.lists.includes(list))
    .map(({ id }) => id);

export const takeBackList = (state: PatchesState, { list: id, reason }: Of<'takeBackList'>): Answer => {
  const list = openList(state, id);
  if (typeof list === 'string') return no(list);
  if (list.sum.laidKg > 0)
    return no(`Patches of ${id} have been filled: finish the list instead of taking it back.`);
  const orders = liveOrders(state, id);
  if (orders.length > 0) return no(`${orders.join(', ')} is for this list: withdraw the order first.`);
  return yes({ is: 'listTakenBack', list: id, reason });
};

export const finishList = (state: PatchesState, { list: id }: Of<'finishList'>): Answer => {
  const list = openList(state, id);
  if (typeof list === 'string') return no(list);
  const orders = liveOrders(state, id);
  if (orders.length > 0)
    return no(`${orders.join(', ')} is for this list and not delivered: settle or withdraw the order first.`);
  return yes({ is: 'listDone', list: id, mixKg: list.sum.mixKg, laidKg: list.sum.laidKg });
};

/** Holes of a list that some live order already covers, by order. */
export const orderOfHole = (state: PatchesState, list: string, route: string): string | null =>
  Object.values(state.orders).find((order) => order.state !== 'withdrawn' && orderCovers(order, list, route))
    ?.id ?? null;
