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
const everyState = function* (): Generator<ChartValue> {
  for (let base = 0; base < BASES; base++) {
    const value = stateValueOf(base, 0) as { [region: string]: ChartValue };
    for (const trip of TRIP_VALUES) {
      value.trip = trip;
      yield value;
    }
  }
  for (let bits = 0; bits < FREES; bits++)
    for (const trip of TRIP_VALUES)
      yield { ...(stateValueOf(SAFEST_BASE, 0, freeOf(bits)) as object), trip } as ChartValue;
};

let known: Uint8Array | undefined;
const trueAnswers = (): Uint8Array => {
  if (known !== undefined) return known;
  const list: number[] = [];
  for (const value of everyState()) list.push(answers(value));
  known = Uint8Array.from(list);
  return known;
};

/** States compared by `rulesDiffer`. */
export const COMPARED = (BASES + FREES) * TRIP_VALUES.length;

/** A state in which the changed code answers one of the gate's questions otherwise than the true code; null when none. */
export const rulesDiffer = (changed: <R>(run: () => R) => R): string | null => {
  const before = trueAnswers();
  return changed(() => {
    let at = 0;
    for (const value of everyState()) {
      const now = answers(value);
      if (now !== before[at]) return `answers ${now} instead of ${before[at]} in ${JSON.stringify(value)}`;
      at += 1;
    }
    return null;
  });
};
