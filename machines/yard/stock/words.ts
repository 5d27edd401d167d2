/** The stock's facts in plain words, one sentence without a full stop. */
import type { StockFact } from './facts.ts';

const kg = (grams: number): string =>
  grams >= 1_000_000 ? `${(grams / 1e6).toFixed(2)} t` : `${(grams / 1000).toFixed(1)} kg`;
const where = (place: string): string => {
  if (place === 'bags') return 'the stand of bags';
  if (place === 'adjustment') return 'an adjustment';
  return place.replace(':', ' ');
};
const lotsIn = (lots: readonly { readonly lot: string; readonly grams: number }[]): string =>
  lots.map((one) => `${kg(one.grams)} of lot ${one.lot}`).join(', ');

export const stockWords = (fact: StockFact): string => {
  switch (fact.is) {
    case 'deliveryRegistered':
      return `Delivery ${fact.delivery}, ticket ${fact.ticket}: ${kg(fact.grams)} for ${where(fact.store)}`;
    case 'deliveryCorrected':
      return `Delivery ${fact.delivery} corrected from ${kg(fact.was.grams)} to ${kg(fact.now.grams)}: ${fact.reason}`;
    case 'deliveryCancelled':
      return `Delivery ${fact.delivery} cancelled: ${fact.reason}`;
    case 'tankDipped':
      return `The ${fact.tank} tank dipped at ${fact.dipMm} mm, ${fact.tempC} °C: ${kg(fact.grams)}, the books say ${kg(fact.bookGrams)}`;
    case 'storeCounted':
      return `${where(fact.store)} measured: ${kg(fact.grams)}, the books say ${kg(fact.bookGrams)}`;
    case 'storeAdjusted':
      return `${fact.movement}: the books of ${where(fact.store)} brought from ${kg(fact.was)} to ${kg(fact.now)}: ${fact.reason}`;
    case 'ruleSet':
      return `Rules of ${where(fact.store)} set: ${fact.reason}`;
    case 'mixMoved': {
      if (fact.what === 'counted')
        return `${fact.movement}: ${where(fact.from === 'adjustment' ? fact.to : fact.from)} measured, ${
          fact.lots.length === 0
            ? 'as in the books'
            : `${fact.from === 'adjustment' ? 'more' : 'less'} by ${lotsIn(fact.lots)}`
        }: ${fact.reason}`;
      return `${fact.movement}: ${lotsIn(fact.lots)} from ${where(fact.from)} to ${where(fact.to)}: ${fact.reason}`;
    }
    case 'lotReworked':
      return `Lot ${fact.lot} worked over in ${where(fact.place)}: ${fact.reason}`;
    case 'bagsFilled':
      return `${fact.movement}: ${fact.bags} bags of ${fact.nominalKg} kg filled from ${where(fact.from)}, ${kg(fact.grams)}`;
    case 'loadMadeOut':
      return `Load ${fact.load} made out for ${fact.vehicle}: ${kg(fact.grams)} of ${fact.mixName}`;
    case 'loadCancelled':
      return `Load ${fact.load} cancelled: ${fact.reason}`;
    case 'loadWeighedOut':
      return `Load ${fact.load} weighed out: ${lotsIn(fact.lots)}`;
    case 'patchLaid':
      return `${kg(fact.grams)} of load ${fact.load} laid in patch ${fact.patch}`;
    case 'patchLaidReversed':
      return `${kg(fact.grams)} not laid in patch ${fact.patch} after all, load ${fact.load}: ${fact.reason}`;
    case 'mixReturned':
      return `${fact.movement}: ${kg(fact.grams)} of load ${fact.load} came back to ${where(fact.to)}: ${fact.reason}`;
    case 'movementReversed':
      return `${fact.movement} takes back ${fact.reverses}: ${kg(fact.grams)} from ${where(fact.from)} to ${where(fact.to)}: ${fact.reason}`;
  }
};
