/** An emulsion batch: weigh, wet, mix, add emulsion, mix until brown, look, discharge. No flame anywhere. */
import { batchSetup, procedureRegion } from './procedure.ts';
import { emulsionSteps, finishSteps, lookSteps } from './shared-steps.ts';

export const emulsionBatchMachine = batchSetup.createMachine({
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
          on: { 'operator.start': { target: 'charging', guard: 'batch is idle' } },
        },
        charging: {
          meta: {
            title: 'Weighing the aggregates',
            instruction: 'Watch the gates change from full to dribble. Nothing to do.',
          },
          on: { 'on.aggregatesWeighed': { target: 'dropping', guard: 'batch runs' } },
        },
        dropping: {
          meta: {
            title: 'Dropping the aggregates into the pug mill',
            instruction: 'The pug mill turns before stone falls into it.',
          },
          on: { 'on.hopperEmpty': { target: 'preWetting', guard: 'batch runs' } },
        },
        ...emulsionSteps,
        ...lookSteps,
        ...finishSteps,
      },
    },
  },
});
