/** What the true code answers in every state of the flame interlock there could be, kept to hold a changed one against. */
import {
  burnerMayLight,
  type ChartValue,
} from '../../../machines/charts/flame-interlock/flame-interlock.guards.ts';
import { GATE_RULES } from '../../../machines/line/gate.ts';
import { FREES, freeOf } from '../free-regions.ts';
import { BASES, SAFEST_BASE, stateValueOf } from '../interlock-space.ts';
import { TRIP_VALUES } from './gate-hunt.ts';

const QUESTIONS: readonly ((value: ChartValue) => boolean)[] = [
  GATE_RULES.binderMayFlow,
  GATE_RULES.cutbackMayFeed,
  GATE_RULES.emulsionMayFeed,
  GATE_RULES.burnerMayFire,
  GATE_RULES.pilotMayOpen,
  GATE_RULES.isTripped,
  GATE_RULES.allIsStopped,
  burnerMayLight,
];

const answers = (value: ChartValue): number =>
  QUESTIONS.reduce((bits, ask, bit) => bits | (ask(value) ? 1 << bit : 0), 0);

/**
 * Every combination of the regions trips look at with the doubts settled, where most is let through; and every
 * combination of the doubts with all else safe. A permissive looks at one region, so no two of them can hide a change.
 */
const everyState = (): readonly ChartValue[] => {
  const values = [
    ...Array.from({ length: BASES }, (_, base) => stateValueOf(base, 0) as object),
    ...Array.from({ length: FREES }, (_, bits) => stateValueOf(SAFEST_BASE, 0, freeOf(bits)) as object),
  ];
  return values.flatMap((value) => TRIP_VALUES.map((trip) => ({ ...value, trip }) as ChartValue));
};

type Known = { readonly states: readonly ChartValue[]; readonly answers: Uint8Array };
let known: Known | undefined;
const trueAnswers = (): Known => {
  if (known === undefined) {
    // The safest first: that is where a change shows soonest.
    const states = [...everyState()].reverse();
    known = { states, answers: Uint8Array.from(states, answers) };
  }
  return known;
};

/** States compared by `rulesDiffer`. */
export const COMPARED = (BASES + FREES) * TRIP_VALUES.length;

/** A state in which the changed code answers one of the gate's questions otherwise than the true code; null when none. */
export const rulesDiffer = (changed: <R>(run: () => R) => R): string | null => {
  const { states, answers: before } = trueAnswers();
  return changed(() => {
    const at = states.findIndex((value, index) => answers(value) !== before[index]);
    return at < 0 ? null : `the gate is told something else in ${JSON.stringify(states[at])}`;
  });
};
