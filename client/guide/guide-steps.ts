/** The first emulsion batch as steps; which one is due is read off the view, never from a "next" button. */
import type { LineView } from '../../machines/line/view.types.ts';
import { mayGive } from '../../machines/people/permissions.ts';
import type { Person } from '../../machines/scenario/people.schema.ts';
import { isIdle } from '../line/idle.ts';

export type GuideStepId =
  | 'who'
  | 'take'
  | 'standIn'
  | 'others'
  | 'order'
  | 'start'
  | 'watch'
  | 'look'
  | 'lot'
  | 'done';

export const GUIDE_ORDER: readonly GuideStepId[] = [
  'who',
  'take',
  'order',
  'start',
  'watch',
  'look',
  'lot',
  'done',
];

export type GuideSight = {
  readonly me: Person | null;
  readonly mine: boolean;
  readonly view: LineView;
  /** A whole batch was made from this console since the guide began. */
  readonly ownBatch: boolean;
};

/** The step the newcomer is at. */
export function guideStep({ me, mine, view, ownBatch }: GuideSight): GuideStepId {
  if (ownBatch) return 'done';
  if (me === null || !mayGive(me.role, 'start')) return 'who';
  if (view.seat.standIn !== null) return 'standIn';
  if (!mine) return view.seat.holder === null ? 'take' : 'others';
  if (view.now.actions.some((action) => action.command.do === 'confirmLook')) return 'look';
  if (isIdle(view)) {
    const chosen = view.orders.find((order) => order.chosen);
    return chosen?.family === 'emulsion' ? 'start' : 'order';
  }
  const step = view.now.steps.find((each) => each.state === 'now')?.name ?? '';
  return /discharg/i.test(step) ? 'lot' : 'watch';
}

/** Where a step stands on the way, from 1; waiting for the controls is part of taking them. */
export const guidePlace = (step: GuideStepId): number =>
  GUIDE_ORDER.indexOf(step === 'standIn' || step === 'others' ? 'take' : step) + 1;

export type GuideStep = {
  readonly title: string;
  readonly words: string;
  /** What it points at: the first of these that is on the page. */
  readonly at: readonly string[];
};

export const GUIDE: { readonly [K in GuideStepId]: GuideStep } = {
  who: {
    title: 'Say who you are',
    words:
      'Everything done here is recorded under a name. Press this button and pick an operator or a trainee.',
    at: ['[data-guide="who"]'],
  },
  take: {
    title: 'Take the controls',
    words: 'One console at a time runs the line. Press “Take”.',
    at: ['[data-guide="seat"]'],
  },
  standIn: {
    title: 'The stand-in has the controls',
    words:
      'Watch it make a batch, or press “Take”: it gives way at once, and this guide leads you through a batch of your own.',
    at: ['[data-guide="seat"]'],
  },
  others: {
    title: 'Someone else has the controls',
    words: 'Watch the batch from here, or press “Ask”: the other console can hand the controls over.',
    at: ['[data-guide="seat"]'],
  },
  order: {
    title: 'Choose an emulsion order',
    words: 'Emulsion mix needs no flame: a good first batch. Press the emulsion order in this list.',
    at: ['[data-guide="orders"] [data-family="emulsion"]', '[data-guide="orders"]'],
  },
  start: {
    title: 'Start one batch',
    words: 'Press the start button. If it is dashed, press it all the same: it says what is missing.',
    at: ['[data-do="start"]', '[data-guide="actions"]'],
  },
  watch: {
    title: 'Watch the weights',
    words:
      'The line weighs stone, water and binder by itself. Each bar should stop inside its band. There is nothing to press; speed 10× is at the top if you like.',
    at: ['[data-guide="bars"]'],
  },
  look: {
    title: 'Look, then confirm',
    words:
      'Look into the pug mill: is every stone brown and coated? Then confirm. If not, mix a little longer.',
    at: ['[data-do="confirmLook"]', '[data-guide="actions"]'],
  },
  lot: {
    title: 'Into the lot',
    words: 'The mix runs to its bay and its weight is booked to the open lot, which fills to 10 t.',
    at: ['[data-guide="lot"]'],
  },
  done: {
    title: 'Your first batch is in the lot',
    words: 'That was a whole batch. The next one goes the same way; Help brings this guide back.',
    at: ['[data-guide="lot"]'],
  },
};
