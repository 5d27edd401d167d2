/** Mix in the bays moved, counted, bagged, thrown away and worked over. */
import { measuredKg } from '../../piles/piles.ts';
import type { StockCommand } from '../commands.ts';
import { bayIds, candidates, drawEvenly, drawGrams } from '../draw.ts';
import { nextId } from '../ids.ts';
import { mixedShares } from '../lot-shares.ts';
import { labStateOf, mayLeave } from '../others.types.ts';
import { gramsOf, sumOf } from '../parts.ts';
import type { Drawn, LotShare, PlaceId, StockState } from '../state.types.ts';
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

type Do<N extends StockCommand['do']> = Extract<StockCommand, { do: N }>;

export const lotsOf = (drawn: readonly Drawn[]): LotShare[] => {
  const sums = new Map<string, number>();
  for (const { lot, grams } of drawn) sums.set(lot, (sums.get(lot) ?? 0) + grams);
  return [...sums].map(([lot, grams]) => ({ lot, grams }));
};

/** Why mix of a lot may not be laid in a place: no room, or mix of the other family lies there. */
export const whyNotInto = (s: StockState, to: PlaceId, lots: readonly LotShare[]): string[] => {
  if (!knowsPlace(s, to)) return [noSuchPlace(to)];
  const bay = s.yard?.bays.find((one) => `bay:${one.id}` === to);
  if (bay === undefined) return [];
  const there = s.places[to] ?? [];
  const because: string[] = [];
  const room = bay.capacityT * 1_000_000 - sumOf(there);
  if (sumOf(lots) > room)
    because.push(
      `${bay.name} has room for ${inWords(Math.max(0, room))} only: choose another bay, or make room.`,
    );
  const family = s.lots[lots[0]?.lot ?? '']?.family;
  const other = there.find((layer) => {
    const one = s.lots[layer.lot]?.family;
    return one !== undefined && family !== undefined && one !== family;
  });
  if (other !== undefined)
    because.push(
      `${bay.name} holds ${s.lots[other.lot]?.family} mix (lot ${other.lot}): emulsion and cutback mix are never laid on each other. Choose another bay.`,
    );
  return because;
};

export const stockTake = (asking: Asking, { place, measure, reason }: Do<'stockTake'>): Answer => {
  const { s, at } = asking;
  if (s.yard === null) return no(NOT_OPENED);
  if (!knowsPlace(s, place)) return no(noSuchPlace(place));
  const layers = s.places[place] ?? [];
  const bookGrams = sumOf(layers);
  const grams = gramsOf(measuredKg(measure));
  if (bookGrams === 0 && grams > 0)
    return no(
      `The books have nothing in ${placeName(s, place)}, so what lies there has no lot. Find out where it came from and enter that as a return or a move; mix without a lot can only go to waste.`,
    );
  const movement = nextId(s, 'A', at);
  const how = measure.how === 'weighed' ? 'weighed' : `${measure.how}, ${measure.looseKgM3} kg/m³ loose`;
  const measured = { how, grams, bookGrams };
  if (grams <= bookGrams) {
    const drawn = drawEvenly(s, place, bookGrams - grams);
    return yes({
      is: 'mixMoved',
      movement,
      what: 'counted',
      from: place,
      to: 'adjustment',
      drawn,
      lots: lotsOf(drawn),
      reason,
      measured,
    });
  }
  const more = spread(lotsOf(drawEvenly(s, place, bookGrams)), grams - bookGrams);
  return yes({
    is: 'mixMoved',
    movement,
    what: 'counted',
    from: 'adjustment',
    to: place,
    drawn: [],
    lots: more,
    reason,
    measured,
  });
};

/** Grams found too much, shared over the lots that lie there in proportion; may be more than they hold. */
const spread = (lots: readonly LotShare[], grams: number): LotShare[] => {
  const times = Math.ceil(grams / sumOf(lots));
  return mixedShares(
    lots.map((one) => ({ lot: one.lot, grams: one.grams * times })),
    grams,
  );
};

const nothingLies = (s: StockState, place: PlaceId, lot?: string): string =>
  lot === undefined
    ? `Nothing lies in ${placeName(s, place)}.`
    : `Nothing of lot ${lot} lies in ${placeName(s, place)}: choose a lot that does.`;

export const moveMix = (asking: Asking, command: Do<'moveMix'>): Answer => {
  const { s, at } = asking;
  const { from, to, lot, kg, reason } = command;
  if (s.yard === null) return no(NOT_OPENED);
  for (const place of [from, to]) if (!knowsPlace(s, place)) return no(noSuchPlace(place));
  if (from === to) return no('It lies there already: choose another bay to move it to.');
  if (from === 'bags' || to === 'bags')
    return no('Mix comes to the stand by filling bags, and leaves it on a load or by going to waste.');
  const found = candidates(s, [from], (layer) => lot === undefined || layer.lot === lot);
  const there = sumOf(found.map((one) => one.layer));
  if (there === 0) return no(nothingLies(s, from, lot));
  const grams = gramsOf(kg);
  if (grams > there)
    return no(
      `Only ${inWords(there)}${lot === undefined ? '' : ` of lot ${lot}`} lies in ${placeName(s, from)}: move no more.`,
    );
  const drawn = drawGrams(found, grams);
  const lots = lotsOf(drawn);
  const because = whyNotInto(s, to, lots);
  if (because.length > 0) return no(...because);
  return yes({
    is: 'mixMoved',
    movement: nextId(s, 'A', at),
    what: 'moved',
    from,
    to,
    drawn,
    lots,
    reason,
    measured: null,
  });
};

export const wasteMix = (asking: Asking, { from, lot, kg, reason }: Do<'wasteMix'>): Answer => {
  const { s, at } = asking;
  if (!knowsPlace(s, from)) return no(s.yard === null ? NOT_OPENED : noSuchPlace(from));
  const found = candidates(s, [from], (layer) => layer.lot === lot);
  const there = sumOf(found.map((one) => one.layer));
  if (there === 0) return no(nothingLies(s, from, lot));
  const grams = kg === undefined ? there : gramsOf(kg);
  if (grams > there)
    return no(`Only ${inWords(there)} of lot ${lot} lies in ${placeName(s, from)}: waste no more.`);
  const drawn = drawGrams(found, grams);
  return yes({
    is: 'mixMoved',
    movement: nextId(s, 'A', at),
    what: 'wasted',
    from,
    to: 'waste',
    drawn,
    lots: lotsOf(drawn),
    reason,
    measured: null,
  });
};

export const reworkLot = (asking: Asking, { place, lot, reason }: Do<'reworkLot'>): Answer => {
  const { s, others } = asking;
  if (!knowsPlace(s, place)) return no(s.yard === null ? NOT_OPENED : noSuchPlace(place));
  if (!(s.places[place] ?? []).some((layer) => layer.lot === lot)) return no(nothingLies(s, place, lot));
  const state = labStateOf(others, lot);
  if (mayLeave(others, lot))
    return no(
      `Lot ${lot} is ${state}: a sound lot is not worked over. Only what the lab rejected or holds is.`,
    );
  return yes({ is: 'lotReworked', lot, place, reason });
};

/** Which lots of a place, or of the bays of a mix, may not leave, and why, in words. */
export const whatIsHeld = (asking: Asking, place?: PlaceId, mix?: string): string => {
  const { s, others } = asking;
  const found = candidates(
    s,
    place === undefined ? bayIds(s) : [place],
    (layer) => !mayLeave(others, layer.lot) && (mix === undefined || s.lots[layer.lot]?.mixId === mix),
  );
  const lots = new Map<string, number>();
  for (const { layer } of found) lots.set(layer.lot, (lots.get(layer.lot) ?? 0) + layer.grams);
  if (lots.size === 0) return 'nothing else lies there. Make more, or take less.';
  const words = [...lots]
    .slice(0, 4)
    .map(([lot, grams]) => `lot ${lot} (${inWords(grams)}) is ${labStateOf(others, lot)}`);
  return `${words.join(', ')}${lots.size > 4 ? ' and others' : ''}. Wait for the lab, or have it release a lot by concession.`;
};
