/** Bags filled from a bay: held against OIML R 61 bag by bag, and only of lots that may leave. */
import type { StockCommand } from '../commands.ts';
import { candidates, drawGrams } from '../draw.ts';
import { nextId } from '../ids.ts';
import { mayLeave } from '../others.types.ts';
import { gramsOf, sumOf } from '../parts.ts';
import { checkBags } from '../r61.ts';
import type { Drawn } from '../state.types.ts';
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
import { whatIsHeld } from './bays.ts';

type Do<N extends StockCommand['do']> = Extract<StockCommand, { do: N }>;

export const fillBags = (asking: Asking, command: Do<'fillBags'>): Answer => {
  const { s, at, others } = asking;
  const { from, mix, nominalKg, accuracyClass, bags, weighedKg } = command;
  if (s.yard === null) return no(NOT_OPENED);
  if (from === 'bags') return no('Bags are filled from a bay: choose one.');
  if (!knowsPlace(s, from)) return no(noSuchPlace(from));
  if (weighedKg.length > bags)
    return no(`${weighedKg.length} bags were weighed but only ${bags} filled: look again.`);
  const check = checkBags(weighedKg, nominalKg, accuracyClass);
  const out = check.bags.findIndex((bag) => !bag.within);
  const because: string[] = [];
  if (out >= 0)
    because.push(
      `Bag ${out + 1} of the sample, ${check.bags[out]?.kg} kg, lies ${Math.abs(Math.round(check.bags[out]?.deviationG ?? 0))} g from the mean; class X(${accuracyClass}) of OIML R 61 allows ${Math.round(check.limits.deviationG)} g in service. Empty it back, look to the filler and weigh again.`,
    );
  if (!check.presetWithin)
    because.push(
      `The mean, ${check.meanKg.toFixed(3)} kg, lies ${Math.abs(Math.round(check.presetErrorG))} g from ${nominalKg} kg; ${Math.round(check.limits.presetG)} g is allowed. Set the filler anew and fill again.`,
    );
  if (because.length > 0) return no(...because);
  const weighed = weighedKg.reduce((sum, kg) => sum + gramsOf(kg), 0);
  const grams = weighed + (bags - weighedKg.length) * gramsOf(check.meanKg);
  const found = candidates(
    s,
    [from],
    (layer) => mayLeave(others, layer.lot) && (mix === undefined || s.lots[layer.lot]?.mixId === mix),
  );
  const first = s.lots[found[0]?.layer.lot ?? '']?.mixId;
  const one = found.filter((candidate) => s.lots[candidate.layer.lot]?.mixId === first);
  const there = sumOf(one.map((candidate) => candidate.layer));
  if (grams > there)
    return no(
      `${bags} bags take ${inWords(grams)}, but only ${inWords(there)} in ${placeName(s, from)} may leave: ${whatIsHeld(asking, from)}`,
    );
  const drawn = intoBags(drawGrams(one, grams), bags, grams);
  return yes({
    is: 'bagsFilled',
    movement: nextId(s, 'A', at),
    from,
    drawn,
    nominalKg,
    accuracyClass,
    bags,
    grams,
    weighedKg,
  });
};

/** Whole bags shared over what was drawn, in its order, so that they add up. */
const intoBags = (drawn: readonly Drawn[], bags: number, grams: number): readonly Drawn[] => {
  let before = 0;
  let given = 0;
  return drawn.map((one) => {
    before += one.grams;
    const upTo = Math.round((bags * before) / grams);
    const here = upTo - given;
    given = upTo;
    return { ...one, bags: here };
  });
};
