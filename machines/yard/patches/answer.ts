/** What the patches book answers to a command. */
import type { Asked } from '../../record/book.types.ts';
import {
  type Answer,
  changePatch,
  finishList,
  no,
  putBackPatch,
  takeBackList,
  takeList,
  takeOutPatch,
  yes,
} from './answer-lists.ts';
import { changeOrder, deliverOrder, makeOrder, putBackOrder, withdrawOrder } from './answer-orders.ts';
import type { PatchesCommand } from './commands.ts';
import { isLive } from './naming.ts';
import type { PatchesOthers } from './others.ts';
import { hoursOn } from './schedule/days.ts';
import type { PatchesState } from './state.ts';

type Of<D extends PatchesCommand['do']> = Extract<PatchesCommand, { do: D }>;

const arrangeWeek = (state: PatchesState, command: Of<'arrangeWeek'>): Answer => {
  const { orders, reason } = command;
  if (orders === null)
    return state.week.arranged === null
      ? no('The plan stands in its own order already.')
      : yes({ is: 'weekArranged', was: state.week.arranged, now: null, reason });
  if (new Set(orders).size !== orders.length) return no('An order stands twice in this sequence.');
  const wrong = orders.filter((id) => {
    const order = state.orders[id];
    return order === undefined || !isLive(order);
  });
  if (wrong.length > 0)
    return no(`${wrong.join(', ')} is not an order that stands: put only those in sequence.`);
  return yes({ is: 'weekArranged', was: state.week.arranged, now: orders, reason });
};

const setHours = (state: PatchesState, command: Of<'setHours'>, at: string): Answer => {
  const { date, hours, reason } = command;
  if (date < at.slice(0, 10)) return no(`${date} is past: set hours of a day to come.`);
  const was = hoursOn(state.week, date);
  return was === hours
    ? no(`${date} has ${hours} h already.`)
    : yes({ is: 'hoursSet', date, was, now: hours, reason });
};

const changeBasis = (state: PatchesState, command: Of<'changeBasis'>): Answer =>
  JSON.stringify(command.now) === JSON.stringify(state.basis)
    ? no('Nothing is different: change a figure, or leave it.')
    : yes({ is: 'basisChanged', was: state.basis, now: command.now, reason: command.reason });

export const answerPatches = (
  state: PatchesState,
  { command, at }: Asked<PatchesCommand>,
  others: PatchesOthers,
): Answer => {
  switch (command.do) {
    case 'takeList':
      return takeList(state, command, at);
    case 'changePatch':
      return changePatch(state, command);
    case 'takeOutPatch':
      return takeOutPatch(state, command);
    case 'putBackPatch':
      return putBackPatch(state, command);
    case 'takeBackList':
      return takeBackList(state, command);
    case 'finishList':
      return finishList(state, command);
    case 'changeBasis':
      return changeBasis(state, command);
    case 'makeOrder':
      return makeOrder(state, command, at, others);
    case 'changeOrder':
      return changeOrder(state, command, at);
    case 'withdrawOrder':
      return withdrawOrder(state, command);
    case 'putBackOrder':
      return putBackOrder(state, command);
    case 'deliverOrder':
      return deliverOrder(state, command);
    case 'arrangeWeek':
      return arrangeWeek(state, command);
    case 'setHours':
      return setHours(state, command, at);
  }
};
