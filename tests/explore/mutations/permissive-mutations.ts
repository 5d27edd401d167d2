/** Each permissive of the flame interlock taken for met, in all of its states and in each single one, and dropped from each of its lists. */
import { PERMISSIVES } from '../../../machines/charts/flame-interlock/flame-interlock.permissives.ts';
import {
  REGIONS,
  type Region,
  type Situation,
} from '../../../machines/charts/flame-interlock/flame-interlock.regions.ts';
import { gate } from '../../../machines/line/gate.ts';
import { withChanged } from './changed.ts';
import { huntGate } from './gate-hunt.ts';
import { huntLighting, huntPermitted } from './lighting-hunt.ts';
import type { Mutation } from './mutation.ts';
import { rulesDiffer } from './rule-functions.ts';

type Permissive = (typeof PERMISSIVES)[number];

const hunted = (one: Permissive, metWhen: unknown, broken: string): Mutation => {
  const changed = <R>(run: () => R): R => withChanged(one, 'metWhen', metWhen, run);
  return {
    of: `permissive ${one.id}`,
    broken,
    hunt: () => changed(() => huntPermitted() ?? (one.onlyToLight ? huntLighting() : null) ?? huntGate(gate)),
    differs: () => rulesDiffer(changed),
    proofFirst: true,
  };
};

/** Each state in which the permissive is not met, taken for one in which it is. */
const widened = (one: Permissive): readonly Mutation[] => {
  const [situation, ...more] = one.metWhen as readonly Situation[];
  const regions = Object.entries(situation ?? {}) as [Region, readonly string[]][];
  if (more.length > 0 || regions.length !== 1)
    throw new Error(`${one.id} looks at more than one region: say here how it is widened`);
  return regions.flatMap(([region, states]) =>
    REGIONS[region]
      .filter((state) => !states.includes(state))
      .map((state) =>
        hunted(one, [{ [region]: [...states, state] }], `${one.id} taken for met with ${region} ${state}`),
      ),
  );
};

export const PERMISSIVE_MUTATIONS: readonly Mutation[] = PERMISSIVES.flatMap((one) => [
  hunted(one, [{}], `${one.id} always met`),
  ...widened(one),
]);
