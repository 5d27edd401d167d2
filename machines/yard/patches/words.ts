/** Facts of the patches book in plain words, one sentence each. */
import type { PatchesFact } from './facts.ts';

const t = (kg: number): string => `${(kg / 1000).toFixed(2)} t`;

export const patchesWords = (fact: PatchesFact): string => {
  switch (fact.is) {
    case 'listTaken':
      return `Patch list ${fact.list} "${fact.name}" taken: ${fact.patches} patches`;
    case 'patchesListed':
      return `${fact.patches.length} patches of ${fact.list} listed with what they take`;
    case 'patchChanged':
      return `Patch ${fact.list}/${fact.now.row} changed: ${fact.reason}`;
    case 'patchTakenOut':
      return `Patch ${fact.list}/${fact.was.row} taken out: ${fact.reason}`;
    case 'patchPutBack':
      return `Patch ${fact.list}/${fact.row} put back: ${fact.reason}`;
    case 'listTakenBack':
      return `Patch list ${fact.list} taken back: ${fact.reason}`;
    case 'listDone':
      return `Patch list ${fact.list} finished: ${t(fact.laidKg)} laid of ${t(fact.mixKg)} planned`;
    case 'basisChanged':
      return `Figures of the take-off changed: ${fact.reason}`;
    case 'orderMade':
      return `Order ${fact.order} made: ${t(fact.makeKg)} of ${fact.mix} by ${fact.neededBy}`;
    case 'orderChanged':
      return `Order ${fact.order} changed to ${t(fact.now.makeKg)} by ${fact.now.neededBy}: ${fact.reason}`;
    case 'orderWithdrawn':
      return `Order ${fact.order} withdrawn: ${fact.reason}`;
    case 'orderPutBack':
      return `Order ${fact.order} put back: ${fact.reason}`;
    case 'orderDelivered':
      return `Order ${fact.order} settled with ${t(fact.kg)} laid`;
    case 'weekArranged':
      return fact.now === null
        ? `The week goes by its own plan again: ${fact.reason}`
        : `The week put in this sequence: ${fact.now.join(', ')}; ${fact.reason}`;
    case 'hoursSet':
      return `Hours of ${fact.date} set to ${fact.now} h: ${fact.reason}`;
  }
};
