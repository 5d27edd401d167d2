/** What matters now on each tab of the yard, and what to do about it, in one sentence. Pure. */
import type { MixesView } from '../../machines/yard/mixes/view.ts';
import type { PatchesView } from '../../machines/yard/patches/view.ts';
import type { StockView } from '../../machines/yard/stock/view.ts';
import type { RecallsView } from '../../machines/yard/trace/recalls/view.ts';
import { formatDay, plural } from '../format/format.ts';
import { storeTitle } from './materials/names.ts';
import { mass } from './stock/words.ts';

const and = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;

export function patchesNow({ lists, orders }: Pick<PatchesView, 'lists' | 'orders'>): string {
  const open = lists.filter(({ state }) => state === 'open');
  if (open.length === 0)
    return lists.length === 0
      ? 'Begin here: put in the holes of a survey, and see how much mix they take.'
      : 'No list is open: put in the next survey.';
  const ordered = new Set(
    orders.filter(({ state }) => state !== 'withdrawn').flatMap((order) => order.lists),
  );
  const without = open.filter(({ id }) => !ordered.has(id));
  if (without.length > 0)
    return `${without[0]?.name}${without.length > 1 ? ` and ${without.length - 1} more` : ''} has no order yet: open the list and order its mix.`;
  const toMake = orders.filter(({ state }) => state === 'open' || state === 'part made');
  const patches = open.reduce((sum, { sum: { patches: n } }) => sum + n, 0);
  return `${plural(open.length, 'list is', 'lists are')} open with ${plural(patches, 'patch', 'patches')}; ${
    toMake.length === 0
      ? 'all its mix is made'
      : `${plural(toMake.length, 'order waits', 'orders wait')} to be made`
  }.`;
}

export function mixesNow({ mixes }: Pick<MixesView, 'mixes'>): string {
  const drafts = mixes.filter(({ versions }) => versions.some(({ state }) => state === 'draft'));
  const none = mixes.filter(({ inForce }) => inForce === null);
  if (none.length > 0) return `No version of ${and(none.map(({ name }) => name))} is in force: approve one.`;
  if (drafts.length > 0) return `A draft of ${and(drafts.map(({ name }) => name))} waits to be approved.`;
  return mixes.length === 0
    ? 'No mix yet.'
    : `${plural(mixes.length, 'mix has', 'mixes have')} an approved version; a new one is worked out on its sheet.`;
}

export function scheduleNow({
  forecast,
  plan,
  shift,
}: Pick<PatchesView, 'forecast' | 'plan' | 'shift'>): string {
  const make = forecast
    .filter(({ makeKg }) => makeKg > 0)
    .map(({ name, makeKg }) => `${mass(makeKg)} of ${name}`);
  const next = plan?.days.find(({ runs }) => runs.length > 0);
  if (make.length === 0) return 'Nothing has to be made this week: orders and stock are covered.';
  return `Make ${and(make)} this week${
    next === undefined
      ? ''
      : `; the next planned shift is ${formatDay(next.date)}${shift?.ended === true ? '' : ', once this shift is ended'}`
  }.`;
}

export function materialsNow({ materials }: Pick<StockView, 'materials'>): string {
  const order = materials.stores.filter(({ order: is }) => is === 'order now' || is === 'too late');
  const off = materials.stores.filter(
    ({ loss, measured }) => loss === 'beyond' && measured?.booked === false,
  );
  const words = [
    ...(order.length > 0 ? [`Order for ${and(order.map((one) => storeTitle(one.id, one.material)))}`] : []),
    ...(off.length > 0
      ? [
          `${order.length > 0 ? 'm' : 'M'}easure ${and(off.map((one) => storeTitle(one.id, one.material)))} again`,
        ]
      : []),
  ];
  return words.length === 0
    ? 'Enough of everything by the books; dip and count to hold them against the yard.'
    : `${words.join('; ')}.`;
}

export function baysNow({ places }: Pick<StockView, 'places'>): string {
  const layers = places.flatMap((place) => place.layers);
  const kg = (standing: string): number =>
    layers.filter((one) => one.standing === standing).reduce((sum, one) => sum + one.kg, 0);
  if (layers.length === 0) return 'All bays are empty: what the line makes lies here until it leaves.';
  const held = [
    ...(kg('not yet tested') > 0 ? [`${mass(kg('not yet tested'))} waits for the lab`] : []),
    ...(kg('on hold') > 0 ? [`${mass(kg('on hold'))} is on hold`] : []),
    ...(kg('rejected') > 0 ? [`${mass(kg('rejected'))} is rejected: throw it away or work it over`] : []),
  ];
  return `${mass(kg('may leave'))} may leave${held.length === 0 ? '' : `; ${held.join('; ')}`}.`;
}

export function loadsNow({ loads, ready }: Pick<StockView, 'loads' | 'ready'>): string {
  const away = loads.filter(({ state }) => state === 'on the road').length;
  const waiting = loads.filter(({ state }) => state === 'made out').length;
  const freeKg = ready.reduce((sum, one) => sum + one.freeKg, 0);
  const heldKg = ready.reduce((sum, one) => one.held.reduce((kg, lot) => kg + lot.kg, sum), 0);
  const doing = [
    ...(waiting > 0 ? [`${plural(waiting, 'load waits', 'loads wait')} to be weighed out`] : []),
    ...(away > 0 ? [`${plural(away, 'load is', 'loads are')} on the road`] : []),
  ];
  const leave =
    freeKg > 0
      ? `${mass(freeKg)} may leave`
      : heldKg > 0
        ? `nothing may leave: ${mass(heldKg)} waits for the lab or is held`
        : 'nothing may leave: no lot that the lab has accepted lies in a bay';
  const words = [...doing, leave].join('; ');
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;
}

export function traceNow({ recalls }: RecallsView): string {
  const open = recalls.filter(({ closed }) => closed === null).length;
  return open > 0
    ? `${plural(open, 'recall is', 'recalls are')} open: see to it under Recalls.`
    : 'Which patches got it, and what is in this patch? Every gram is accounted for.';
}
