/** What the stock answers to each command. */
import type { Asked } from '../../../record/book.types.ts';
import type { StockCommand } from '../commands.ts';
import type { StockOthers } from '../others.types.ts';
import type { StockState } from '../state.types.ts';
import type { Answer, Asking } from './asking.ts';
import { fillBags } from './bags.ts';
import { moveMix, reworkLot, stockTake, wasteMix } from './bays.ts';
import { cancelLoad, layPatch, makeOutLoad, returnMix, reverseLaid, weighOut } from './loads.ts';
import {
  cancelDelivery,
  correctDelivery,
  countStore,
  dipTank,
  registerDelivery,
  setRule,
} from './materials.ts';
import { reverseMovement } from './reverse.ts';

export const answerStock = (
  s: StockState,
  { command, by, at }: Asked<StockCommand>,
  others: StockOthers,
): Answer => {
  const asking: Asking = { s, by, at, others };
  switch (command.do) {
    case 'registerDelivery':
      return registerDelivery(asking, command);
    case 'correctDelivery':
      return correctDelivery(asking, command);
    case 'cancelDelivery':
      return cancelDelivery(asking, command);
    case 'dipTank':
      return dipTank(asking, command);
    case 'countStore':
      return countStore(asking, command);
    case 'setRule':
      return setRule(asking, command);
    case 'stockTake':
      return stockTake(asking, command);
    case 'moveMix':
      return moveMix(asking, command);
    case 'wasteMix':
      return wasteMix(asking, command);
    case 'reworkLot':
      return reworkLot(asking, command);
    case 'fillBags':
      return fillBags(asking, command);
    case 'makeOutLoad':
      return makeOutLoad(asking, command);
    case 'cancelLoad':
      return cancelLoad(asking, command);
    case 'weighOut':
      return weighOut(asking, command);
    case 'layPatch':
      return layPatch(asking, command);
    case 'reverseLaid':
      return reverseLaid(asking, command);
    case 'returnMix':
      return returnMix(asking, command);
    case 'reverseMovement':
      return reverseMovement(asking, command);
  }
};
