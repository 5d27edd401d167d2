/** Each safeguard of the burner and each lockout of the oil heater gone: every arrow into its state left out, every purge skipped. */
import type { AnyStateMachine } from 'xstate';
import { SAFEGUARDS, type Safeguard } from '../../../machines/charts/burner/burner.safeguards.ts';
import { tableOf } from '../chart-table.ts';
import { MACHINES } from '../charts.ts';
import { asStory, explore } from '../explorer.ts';
import { mutant, type Node } from '../mutant.ts';
import { burnerModel } from '../product-model.ts';
import { oilModel } from '../small-models.ts';
import { burnerWatchModel } from './burner-watch.ts';
import { unreached } from './drawn-states.ts';
import { type Kill, killOf, type Mutation } from './mutation.ts';

type Arrows = { [event: string]: unknown };

/** Every arrow of a chart whose target ends so is dropped, or led elsewhere. */
const rewired = (machine: AnyStateMachine, ending: string, instead: string | null): AnyStateMachine =>
  mutant(machine, (at) => {
    const walk = (node: Node): void => {
      for (const arrows of [node.on, node.after] as (Arrows | undefined)[])
        for (const [event, target] of Object.entries(arrows ?? {}))
          if (typeof target === 'string' && (target === ending || target.endsWith(`.${ending}`))) {
            if (instead === null) delete arrows?.[event];
            else (arrows as Arrows)[event] = instead;
          }
      for (const child of Object.values(node.states ?? {})) walk(child);
    };
    for (const name of Object.keys(machine.config.states ?? {})) walk(at(name));
  });

export const huntBurner = (machine: AnyStateMachine): Kill | null => {
  const table = tableOf(machine);
  for (const model of [burnerModel(table), burnerWatchModel(table)]) {
    const [found] = explore(model, 'NR-').violations;
    if (found !== undefined) return killOf(asStory(found));
  }
  return null;
};

const burnerMutation = ({ id, holdsIn }: Safeguard): Mutation => {
  const [top, leaf] = holdsIn;
  const machine =
    leaf === undefined
      ? rewired(MACHINES.burner, top, top === 'purging' ? '#burner.pilotTrial' : '#burner.off')
      : rewired(MACHINES.burner, `${top}.${leaf}`, null);
  return {
    of: `safeguard ${id}`,
    broken: leaf === undefined ? `${top} is skipped` : `the burner never locks out for ${leaf}`,
    hunt: () => huntBurner(machine),
  };
};

export const huntOil = (machine: AnyStateMachine): Kill | null => {
  const table = tableOf(machine);
  const [found] = explore(oilModel(table), 'NR-').violations;
  if (found !== undefined) return killOf(asStory(found));
  const [lost] = unreached(machine, table);
  return lost === undefined ? null : killOf(`NR-48 ${lost} of ${machine.id} can no longer be reached`);
};

const OIL_LOCKOUTS = Object.keys(
  (MACHINES.oilHeater.config as { states: { lockedOut: Node } }).states.lockedOut.states ?? {},
);

export const LOCKOUT_MUTATIONS: readonly Mutation[] = [
  ...SAFEGUARDS.map((one) => burnerMutation(one as Safeguard)),
  ...OIL_LOCKOUTS.map(
    (leaf): Mutation => ({
      of: `lockout oilHeater ${leaf}`,
      broken: `the oil heater never locks out for ${leaf}`,
      hunt: () => huntOil(rewired(MACHINES.oilHeater, `lockedOut.${leaf}`, null)),
    }),
  ),
];
