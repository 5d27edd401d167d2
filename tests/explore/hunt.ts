/** How a mutant is hunted: what was broken is built into a model, and the model is explored until it breaks a rule. */
import { GATE_RULES, type GateRules } from '../../machines/line/gate.ts';
import { tableOf } from './chart-table.ts';
import { burnerTable, interlockSpace, MACHINES } from './charts.ts';
import { asStory, cannotReach, explore, type Model } from './explorer.ts';
import { gateVerdicts } from './gate-space.ts';
import { READY } from './interlock-model.ts';
import { mutant } from './mutant.ts';
import type { NeverId } from './never-rules.ts';
import { burnerModel, productModel } from './product-model.ts';

export type Mutant = {
  readonly rule: NeverId;
  readonly broken: string;
  /** The breach found, as a story; null when the mutant lives. */
  readonly hunt: () => string | null;
  /** The model with the thing broken built in, where the breach is a way through one: a story can be told of it. */
  readonly model?: () => Model;
  /** The broken rules of the gate, where it is the gate that is broken. */
  readonly rules?: Partial<GateRules>;
};

/** A mutant whose breach is found by exploring a model. */
export const byModel = (rule: NeverId, broken: string, model: () => Model): Mutant => ({
  rule,
  broken,
  model,
  hunt: () => breach(rule, model()),
});

export const breach = (rule: NeverId, model: Model): string | null => {
  const found = explore(model, rule).violations.find((one) => one.rule.startsWith(rule));
  return found === undefined ? null : asStory(found);
};

export const dead = (model: Model, isReady: (state: number) => boolean): string | null => {
  const stuck = cannotReach(model, explore(model), isReady)[0];
  return stuck === undefined ? null : `no way on from ${model.describe(stuck)}`;
};

export const yes = (): boolean => true;
export const no = (): boolean => false;

export const withGate = (rule: NeverId, broken: string, rules: Partial<GateRules>): Mutant => ({
  ...byModel(rule, broken, () =>
    productModel(interlockSpace(), burnerTable(), gateVerdicts({ ...GATE_RULES, ...rules }), READY),
  ),
  rules,
});

export const withBurner = (rule: NeverId, broken: string, breakIt: Parameters<typeof mutant>[1]): Mutant =>
  byModel(rule, broken, () => {
    const table = tableOf(mutant(MACHINES.burner, breakIt));
    return rule === 'NR-07'
      ? productModel(interlockSpace(), table, gateVerdicts(), READY)
      : burnerModel(table);
  });

export const firstOf = (rule: NeverId, breaches: readonly string[]): string | null =>
  breaches.find((one) => one.includes(rule)) ?? null;
