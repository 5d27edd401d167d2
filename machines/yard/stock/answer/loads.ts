/** Loads made out, weighed out, laid and brought back: only what may leave leaves. */
import type { StockCommand } from '../commands.ts';
import { bayIds, candidates, drawBags, drawGrams } from '../draw.ts';
import { nextId } from '../ids.ts';
import { mixedShares } from '../lot-shares.ts';
import { labStateOf, listOf, mayLeave, rowOf } from '../others.types.ts';
import { gramsOf, sumOf } from '../parts.ts';
import type { Load, LoadFor, PlaceId } from '../state.types.ts';
import {
  type Answer,
  type Asking,
  inWords,
  knowsPlace,
  NOT_OPENED,
  no,
  noSuchPlace,
  placeName,
  yes,
} from './asking.ts';
import { lotsOf, whatIsHeld, whyNotInto } from './bays.ts';

type Do<N extends StockCommand['do']> = Extract<StockCommand, { do: N }>;

/** % a delivered load may differ from what was put together for it: UFC 3-250-03, loads against batch weights. */
export const LOAD_PCT = 2;

const places = (asking: Asking, as: Load['as'], place?: PlaceId): readonly PlaceId[] =>
  place === undefined ? (as === 'bags' ? ['bags'] : bayIds(asking.s)) : [place];

const released = (asking: Asking, mix: string, from: readonly PlaceId[]) =>
  candidates(
    asking.s,
    from,
    (layer) => asking.s.lots[layer.lot]?.mixId === mix && mayLeave(asking.others, layer.lot),
  );

/** Grams of a mix that other loads made out already have a claim to. */
const claimed = (asking: Asking, mix: string, as: Load['as']): number =>
  Object.values(asking.s.loads)
    .filter((load) => load.state === 'made out' && load.mixId === mix && load.as === as)
    .reduce((sum, load) => sum + load.wantedGrams, 0);

/** The load under way that has a patch on it still to be laid, or undefined. */
const loadWith = ({ s }: Asking, patch: string): Load | undefined =>
  Object.values(s.loads).find(
    (load) =>
      (load.state === 'made out' || load.state === 'on the road') &&
      load.for.some((one) => one.patch === patch) &&
      !load.laid.some((one) => one.patch === patch),
  );

/** Patches named once each, with place and need from their list where they are not given. */
const patchesFor = (asking: Asking, command: Do<'makeOutLoad'>): { rows: LoadFor[]; because: string[] } => {
  const because: string[] = [];
  const seen = new Set<string>();
  const rows = command.for.map(({ patch, where, kg }): LoadFor => {
    if (seen.has(patch)) because.push(`Patch ${patch} stands twice: name it once.`);
    seen.add(patch);
    const row = rowOf(asking.others, patch);
    if (row === null) because.push(`There is no row ${patch} in its patch list: choose a row that is there.`);
    else if (row?.takenOut != null)
      because.push(`Patch ${patch} was taken out of its list (${row.takenOut}): leave it away.`);
    const other = loadWith(asking, patch);
    if (other !== undefined)
      because.push(
        `Patch ${patch} is on load ${other.id} already (${other.state}): leave it away, or ${other.state === 'made out' ? 'cancel that load' : 'lay it from that load, or bring that load back,'} first.`,
      );
    const wantedKg = kg ?? row?.takeOff.mixKg;
    if (wantedKg === undefined && row !== null)
      because.push(`Patch ${patch} is in no patch list: give the kilograms it takes.`);
    return { patch, where: where ?? row?.place ?? '', wantedGrams: gramsOf(wantedKg ?? 0) };
  });
  return { rows, because };
};

export const makeOutLoad = (asking: Asking, command: Do<'makeOutLoad'>): Answer => {
  const { s, at } = asking;
  if (s.yard === null) return no(NOT_OPENED);
  const known = Object.values(s.lots).find((lot) => lot.mixId === command.mix);
  const mix = s.yard.mixes.find((one) => one.id === command.mix);
  const family = known?.family ?? mix?.family;
  if (family === undefined) return no(`This yard has no mix called ${command.mix}: choose one it makes.`);
  const { rows, because } = patchesFor(asking, command);
  const list = listOf(asking.others, command.list);
  if (list !== undefined && list.state === 'taken back')
    because.push(`Patch list ${command.list} was taken back: choose another.`);
  const grams =
    command.kg === undefined ? sumOf(rows.map((row) => ({ grams: row.wantedGrams }))) : gramsOf(command.kg);
  if (grams === 0 && because.length === 0)
    because.push('Say what it is for: choose patches, or give the kilograms.');
  if (because.length > 0) return no(...because.slice(0, 5));
  const from = places(asking, command.as);
  const free =
    sumOf(released(asking, command.mix, from).map((one) => one.layer)) -
    claimed(asking, command.mix, command.as);
  const name = mix?.name ?? known?.mixName ?? command.mix;
  if (grams > free)
    return no(
      `Only ${inWords(Math.max(0, free))} of ${name} ${command.as === 'bags' ? 'in bags ' : ''}may leave and is not promised to another load; ${inWords(grams)} is wanted. Of the rest: ${whatIsHeld(asking, undefined, command.mix)}`,
    );
  return yes({
    is: 'loadMadeOut',
    load: nextId(s, 'L', at),
    mix: command.mix,
    mixName: name,
    family,
    as: command.as,
    vehicle: command.vehicle,
    crew: command.crew,
    list: command.list,
    route: command.route,
    for: rows,
    grams,
  });
};

const loadIn = (asking: Asking, id: string, state: Load['state']): Load | string => {
  const load = asking.s.loads[id];
  if (load === undefined) return `There is no load ${id} in the books.`;
  if (load.state === state) return load;
  if (load.state === 'made out') return `Load ${id} has not been weighed out yet: do that first.`;
  if (load.state === 'on the road') return `Load ${id} has left already.`;
  return `Load ${id} is ${load.state}: nothing more can be done with it.`;
};

export const cancelLoad = (asking: Asking, { load: id, reason }: Do<'cancelLoad'>): Answer => {
  const load = loadIn(asking, id, 'made out');
  if (typeof load === 'string')
    return no(asking.s.loads[id]?.state === 'on the road' ? `${load} Enter it as a return instead.` : load);
  return yes({ is: 'loadCancelled', load: id, reason });
};

export const weighOut = (asking: Asking, command: Do<'weighOut'>): Answer => {
  const { s } = asking;
  const load = loadIn(asking, command.load, 'made out');
  if (typeof load === 'string') return no(load);
  if (command.place !== undefined && !knowsPlace(s, command.place)) return no(noSuchPlace(command.place));
  const [tareGrams, grossGrams] = [gramsOf(command.tareKg), gramsOf(command.grossKg)];
  const netGrams = grossGrams - tareGrams;
  if (netGrams <= 0)
    return no(
      'The full vehicle weighs no more than the empty one: weigh both again, and look which is which.',
    );
  return load.as === 'bags'
    ? weighBags(asking, load, command, { tareGrams, grossGrams, netGrams })
    : weighBulk(asking, load, command, { tareGrams, grossGrams, netGrams });
};

type Weights = { readonly tareGrams: number; readonly grossGrams: number; readonly netGrams: number };

const weighBulk = (asking: Asking, load: Load, command: Do<'weighOut'>, weights: Weights): Answer => {
  const from = places(asking, 'bulk', command.place);
  const found = released(asking, load.mixId, from);
  const there = sumOf(found.map((one) => one.layer));
  if (weights.netGrams > there)
    return no(
      `${inWords(weights.netGrams)} was weighed, but only ${inWords(there)} of ${load.mixName}${command.place === undefined ? '' : ` in ${placeName(asking.s, command.place)}`} may leave. Tip back what is too much. Of the rest: ${whatIsHeld(asking, command.place, load.mixId)}`,
    );
  return leaves(asking, load, weights, drawGrams(found, weights.netGrams), 0);
};

const weighBags = (asking: Asking, load: Load, command: Do<'weighOut'>, weights: Weights): Answer => {
  if (command.bags === undefined) return no('Say how many bags were loaded.');
  const found = released(asking, load.mixId, ['bags']);
  const there = found.reduce((sum, one) => sum + one.layer.bags, 0);
  if (command.bags > there) return no(`Only ${there} bags of ${load.mixName} may leave: load no more.`);
  const drawn = drawBags(found, command.bags);
  const grams = sumOf(drawn);
  if (Math.abs(weights.netGrams - grams) > (grams * LOAD_PCT) / 100)
    return no(
      `The weighbridge shows ${inWords(weights.netGrams)}, ${command.bags} bags make ${inWords(grams)}: more than ${LOAD_PCT} % apart. Count the bags again.`,
    );
  // Bags are booked by what was filled into them; the weighbridge only checks the count.
  return leaves(asking, load, { ...weights, netGrams: grams }, drawn, command.bags);
};

const leaves = (
  asking: Asking,
  load: Load,
  weights: Weights,
  drawn: ReturnType<typeof drawGrams>,
  bags: number,
): Answer => {
  const lots = lotsOf(drawn);
  return yes({
    is: 'loadWeighedOut',
    load: load.id,
    ...weights,
    bags,
    drawn,
    lots,
    byConcession: lots.map(({ lot }) => lot).filter((lot) => labStateOf(asking.others, lot) !== 'accepted'),
  });
};

export const layPatch = (asking: Asking, command: Do<'layPatch'>): Answer => {
  const load = loadIn(asking, command.load, 'on the road');
  if (typeof load === 'string') return no(load);
  const row = rowOf(asking.others, command.patch);
  const named = load.for.find((one) => one.patch === command.patch);
  // A list that is done has put its rows away; what a load was made out for is still laid, or laid again.
  if (row === null && named === undefined)
    return no(`There is no row ${command.patch} in its patch list: choose a row that is there.`);
  if (row?.takenOut != null)
    return no(
      `Patch ${command.patch} was taken out of its list (${row.takenOut}): put it back into the list first, or choose the patch it was laid in.`,
    );
  const grams = gramsOf(command.kg);
  const aboard = sumOf(load.aboard);
  if (grams > aboard)
    return no(
      `Only ${inWords(aboard)} is left on ${load.id}: ${inWords(grams)} cannot have been laid from it. Look at the weights, or choose the load it came from.`,
    );
  if (grams === 0) return no('Give the kilograms that were laid.');
  const n = load.laid.reduce((most, one) => Math.max(most, one.n), 0) + 1;
  return yes({
    is: 'patchLaid',
    load: load.id,
    n,
    patch: command.patch,
    where: command.where ?? named?.where ?? row?.place ?? '',
    grams,
    lots: mixedShares(load.aboard, grams),
    layers: command.layers ?? row?.takeOff.layersMm ?? [],
  });
};

export const reverseLaid = (asking: Asking, command: Do<'reverseLaid'>): Answer => {
  const load = asking.s.loads[command.load];
  const one = load?.laid.find((laid) => laid.n === command.n);
  if (load === undefined || one === undefined)
    return no(
      `Load ${command.load} has nothing laid under number ${command.n}: it may have been taken back already.`,
    );
  const { n, patch, grams, lots } = one;
  return yes({ is: 'patchLaidReversed', load: load.id, n, patch, grams, lots, reason: command.reason });
};

export const returnMix = (asking: Asking, command: Do<'returnMix'>): Answer => {
  const { s, at } = asking;
  const load = loadIn(asking, command.load, 'on the road');
  if (typeof load === 'string') return no(load);
  const aboard = sumOf(load.aboard);
  const grams = command.kg === undefined ? aboard : gramsOf(command.kg);
  if (grams > aboard) return no(`Only ${inWords(aboard)} is left on ${load.id}: no more can come back.`);
  if (grams === 0) return no('Give the kilograms that came back.');
  const lots = mixedShares(load.aboard, grams);
  if (command.to === 'bags') return no('Bags that come back are emptied into a bay: choose one.');
  if (command.to !== 'waste') {
    const because = whyNotInto(s, command.to, lots);
    if (because.length > 0) return no(...because);
  }
  return yes({
    is: 'mixReturned',
    movement: nextId(s, 'A', at),
    load: load.id,
    to: command.to,
    lots,
    grams,
    reason: command.reason,
  });
};
