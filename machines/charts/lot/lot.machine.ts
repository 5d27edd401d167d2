/** The lot being filled: opened by its first batch, closed when full, at a change of mix or at shift end. */
import { setup } from 'xstate';

export type LotEvent =
  | { readonly type: 'line.lotOpened' }
  | { readonly type: 'line.massReached' }
  | { readonly type: 'line.mixChanged' }
  | { readonly type: 'line.bayChanged' }
  | { readonly type: 'line.shiftEnded' };

export const lotMachine = setup({ types: { events: {} as LotEvent } }).createMachine({
  id: 'lot',
  initial: 'none',
  states: {
    none: { meta: { title: 'No lot open' }, on: { 'line.lotOpened': 'open' } },
    open: {
      meta: { title: 'Open: batches are booked to it' },
      on: {
        'line.massReached': 'closed',
        'line.mixChanged': 'closedShort',
        'line.bayChanged': 'closedShort',
        'line.shiftEnded': 'closedShort',
      },
    },
    closed: { meta: { title: 'Closed' }, on: { 'line.lotOpened': 'open' } },
    closedShort: { meta: { title: 'Closed short' }, on: { 'line.lotOpened': 'open' } },
  },
});
