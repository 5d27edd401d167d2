/** A cutback batch: dry aggregate inside its window, anti-strip, binder through the interlock, mix, look, discharge. */
import { batchSetup, procedureRegion } from './procedure.ts';
import { finishSteps, holdingBinSteps, lookSteps } from './shared-steps.ts';

export const cutbackBatchMachine = batchSetup.createMachine({
  id: 'cutbackBatch',
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
            instruction: 'Start when dry aggregate is at hand and the bay is right.',
          },
          on: { 'operator.start': { target: 'waitingForAggregate', guard: 'batch is idle' } },
        },
        ...holdingBinSteps,
        charging: {
          meta: {
            title: 'Drawing dry aggregate into the pug mill',
            instruction: 'The holding bin is weighed as it gives. Nothing to do.',
          },
          on: { 'on.dryWeighed': { target: 'antiStripping', guard: 'batch runs' } },
        },
        antiStripping: {
          meta: {
            title: 'Adding anti-strip',
            instruction: 'Gloves and face shield: the agent burns skin.',
          },
          on: { 'on.antiStripDelivered': { target: 'waitingForBinder', guard: 'batch runs' } },
        },
        waitingForBinder: {
          meta: {
            title: 'Binder waits',
            instruction: 'The valve opens by itself when every line under Flame and binder is met.',
          },
          on: { 'on.readyForBinder': { target: 'addingBinder', guard: 'batch runs' } },
        },
        addingBinder: {
          meta: {
            title: 'Adding cutback',
            instruction:
              'It is above its flash point: no flame, no sparks, extraction on. Watch the vapour reading.',
          },
          on: { 'on.bucketEmpty': { target: 'mixing', guard: 'batch runs' } },
        },
        ...lookSteps,
        ...finishSteps,
      },
    },
  },
});
