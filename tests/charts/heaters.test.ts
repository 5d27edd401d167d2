/** Thermal-oil heater and tank heaters. */
import { describe, expect, it } from 'vitest';
import { heaterIsLockedOut, oilHeaterDemands } from '../../machines/charts/oil-heater/oil-heater.guards.ts';
import { oilHeaterMachine } from '../../machines/charts/oil-heater/oil-heater.machine.ts';
import {
  heatIsWanted,
  tankHeaterDemands,
  tankHeating,
} from '../../machines/charts/tank-heater/tank-heater.guards.ts';
import { tankHeaterMachines } from '../../machines/charts/tank-heater/tank-heater.machine.ts';
import { tableOf } from '../explore/chart-table.ts';
import { MACHINES } from '../explore/charts.ts';
import { drive } from './drive.ts';

const oil = (...events: string[]) => drive(oilHeaterMachine, events);
const TO_FLOW = ['on.heatWanted', 'off.tripped', 'off.oilOverLimit'];
const TO_HOT = [...TO_FLOW, 'on.oilFlowing'];
const TO_LIGHTING = [...TO_HOT, 'off.oilHot'];
const TO_BURNING = [...TO_LIGHTING, 'on.oilFlameSeen'];

describe('thermal-oil heater', () => {
  it('fires only after no trip, oil below its limit and flow were heard', () => {
    expect(oil(...TO_FLOW)).toBe('startingFlow');
    expect(oil(...TO_HOT)).toBe('hot');
    expect(oil(...TO_LIGHTING)).toEqual({ firing: 'lighting' });
    expect(oil(...TO_BURNING)).toEqual({ firing: 'burning' });
    expect(oil(...TO_BURNING, 'on.oilHot')).toBe('hot');
  });

  it('runs its pump on when heat is no longer wanted, then rests', () => {
    expect(oil(...TO_BURNING, 'off.heatWanted')).toBe('runningOn');
    expect(oil(...TO_BURNING, 'off.heatWanted', 'xstate.after.pumpRunsOn.oilHeater.runningOn')).toBe('off');
  });

  it.each([
    ['no flow in time', [...TO_FLOW, 'xstate.after.flowStarts.oilHeater.startingFlow'], 'noFlow', false],
    ['flow lost while firing', [...TO_BURNING, 'off.oilFlowing'], 'flowLost', false],
    ['flow lost between firings', [...TO_HOT, 'off.oilFlowing'], 'flowLost', false],
    ['oil over its limit', [...TO_BURNING, 'on.oilOverLimit'], 'overLimit', true],
    [
      'no flame in time',
      [...TO_LIGHTING, 'xstate.after.oilTrial.oilHeater.firing.lighting'],
      'noFlame',
      true,
    ],
    ['flame lost', [...TO_BURNING, 'off.oilFlameSeen'], 'flameLost', true],
  ])('locks out on %s until reset; the pump runs on where it can cool', (_why, events, cause, pump) => {
    const value = oil(...events);
    expect(value).toEqual({ lockedOut: cause });
    expect(heaterIsLockedOut(value)).toBe(true);
    expect(oilHeaterDemands(value)).toEqual({ oilPump: pump, oilBurner: false });
    expect(oil(...events, 'on.heatWanted', 'off.heatWanted')).toEqual({ lockedOut: cause });
    expect(oil(...events, 'operator.resetHeater')).toBe('off');
  });

  it('stops firing on a trip, keeps the oil moving and goes on by itself after the reset', () => {
    expect(oil(...TO_BURNING, 'on.tripped')).toBe('waitingForTrip');
    expect(oilHeaterDemands('waitingForTrip')).toEqual({ oilPump: true, oilBurner: false });
    expect(oil(...TO_BURNING, 'on.tripped', 'off.tripped', 'off.oilOverLimit')).toBe('startingFlow');
  });

  it('asks for fire in its firing states and no others, never without the pump', () => {
    for (const value of tableOf(MACHINES.oilHeater).values) {
      const { oilPump, oilBurner } = oilHeaterDemands(value);
      expect(oilBurner).toBe(typeof value === 'object' && 'firing' in value);
      if (oilBurner) expect(oilPump).toBe(true);
    }
  });
});

describe.each(['emulsion', 'cutback'] as const)('%s tank heater', (tank) => {
  const at = (...events: string[]) => drive(tankHeaterMachines[tank], events);
  const heating = [
    'operator.heatOn',
    `on.${tank}Covered`,
    `off.${tank}OverLimit`,
    `on.${tank}MayHeat`,
    'on.oilFlowing',
  ];

  it('opens its coil once cover, a temperature below the limit, the tank interlock and moving oil were heard', () => {
    expect(at()).toBe('off');
    expect(at(...heating.slice(0, 1))).toEqual({ held: 'coilBare' });
    expect(at(...heating.slice(0, 2))).toEqual({ held: 'overLimit' });
    expect(at(...heating.slice(0, 3))).toEqual({ held: 'forbidden' });
    expect(at(...heating.slice(0, 4))).toBe('wanted');
    expect(at(...heating)).toBe('heating');
  });

  it('holds at its set temperature and heats again when it has cooled', () => {
    expect(at(...heating, `on.${tank}Warm`)).toBe('atSet');
    expect(at(...heating, `on.${tank}Warm`, `off.${tank}Warm`)).toBe('wanted');
  });

  it('shuts its coil when cover goes, the limit is passed, oil stops or heat is switched off', () => {
    expect(at(...heating, `off.${tank}Covered`)).toEqual({ held: 'coilBare' });
    expect(at(...heating, `on.${tank}OverLimit`)).toEqual({ held: 'overLimit' });
    expect(at(...heating, `off.${tank}MayHeat`)).toEqual({ held: 'forbidden' });
    expect(at(...heating, 'off.oilFlowing')).toBe('wanted');
    expect(at(...heating, 'operator.heatOff')).toBe('off');
  });

  it('hears nothing of the other tank', () => {
    const other = tank === 'emulsion' ? 'cutback' : 'emulsion';
    expect(at(...heating, `off.${other}Covered`, `on.${other}OverLimit`, `on.${other}Warm`)).toBe('heating');
  });

  it('asks for coil and stirrer while heating only', () => {
    const shut = { [`${tank}Coil`]: false, [`${tank}Stir`]: false };
    const open = { [`${tank}Coil`]: true, [`${tank}Stir`]: true };
    for (const value of tableOf(MACHINES[`${tank}Tank`]).values)
      expect(tankHeaterDemands(tank, value)).toEqual(value === 'heating' ? open : shut);
  });
});

describe('what a tank heater says of itself', () => {
  it.each([
    ['off', 'off', false],
    [{ held: 'coilBare' }, 'held', false],
    [{ held: 'overLimit' }, 'held', false],
    [{ held: 'forbidden' }, 'held', false],
    ['wanted', 'wanted', true],
    ['heating', 'heating', true],
    ['atSet', 'at set', false],
  ] as const)('%j is "%s", wants oil: %s', (value, word, wants) => {
    expect(tankHeating(value)).toBe(word);
    expect(heatIsWanted(value)).toBe(wants);
  });
});
