/** The ISA-88 side of a batch, the same for every mix: running, held, stopped, aborted, complete. */
import { or, setup, stateIn } from 'xstate';
import type { BatchEvent } from './batch.events.ts';

/** Steps begin only from idle and move only while the procedure runs. */
const guards = {
  'batch runs': stateIn({ procedure: 'running' }),
  'batch is idle': stateIn({ procedure: 'idle' }),
  'batch is at rest': stateIn({ step: 'ready' }),
  'batch has left the mixer': or([stateIn({ step: 'discharged' }), stateIn({ step: 'dumped' })]),
  'batch may be dumped': or([
    stateIn({ procedure: 'idle' }),
    stateIn({ procedure: 'held' }),
    stateIn({ procedure: 'stopped' }),
    stateIn({ procedure: 'aborted' }),
    stateIn({ step: 'looking' }),
  ]),
} as const;

/** What every batch chart is made from. The lengths of its delays are the line's to say: see the mix file. */
export const batchSetup = setup({
  types: { events: {} as BatchEvent },
  guards,
  delays: { quiet: 0, preWetMix: 0, binderMix: 0, extraMix: 0, clearOut: 0 },
});

const interruptions = {
  'operator.stop': 'stopping',
  'operator.abort': 'aborting',
  'on.emergencyStop': 'aborting',
} as const;

export const procedureRegion = {
  initial: 'idle',
  states: {
    idle: {
      meta: { title: 'Idle' },
      on: { 'operator.start': { target: 'running', guard: 'batch is at rest' }, 'operator.dump': 'running' },
    },
    running: {
      meta: { title: 'Running' },
      on: {
        ...interruptions,
        'operator.hold': 'holding',
        'on.tripped': 'holding',
        'on.weightOutOfTolerance': 'holding',
        'line.booked': { target: 'complete', guard: 'batch has left the mixer' },
      },
    },
    holding: {
      meta: { title: 'Holding: gates and valves are closing' },
      on: { ...interruptions },
      after: { quiet: 'held' },
    },
    held: {
      meta: {
        title: 'Held',
        instruction: 'Nothing is fed. Restart when the cause is mended, or stop, or dump.',
      },
      on: { ...interruptions, 'operator.restart': 'restarting', 'operator.dump': 'running' },
    },
    restarting: {
      meta: { title: 'Restarting' },
      on: { ...interruptions, 'operator.hold': 'holding', 'on.tripped': 'holding' },
      after: { quiet: 'running' },
    },
    stopping: {
      meta: { title: 'Stopping: gates and valves are closing' },
      on: { 'operator.abort': 'aborting', 'on.emergencyStop': 'aborting' },
      after: { quiet: 'stopped' },
    },
    stopped: {
      meta: { title: 'Stopped', instruction: 'What is left in the hopper or the pug mill must be dumped.' },
      on: {
        'operator.abort': 'aborting',
        'operator.dump': 'running',
        'operator.reset': { target: 'idle', guard: 'batch is at rest' },
      },
    },
    aborting: {
      meta: { title: 'Aborting: everything is closing' },
      after: { quiet: 'aborted' },
    },
    aborted: {
      meta: { title: 'Aborted', instruction: 'What is left in the hopper or the pug mill must be dumped.' },
      on: { 'operator.dump': 'running', 'operator.reset': { target: 'idle', guard: 'batch is at rest' } },
    },
    complete: {
      meta: { title: 'Complete' },
      after: { quiet: 'idle' },
    },
  },
} as const;
