/** The steps every batch ends with: mix, look, extend or discharge, or dump. */

export const lookSteps = {
  mixing: {
    meta: { title: 'Mixing', instruction: 'Look through the hatch as the time runs out.', short: 'mix' },
    after: { binderMix: { target: 'looking', guard: 'batch runs' } },
  },
  looking: {
    meta: {
      title: 'Look: is every stone coated?',
      instruction: 'Confirm when the mix is even and coated, or mix on a little, or dump it.',
      short: 'look',
    },
    on: {
      'operator.confirmLook': { target: 'discharging', guard: 'batch runs' },
      'operator.extendMix': { target: 'extraMixing', guard: 'batch runs' },
    },
  },
  extraMixing: {
    meta: { title: 'Mixing on', instruction: 'Too long strips the coating off again.', short: 'mix' },
    after: { extraMix: { target: 'looking', guard: 'batch runs' } },
  },
} as const;

export const finishSteps = {
  discharging: {
    meta: { title: 'Discharging to the bay', instruction: 'Stand clear of the belt.', short: 'discharge' },
    on: { 'on.mixerEmpty': { target: 'clearing', guard: 'batch runs' } },
  },
  clearing: {
    meta: { title: 'Letting the belt run clear', short: 'discharge' },
    after: { clearOut: { target: 'discharged', guard: 'batch runs' } },
  },
  discharged: {
    meta: { title: 'Discharged', short: 'discharge' },
    on: { 'line.booked': 'ready' },
  },
  dumping: {
    meta: { title: 'Dumping to the waste skip', instruction: 'Stand clear of the belt.', short: 'dump' },
    on: { 'on.allEmpty': { target: 'dumpClearing', guard: 'batch runs' } },
  },
  dumpClearing: {
    meta: { title: 'Letting the belt run clear', short: 'dump' },
    after: { clearOut: { target: 'dumped', guard: 'batch runs' } },
  },
  dumped: {
    meta: { title: 'Dumped', short: 'dump' },
    on: { 'line.booked': 'ready' },
  },
} as const;
