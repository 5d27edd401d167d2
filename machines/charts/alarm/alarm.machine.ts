/** One alarm through its life by ISA-18.2: raised, acknowledged, returned, shelved, suppressed, out of service. */
import { setup, stateIn } from 'xstate';
import type { StateMeta } from '../signals.ts';
import type { AlarmEvent } from './alarm.events.ts';

export const alarmMachine = setup({
  types: {} as { events: AlarmEvent; meta: StateMeta },
  delays: {
    /** Shelving ends by itself; the line sets it to the minutes asked for. */
    shelved: 15 * 60_000,
  },
  guards: {
    'condition stands': stateIn({ condition: 'on' }),
    'suppression stands': stateIn({ suppression: 'on' }),
  },
}).createMachine({
  id: 'alarm',
  type: 'parallel',
  states: {
    condition: {
      initial: 'off',
      states: {
        off: { meta: { title: 'Condition gone' }, on: { 'line.conditionOn': 'on' } },
        on: { meta: { title: 'Condition stands' }, on: { 'line.conditionOff': 'off' } },
      },
    },
    suppression: {
      initial: 'off',
      states: {
        off: { meta: { title: 'Alarm meaningful' }, on: { 'line.suppress': 'on' } },
        on: { meta: { title: 'Alarm meaningless just now' }, on: { 'line.unsuppress': 'off' } },
      },
    },
    handling: {
      initial: 'inService',
      states: {
        inService: {
          initial: 'judging',
          on: { 'operator.shelve': 'shelved', 'operator.outOfService': 'outOfService' },
          states: {
            /** Passed through at once: the right state for what stands now. */
            judging: {
              always: [
                { guard: 'suppression stands', target: 'suppressed' },
                { guard: 'condition stands', target: 'unacknowledged' },
                { target: 'normal' },
              ],
            },
            normal: {
              meta: { title: 'Normal' },
              on: { 'line.conditionOn': 'unacknowledged', 'line.suppress': 'suppressed' },
            },
            unacknowledged: {
              meta: { title: 'Unacknowledged', instruction: 'Read it, act on it, acknowledge it.' },
              on: {
                'operator.acknowledge': 'acknowledged',
                'line.conditionOff': 'returnedUnacknowledged',
                'line.suppress': 'suppressed',
              },
            },
            acknowledged: {
              meta: { title: 'Acknowledged' },
              on: { 'line.conditionOff': 'normal', 'line.suppress': 'suppressed' },
            },
            returnedUnacknowledged: {
              meta: {
                title: 'Returned, unacknowledged',
                instruction: 'It is over; acknowledge that you saw it.',
              },
              on: {
                'operator.acknowledge': 'normal',
                'line.conditionOn': 'unacknowledged',
                'line.suppress': 'suppressed',
              },
            },
            suppressed: {
              meta: { title: 'Suppressed by design' },
              on: { 'line.unsuppress': 'judging' },
            },
          },
        },
        shelved: {
          meta: { title: 'Shelved' },
          on: { 'operator.unshelve': 'inService', 'operator.outOfService': 'outOfService' },
          after: { shelved: 'inService' },
        },
        outOfService: {
          meta: { title: 'Out of service', instruction: 'Watch what it watched by other means.' },
          on: { 'operator.returnToService': 'inService' },
        },
      },
    },
  },
});
