/** What stories are told of: for each rule the first thing broken on purpose whose breach is a way through a model. */

import type { Outputs } from '../../../machines/field/outputs.ts';
import type { Story } from '../../../machines/scenario/story.schema.ts';
import { tableOf } from '../chart-table.ts';
import { MACHINES } from '../charts.ts';
import { explore, type Model, type Violation } from '../explorer.ts';
import { byModel, type Mutant } from '../hunt.ts';
import { interlockModel } from '../interlock-model.ts';
import { SAFEST_BASE, TRIP_STATES } from '../interlock-space.ts';
import { mutant } from '../mutant.ts';
import { MUTANTS } from '../mutants.ts';
import { burnerWatchModel } from '../mutations/burner-watch.ts';
import { ASKINGS, type Asking, askingModel } from '../mutations/output-rules.ts';
import { spaceWith } from '../mutations/trip-mutations.ts';
import { EMERGENCY_LATCHED } from '../mutations/trip-rules.ts';
import { NEVER, type NeverId } from '../never-rules.ts';
import { alarmModel, oilModel } from '../small-models.ts';
import { batchModel } from '../work-models.ts';
import { storyOf, type Told } from './story-of.ts';

const yes = (): boolean => true;

const asking = (told: string, broken: string, asks: Asking['asks']): Mutant => {
  const one = ASKINGS.find((each) => each.told === told) as Asking;
  return byModel(one.rule, broken, () =>
    askingModel(one, (value) => ({ ...one.asks(value), ...asks(value) })),
  );
};

const batchWith = (rule: NeverId, guard: string, broken: string): Mutant =>
  byModel(rule, broken, () =>
    batchModel(
      'emulsion',
      tableOf(MACHINES.emulsionBatch.provide({ guards: { [guard]: yes } } as never), 2000),
    ),
  );

/** Things broken that are told besides the canaries, for the rules these do not break. */
const MORE: readonly Mutant[] = [
  byModel('NR-43', 'the extraction trip latches whatever is so', () =>
    interlockModel(spaceWith({ 'FT-03': yes })),
  ),
  byModel('NR-44', 'a reset is accepted whatever stands', () =>
    interlockModel(spaceWith({ 'no cause stands': yes }), SAFEST_BASE * TRIP_STATES + EMERGENCY_LATCHED),
  ),
  batchWith('NR-45', 'batch runs', 'the steps of a batch go on whether it runs or not'),
  batchWith('NR-46', 'batch has left the mixer', 'a batch counts as booked from any step'),
  batchWith('NR-47', 'batch may be dumped', 'a batch may be dumped at any moment'),
  asking('burner', 'the main fuel opens with the pilot', (value) =>
    value === 'pilotTrial' ? { burnerMain: 'low' } : {},
  ),
  asking('thermal-oil heater', 'the oil is fired before its flow is proved', (value) =>
    value === 'startingFlow' ? { oilBurner: true } : {},
  ),
  asking('cutback tank heater', 'the coil opens while the tank waits for moving oil', (value) =>
    value === 'wanted' ? { cutbackCoil: true } : {},
  ),
  asking('cutback batch', 'the binder valve opens while the mix is looked at', (value) =>
    typeof value === 'object' && value.step === 'looking' && value.procedure === 'running'
      ? { bucketValve: true }
      : {},
  ),
  asking('weigher', 'the feed stays open while the scale settles', (value) =>
    value === 'settling' ? { cutbackFeed: 'dribble' } : {},
  ),
  byModel('NR-54', 'an alarm taken off the shelf forgets that it is suppressed', () =>
    alarmModel(
      tableOf(MACHINES.alarm.provide({ guards: { 'suppression stands': () => false } } as never), 100),
    ),
  ),
  byModel('NR-55', 'the burner does not lock out for a flame seen while it purges', () =>
    burnerWatchModel(
      tableOf(
        mutant(MACHINES.burner, (at) => {
          delete at('purging').on?.['on.flameSeen'];
        }),
      ),
    ),
  ),
  byModel('NR-56', 'the trial of the oil burner never ends', () =>
    oilModel(
      tableOf(
        mutant(MACHINES.oilHeater, (at) => {
          at('firing.lighting').after = {};
        }),
      ),
    ),
  ),
];

/** Rules whose breach is no way through a chart, and why; every other rule has its story. */
export const UNTOLD: { readonly [R in NeverId]?: string } = {
  'NR-11': 'a breach is a state with no way on, not something that happens',
  'NR-15': 'a breach is a circle that never comes to rest',
  'NR-26': "a breach is what a held scale is fed; that it is held is the batch chart's to say",
  'NR-38': 'judged in every state of the gate at once',
  'NR-39': 'judged in every state of the gate at once',
  'NR-40': 'judged in every state of the interlock at once',
  'NR-41': 'judged in every state of a tank interlock at once',
  'NR-42': 'judged in every state of the trip at once',
  'NR-48': 'a breach is a state that nothing leads to',
};

const found = (told: Mutant, model: Model): Violation | undefined =>
  explore(model, told.rule).violations.find((one) => one.rule.startsWith(told.rule));

/** What the broken chart asks for where its breach lies in that. */
const DEMANDS: { readonly [R in NeverId]?: Partial<Outputs> } = {
  'NR-20': { mixerGate: true, belt: true, hopperTo: 'mixer', bucketValve: true },
  'NR-21': { bucketValve: true },
  'NR-25': { hopperTo: 'dryer' },
  'NR-49': { burnerPilot: true, burnerMain: 'low' },
  'NR-50': { oilBurner: true },
  'NR-51': { cutbackCoil: true },
  'NR-52': { bucketValve: true },
  'NR-53': { cutbackFeed: 'dribble' },
};

/** Where the breach is that something never ends: what should have ended it. */
const THEN: { readonly [R in NeverId]?: string } = {
  'NR-37': 'xstate.after.trialForIgnition.burner.pilotTrial',
  'NR-56': 'xstate.after.oilTrial.oilHeater.firing.lighting',
};

export type Telling = { readonly rule: NeverId; readonly story: Story | null };

const extraOf = (rule: NeverId): Partial<Told> => ({
  ...(DEMANDS[rule] === undefined ? {} : { demands: DEMANDS[rule] }),
  ...(THEN[rule] === undefined ? {} : { lastEvent: THEN[rule] }),
});

/** One story a rule, in the order of the rules. */
export const tellings = function* (): Generator<Telling> {
  const all = [...MUTANTS, ...MORE];
  for (const rule of Object.keys(NEVER) as NeverId[]) {
    if (UNTOLD[rule] !== undefined) {
      yield { rule, story: null };
      continue;
    }
    const told = all.find((one) => one.rule === rule && one.model !== undefined);
    const model = told?.model?.();
    const violation = told === undefined || model === undefined ? undefined : found(told, model);
    yield {
      rule,
      story:
        told === undefined || model === undefined || violation === undefined
          ? null
          : storyOf({ ...told, ...extraOf(rule) }, model, violation),
    };
  }
};
