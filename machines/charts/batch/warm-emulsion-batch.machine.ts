/** An emulsion batch of a cold day: aggregate warmed before and kept in the holding bin, then wetted and mixed like any other. */
import { batchSetup, procedureRegion } from './procedure.ts';
import { emulsionSteps, finishSteps, holdingBinSteps, lookSteps } from './shared-steps.ts';

export const warmEmulsionBatchMachine = batchSetup.createMachine({
  id: 'warmEmulsionBatch',
  type: 'parallel',
  states: {
    procedure: procedureRegion,
    step: {
      initial: 'ready',
      on: { 'operator.dump': { target: '.dumping', guard: 'batch may be dumped' } },
      states: {
        ready: {
          meta: {
            title: 'Ready for a batch',
            instruction: 'Start when warmed aggregate is at hand and the bay is right.',
          },
          on: { 'operator.start': { target: 'waitingForAggregate', guard: 'batch is idle' } },
        },
        ...holdingBinSteps,
        charging: {
          meta: {
            title: 'Drawing warm aggregate into the pug mill',
            instruction: 'The holding bin is weighed as it gives. Nothing to do.',
          },
          on: { 'on.dryWeighed': { target: 'preWetting', guard: 'batch runs' } },
        },
        ...emulsionSteps,
        ...lookSteps,
        ...finishSteps,
      },
    },
  },
});
