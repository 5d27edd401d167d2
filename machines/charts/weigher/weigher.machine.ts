/** One scale being filled to a target: full feed, dribble, settle, judge. Parts are taken one after another by the line. */
import { setup } from 'xstate';
import type { WeigherEvent } from './weigher.events.ts';

export const weigherMachine = setup({
  types: { events: {} as WeigherEvent },
  delays: { settle: 0 },
}).createMachine({
  id: 'weigher',
  initial: 'idle',
  on: { 'line.clear': '.idle' },
  states: {
    idle: {
      meta: { title: 'Empty or waiting' },
      on: { 'line.begin': 'coarse' },
    },
    coarse: {
      meta: { title: 'Filling, gate full open' },
      on: { 'scale.nearTarget': 'fine', 'scale.noGain': 'stalled' },
    },
    fine: {
      meta: { title: 'Filling, dribble' },
      on: { 'scale.atCutOff': 'settling', 'scale.noGain': 'stalled' },
    },
    settling: {
      meta: { title: 'Letting the scale settle' },
      after: { settle: 'judging' },
    },
    judging: {
      meta: { title: 'Judging the weight' },
      on: { 'scale.within': 'weighed', 'scale.light': 'light', 'scale.heavy': 'heavy' },
    },
    weighed: {
      meta: { title: 'Weighed' },
      on: { 'line.begin': 'coarse' },
    },
    light: {
      meta: { title: 'Too light', instruction: 'Top up, have a supervisor accept it, or dump.' },
      on: { 'operator.topUp': 'toppingUp', 'operator.acceptWeight': 'weighed' },
    },
    toppingUp: {
      meta: { title: 'Topping up, dribble' },
      on: { 'scale.atCutOff': 'settling', 'scale.noGain': 'stalled' },
    },
    stalled: {
      meta: {
        title: 'Feeding, and the scale does not gain',
        instruction: 'Look: gate stuck, bin or tank empty, or the scale dead? Mend it and top up, or dump.',
      },
      on: { 'operator.topUp': 'coarse' },
    },
    heavy: {
      meta: { title: 'Too heavy', instruction: 'Have a supervisor accept it, or dump.' },
      on: { 'operator.acceptWeight': 'weighed' },
    },
  },
});

export type WeigherState =
  | 'idle'
  | 'coarse'
  | 'fine'
  | 'settling'
  | 'judging'
  | 'weighed'
  | 'light'
  | 'toppingUp'
  | 'stalled'
  | 'heavy';
