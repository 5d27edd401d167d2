/** A movement taken back: the same grams the other way, as far as they are still where they went. */
import type { StockCommand } from '../commands.ts';
import { candidates } from '../draw.ts';
import { nextId } from '../ids.ts';
import { sumOf } from '../parts.ts';
import type { Drawn, Movement, PlaceId, StoreId } from '../state.types.ts';
import { type Answer, type Asking, inWords, no, placeName, storeName, yes } from './asking.ts';
import { whyNotInto } from './bays.ts';

const isPlace = (name: string): name is PlaceId => name === 'bags' || name.startsWith('bay:');
const isStore = (name: string): name is StoreId => /^(tank|bin|pile|additive):/.test(name);

/** What the movement laid, taken out of where it went, youngest layers first; null for a lot that is no longer there. */
const drawBack = (asking: Asking, { to, lots }: Movement): readonly Drawn[] | string => {
  if (!isPlace(to)) return [];
  const drawn: Drawn[] = [];
  for (const { lot, grams } of lots) {
    const found = [...candidates(asking.s, [to], (layer) => layer.lot === lot)].sort(
      (a, b) => b.layer.n - a.layer.n,
    );
    const there = sumOf(found.map((one) => one.layer));
    if (there < grams)
      return `Only ${inWords(there)} of lot ${lot} still lies in ${placeName(asking.s, to)}: ${inWords(grams)} cannot go back. Move what is left instead.`;
    let want = grams;
    for (const { place, layer } of found) {
      const out = Math.min(want, layer.grams);
      if (out <= 0) continue;
      want -= out;
      const bags = out === layer.grams ? layer.bags : Math.round((layer.bags * out) / layer.grams);
      drawn.push({ place, layer: layer.n, lot, grams: out, bags, returned: layer.returned });
    }
  }
  return drawn;
};

export const reverseMovement = (
  asking: Asking,
  { movement: id, reason }: Extract<StockCommand, { do: 'reverseMovement' }>,
): Answer => {
  const { s, at } = asking;
  const movement = s.movements.find((one) => one.id === id);
  if (movement === undefined)
    return no(`There is no movement ${id} that could be taken back: only the newest are kept at hand.`);
  if (movement.reversedBy !== null)
    return no(`${id} has been taken back already, by ${movement.reversedBy}.`);
  if (movement.what.startsWith('reversed '))
    return no(`${id} took another movement back: do that one again instead of reversing this.`);
  const { from, to, lots, grams } = movement;
  if (isStore(to) && sumOf(s.stores[to]?.parts ?? []) < grams)
    return no(
      `${storeName(s, to)} no longer holds ${inWords(grams)}: count or dip it and adjust that instead.`,
    );
  if (isPlace(from)) {
    const because = whyNotInto(s, from, lots);
    if (because.length > 0) return no(...because);
  }
  const load = s.loads[from];
  if (from.startsWith('L-') && load === undefined)
    return no(`Load ${from} is no longer at hand: enter what happened as a new movement.`);
  const drawn = drawBack(asking, movement);
  if (typeof drawn === 'string') return no(drawn);
  return yes({
    is: 'movementReversed',
    movement: nextId(s, 'A', at),
    reverses: id,
    from: to,
    to: from,
    drawn,
    lots,
    grams,
    reason,
  });
};
