/** The desk in words: causes that hold, where each chart stands, what an act is refused for. */
import { SAFEGUARDS, standingSafeguards } from '../../machines/charts/burner/burner.safeguards.ts';
import {
  CAUSES,
  type InterlockCauseId,
} from '../../machines/charts/flame-interlock/flame-interlock.causes.ts';
import {
  isTripped,
  latchedCauses,
  lightingBlockedBy,
  resetBlockedBy,
  standingCauses,
  unmetPermissives,
} from '../../machines/charts/flame-interlock/flame-interlock.guards.ts';
import type { StateMeta } from '../../machines/charts/signals.ts';
import { heatBlockedBy } from '../../machines/charts/tank-interlock/tank-interlock.guards.ts';
import { AT_REST, type Outputs } from '../../machines/field/outputs.ts';
import type { CausesView } from '../../machines/line/view.types.ts';
import { type Asks, type Desk, type DeskChart, gated, stateOfChart, withAsk, withEvent } from './desk.ts';

const isLockoutId = (id: string): boolean =>
  SAFEGUARDS.some((one) => one.id === id && one.holdsIn[0] === 'lockedOut');

export const causesOf = (desk: Desk): CausesView => {
  const interlock = stateOfChart(desk, 'interlock');
  const safeguards = standingSafeguards(stateOfChart(desk, 'burner'));
  return {
    holding: [
      ...unmetPermissives(interlock),
      ...standingCauses(interlock),
      ...safeguards,
      ...heatBlockedBy('cutback', stateOfChart(desk, 'cutbackTank')),
      ...heatBlockedBy('emulsion', stateOfChart(desk, 'emulsionTank')),
    ],
    latched: [...latchedCauses(interlock), ...safeguards.filter(isLockoutId)],
  };
};

/** What the operator reads of a chart: the title of its deepest state. */
export const titleOf = (desk: Desk, chart: DeskChart): string => {
  const metas = Object.values(desk.charts[chart].getMeta()) as StateMeta[];
  return metas.at(-1)?.title ?? '';
};

const reason = (id: InterlockCauseId): string => `${id} ${CAUSES[id].words.unmet}. ${CAUSES[id].words.clear}`;

export type Acted = { readonly desk: Desk; readonly because: readonly string[]; readonly done: string };

const refused = (desk: Desk, because: readonly string[]): Acted => ({ desk, because, done: '' });

export const lightBurner = (desk: Desk): Acted => {
  const because = lightingBlockedBy(stateOfChart(desk, 'interlock')).map(reason);
  if (because.length > 0) return refused(desk, because);
  if (stateOfChart(desk, 'burner') !== 'off')
    return refused(desk, [`The burner is not at rest: ${titleOf(desk, 'burner').toLowerCase()}.`]);
  return {
    desk: withEvent(desk, 'burner', 'operator.lightBurner'),
    because: [],
    done: 'The burner is asked to light. It purges the drum first.',
  };
};

export const putOutBurner = (desk: Desk): Acted => ({
  desk: withEvent(desk, 'burner', 'operator.putOutBurner'),
  because: [],
  done: 'The burner is put out; the drum is purged.',
});

export const purgeDrum = (desk: Desk): Acted =>
  stateOfChart(desk, 'burner') === 'off'
    ? {
        desk: withEvent(desk, 'burner', 'operator.purgeDrum'),
        because: [],
        done: 'The drum is being purged.',
      }
    : refused(desk, [`The burner is not at rest: ${titleOf(desk, 'burner').toLowerCase()}.`]);

export const resetBurner = (desk: Desk): Acted => {
  const next = withEvent(desk, 'burner', 'operator.resetBurner');
  return next.charts.burner === desk.charts.burner
    ? refused(desk, ['The burner is not locked out, or what locked it out stands still.'])
    : { desk: next, because: [], done: 'The burner is reset; it purges before anything else.' };
};

export const resetTrip = (desk: Desk): Acted => {
  const interlock = stateOfChart(desk, 'interlock');
  if (!isTripped(interlock)) return refused(desk, ['Nothing is tripped.']);
  const because = resetBlockedBy(interlock).map(reason);
  return because.length > 0
    ? refused(desk, because)
    : {
        desk: withEvent(desk, 'interlock', 'operator.resetTrip'),
        because: [],
        done: 'The trip is reset. Nothing starts by itself.',
      };
};

const ASKED: { readonly [A in keyof Asks]: { readonly outputs: Partial<Outputs>; readonly done: string } } = {
  bucketValve: { outputs: { bucketValve: true }, done: 'The binder valve is open.' },
  cutbackFeed: { outputs: { cutbackFeed: 'full' }, done: 'Cutback runs from its tank into the bucket.' },
  heat: {
    outputs: { oilPump: true, oilBurner: true, cutbackCoil: true },
    done: 'The cutback tank is being heated.',
  },
};

/** Asks the gate for one element, as the line would, and takes no for an answer. */
export const askFor = (desk: Desk, ask: keyof Asks): Acted => {
  const { outputs, done } = ASKED[ask];
  const { held } = gated(desk, { ...AT_REST, ...outputs });
  if (held.length > 0) return refused(desk, [...new Set(held.flatMap((one) => one.because))].map(reason));
  return { desk: withAsk(desk, ask, true), because: [], done };
};

export const stopAsking = (desk: Desk, ask: keyof Asks): Acted => ({
  desk: withAsk(desk, ask, false),
  because: [],
  done: 'Shut again.',
});
