/** The control seat: at most one console has the controls; another may ask for them. */
import { setup } from 'xstate';

export type SeatEvent =
  | { readonly type: 'operator.takeControls' }
  | { readonly type: 'operator.askForControls' }
  | { readonly type: 'operator.handOver' }
  | { readonly type: 'operator.declineRequest' }
  | { readonly type: 'operator.releaseControls' };

export const seatMachine = setup({ types: { events: {} as SeatEvent } }).createMachine({
  id: 'seat',
  initial: 'free',
  states: {
    free: { meta: { title: 'Nobody has the controls' }, on: { 'operator.takeControls': 'held' } },
    held: {
      meta: { title: 'One console has the controls' },
      on: {
        'operator.askForControls': 'asked',
        'operator.handOver': 'held',
        'operator.releaseControls': 'free',
        'operator.takeControls': 'held',
      },
    },
    asked: {
      meta: { title: 'Another console asks for the controls' },
      on: {
        'operator.handOver': 'held',
        'operator.declineRequest': 'held',
        'operator.releaseControls': 'free',
        'operator.takeControls': 'held',
      },
    },
  },
});
