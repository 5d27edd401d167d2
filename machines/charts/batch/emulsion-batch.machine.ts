/** An emulsion batch: weigh, wet, mix, add emulsion, mix until brown, look, discharge. No flame anywhere. */
import { setup } from 'xstate';
import type { BatchEvent } from './batch.events.ts';
import { procedureDelays, procedureGuards, procedureRegion } from './procedure.ts';
import { finishSteps, lookSteps } from './shared-steps.ts';

export const emulsionBatchMachine = setup({
  types: { events: {} as BatchEvent },
  guards: procedureGuards,
  delays: { ...procedureDelays, preWetMix: 0, binderMix: 0, extraMix: 0, clearOut: 0 },
}).createMachine({
  id: 'emulsionBatch',
  type: 'parallel',
  states: {
    procedure: procedureRegion,
    step: {
      initial: 'ready',
      on: { 'operator.dump': { target: '.dumping', guard: 'batch may be dumped' } },
      states: {
        ready: {
          meta: { title: 'Ready for a batch', instruction: 'Start when the order and the bay are right.' },
          on: { 'operator.start': 'charging' },
        },
        charging: {
          meta: {
            title: 'Weighing the aggregates',
            instruction: 'Watch the gates change from full to dribble. Nothing to do.',
            short: 'charge',
          },
          on: { 'on.aggregatesWeighed': { target: 'dropping', guard: 'batch runs' } },
        },
        dropping: {
          meta: {
            title: 'Dropping the aggregates into the pug mill',
            instruction: 'The pug mill turns before stone falls into it.',
            short: 'charge',
          },
          on: { 'on.hopperEmpty': { target: 'preWetting', guard: 'batch runs' } },
        },
        preWetting: {
          meta: {
            title: 'Adding pre-wet water',
            instruction: 'Only what the aggregate does not already hold is added.',
            short: 'wet',
          },
          on: { 'on.waterDelivered': { target: 'preWetMixing', guard: 'batch runs' } },
        },
        preWetMixing: {
          meta: {
            title: 'Wetting every stone',
            instruction: 'The surface should be dark and damp, with no water running.',
            short: 'wet',
          },
          after: { preWetMix: { target: 'waitingForBinder', guard: 'batch runs' } },
        },
        waitingForBinder: {
          meta: {
            title: 'Emulsion waits',
            instruction: 'The valve opens by itself when every line is met.',
            short: 'wait',
          },
          on: { 'on.readyForBinder': { target: 'addingBinder', guard: 'batch runs' } },
        },
        addingBinder: {
          meta: {
            title: 'Adding emulsion',
            instruction: 'Watch the bucket run down to zero.',
            short: 'binder',
          },
          on: { 'on.bucketEmpty': { target: 'mixing', guard: 'batch runs' } },
        },
        ...lookSteps,
        ...finishSteps,
      },
    },
  },
});
