/** Each named guard of each chart but the flame interlock, always true and always false. */
import type { AnyStateMachine } from 'xstate';
import type { BatchKind } from '../../../machines/charts/batch/batch.guards.ts';
import { tableOf } from '../chart-table.ts';
import { MACHINES } from '../charts.ts';
import { asStory, cannotReach, explore } from '../explorer.ts';
import { alarmModel } from '../small-models.ts';
import { batchModel } from '../work-models.ts';
import { unreached } from './drawn-states.ts';
import { type Kill, killOf, type Mutation } from './mutation.ts';

const BATCHES = {
  emulsionBatch: 'emulsion',
  warmEmulsionBatch: 'warmEmulsion',
  cutbackBatch: 'cutback',
} as const satisfies { readonly [name: string]: BatchKind };

export const guardsOf = (machine: AnyStateMachine): readonly string[] =>
  Object.keys(machine.implementations.guards ?? {});

/** The charts whose guards are broken here; the flame interlock's are among the trips. */
export const GUARDED = (Object.keys(MACHINES) as (keyof typeof MACHINES)[]).filter(
  (name) => name !== 'interlock' && guardsOf(MACHINES[name]).length > 0,
);

export const huntBatch = (name: keyof typeof BATCHES, machine: AnyStateMachine): Kill | null => {
  const table = tableOf(machine, 2000);
  const model = batchModel(BATCHES[name], table);
  const explored = explore(model, 'NR-');
  const [found] = explored.violations;
  if (found !== undefined) return killOf(asStory(found));
  const [stuck] = cannotReach(model, explored, (state) => state === 0);
  if (stuck !== undefined) return killOf(`NR-11 no way on from ${model.describe(stuck)}`);
  const [lost] = unreached(machine, table);
  return lost === undefined ? null : killOf(`NR-48 ${lost} of ${machine.id} can no longer be reached`);
};

export const huntAlarm = (machine: AnyStateMachine): Kill | null => {
  const table = tableOf(machine, 2000);
  const model = alarmModel(table);
  const explored = explore(model, 'NR-');
  const [found] = explored.violations;
  if (found !== undefined) return killOf(asStory(found));
  const [stuck] = cannotReach(model, explored, (state) => state === 0);
  if (stuck !== undefined) return killOf(`NR-11 no way on from ${model.describe(stuck)}`);
  const [lost] = unreached(machine, table);
  return lost === undefined ? null : killOf(`NR-48 ${lost} of ${machine.id} can no longer be reached`);
};

export const GUARD_MUTATIONS: readonly Mutation[] = GUARDED.flatMap((name) =>
  guardsOf(MACHINES[name]).flatMap((guard) =>
    [true, false].map((answer): Mutation => {
      const machine = MACHINES[name].provide({ guards: { [guard]: () => answer } } as never);
      return {
        of: `guard ${MACHINES[name].id} ${guard} ${answer}`,
        broken: `${guard}: always ${answer ? 'yes' : 'no'}`,
        hunt: () => {
          if (name === 'alarm') return huntAlarm(machine as AnyStateMachine);
          if (!(name in BATCHES)) throw new Error(`${name} has guards now: say here how it is hunted`);
          return huntBatch(name as keyof typeof BATCHES, machine as AnyStateMachine);
        },
      };
    }),
  ),
);
