/** Steps that batches share: waiting for dried aggregate, wetting and dosing of emulsion, and the end of every batch. */

/** How a batch begins whose aggregate comes from the holding bin. */
export const holdingBinSteps = {
  waitingForAggregate: {
    meta: {
      title: 'Waiting for the aggregate to cool',
      instruction: 'Leave the fan on. Drawing starts by itself inside the window.',
    },
    on: { 'on.aggregateInWindow': { target: 'charging', guard: 'batch runs' } },
  },
} as const;

/** Pre-wetting and dosing, the same whether the aggregate came cold or warmed. */
export const emulsionSteps = {
  preWetting: {
    meta: {
      title: 'Adding pre-wet water',
      instruction: 'Only what the aggregate does not already hold is added.',
    },
    on: { 'on.waterDelivered': { target: 'preWetMixing', guard: 'batch runs' } },
  },
  preWetMixing: {
    meta: {
      title: 'Wetting every stone',
      instruction: 'The surface should be dark and damp, with no water running.',
    },
    after: { preWetMix: { target: 'waitingForBinder', guard: 'batch runs' } },
  },
  waitingForBinder: {
    meta: {
      title: 'Emulsion waits',
      instruction: 'The valve opens by itself when every line is met.',
    },
    on: { 'on.readyForBinder': { target: 'addingBinder', guard: 'batch runs' } },
  },
  addingBinder: {
    meta: {
      title: 'Adding emulsion',
      instruction: 'Watch the bucket run down to zero.',
    },
    on: { 'on.bucketEmpty': { target: 'mixing', guard: 'batch runs' } },
  },
} as const;

export const lookSteps = {
  mixing: {
    meta: { title: 'Mixing', instruction: 'Look through the hatch as the time runs out.' },
    after: { binderMix: { target: 'looking', guard: 'batch runs' } },
  },
  looking: {
    meta: {
      title: 'Look: is every stone coated?',
      instruction: 'Confirm when the mix is even and coated, or mix on a little, or dump it.',
    },
    on: {
      'operator.confirmLook': { target: 'discharging', guard: 'batch runs' },
      'operator.extendMix': { target: 'extraMixing', guard: 'batch runs' },
    },
  },
  extraMixing: {
    meta: { title: 'Mixing on', instruction: 'Too long strips the coating off again.' },
    after: { extraMix: { target: 'looking', guard: 'batch runs' } },
  },
} as const;

export const finishSteps = {
  discharging: {
    meta: { title: 'Discharging to the bay', instruction: 'Stand clear of the belt.' },
    on: { 'on.mixerEmpty': { target: 'clearing', guard: 'batch runs' } },
  },
  clearing: {
    meta: { title: 'Letting the belt run clear' },
    after: { clearOut: { target: 'discharged', guard: 'batch runs' } },
  },
  discharged: {
    meta: { title: 'Discharged' },
    on: { 'line.booked': 'ready' },
  },
  dumping: {
    meta: { title: 'Dumping to the waste skip', instruction: 'Stand clear of the belt.' },
    on: { 'on.allEmpty': { target: 'dumpClearing', guard: 'batch runs' } },
  },
  dumpClearing: {
    meta: { title: 'Letting the belt run clear' },
    after: { clearOut: { target: 'dumped', guard: 'batch runs' } },
  },
  dumped: {
    meta: { title: 'Dumped' },
    on: { 'line.booked': 'ready' },
  },
} as const;
