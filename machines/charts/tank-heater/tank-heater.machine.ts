/**
 * The heater of one binder tank: its coil valve opens only after cover over the coil, a temperature below the
 * limit, the word of the tank interlock and moving oil have been heard in turn, and shuts when any of them goes.
 */
import { setup } from 'xstate';
import type { StateMeta } from '../signals.ts';
import type { TankHeaterEvent, TankId } from './tank-heater.events.ts';

const tankHeaterOf = <T extends TankId>(tank: T) => {
  const covered = `on.${tank}Covered` as const;
  const bare = `off.${tank}Covered` as const;
  const tooHot = `on.${tank}OverLimit` as const;
  const notTooHot = `off.${tank}OverLimit` as const;
  const warm = `on.${tank}Warm` as const;
  const notWarm = `off.${tank}Warm` as const;
  const allowed = `on.${tank}MayHeat` as const;
  const forbidden = `off.${tank}MayHeat` as const;
  return setup({ types: {} as { events: TankHeaterEvent; meta: StateMeta } }).createMachine({
    id: `${tank}Tank`,
    initial: 'off',
    states: {
      off: {
        meta: { title: 'Tank not heated' },
        on: { 'operator.heatOn': 'held' },
      },
      held: {
        meta: { title: 'Heating held' },
        initial: 'coilBare',
        on: { 'operator.heatOff': 'off' },
        states: {
          coilBare: {
            meta: {
              title: 'Held: too little binder over the coil',
              instruction: 'Fill the tank above its coil; a bare coil burns the binder.',
            },
            on: { [covered]: 'overLimit' },
          },
          overLimit: {
            meta: {
              title: 'Held: tank above the temperature it may not pass',
              instruction: 'Let the tank cool.',
            },
            on: { [bare]: 'coilBare', [notTooHot]: 'forbidden' },
          },
          forbidden: {
            meta: {
              title: 'Held by the tank interlock',
              instruction: 'See under Tanks what stands against heat, and clear it.',
            },
            on: { [bare]: 'coilBare', [tooHot]: 'overLimit', [allowed]: `#${tank}Tank.wanted` },
          },
        },
      },
      wanted: {
        meta: { title: 'Heat wanted; waiting for moving oil' },
        on: {
          'operator.heatOff': 'off',
          [bare]: 'held.coilBare',
          [tooHot]: 'held.overLimit',
          [forbidden]: 'held.forbidden',
          'on.oilFlowing': 'heating',
        },
      },
      heating: {
        meta: { title: 'Heating: coil valve open' },
        on: {
          'operator.heatOff': 'off',
          [bare]: 'held.coilBare',
          [tooHot]: 'held.overLimit',
          [forbidden]: 'held.forbidden',
          'off.oilFlowing': 'wanted',
          [warm]: 'atSet',
        },
      },
      atSet: {
        meta: { title: 'Tank at its set temperature' },
        on: {
          'operator.heatOff': 'off',
          [bare]: 'held.coilBare',
          [tooHot]: 'held.overLimit',
          [forbidden]: 'held.forbidden',
          [notWarm]: 'wanted',
        },
      },
    },
  });
};

export const tankHeaterMachines = { emulsion: tankHeaterOf('emulsion'), cutback: tankHeaterOf('cutback') };
