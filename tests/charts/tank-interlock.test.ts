/** The tank interlocks, requirement by requirement; tests/explore visits all their states. */
import { describe, expect, it } from 'vitest';
import { TANK_CAUSES } from '../../machines/charts/tank-interlock/tank-interlock.causes.ts';
import {
  fireBlockedBy,
  heatBlockedBy,
  oilMayBeFired,
  tankMayAskForHeat,
  tankMayBeHeated,
  tankPermissives,
} from '../../machines/charts/tank-interlock/tank-interlock.guards.ts';
import { tankInterlockMachines } from '../../machines/charts/tank-interlock/tank-interlock.machine.ts';
import { drive } from './drive.ts';

const heard = (tank: 'emulsion' | 'cutback'): readonly string[] => [
  `on.${tank}Covered`,
  `off.${tank}OverLimit`,
  'on.oilFlowing',
  `off.${tank}Delivery`,
  `off.${tank}Drawn`,
  `off.${tank}VentHigh`,
  `on.${tank}Known`,
  `on.${tank}Dry`,
  'off.hotWorkOpen',
];
const having = (tank: 'emulsion' | 'cutback', ...events: string[]) =>
  drive(tankInterlockMachines[tank], [...heard(tank), ...events]);

/** The second element says what the edge of each takes away: nothing but the coil, or the oil burner too. */
const CASES = [
  ['TE-01 a bare coil is not heated', 'off.emulsionCovered', false],
  ['TE-02 a tank at its limit is not heated', 'on.emulsionOverLimit', false],
  ['TE-03 without flow there is neither heat nor fire', 'off.oilFlowing', true],
  ['TE-04 a tank being filled is not heated', 'on.emulsionDelivery', false],
  ['TE-05 a fire tube does not heat a tank that is drawn from', 'on.emulsionDrawn', false],
  ['TE-06 vapour at the vents takes heat and fire away', 'on.emulsionVentHigh', true],
  ['TE-07 unknown contents are not heated', 'off.emulsionKnown', false],
  ['TE-08 a tank that has foamed is not heated', 'off.emulsionDry', false],
  ['TE-09 hot work and tank heat exclude each other', 'on.hotWorkOpen', false],
  ['TC-01 a bare coil is not heated', 'off.cutbackCovered', false],
  ['TC-02 a tank at its limit is not heated', 'on.cutbackOverLimit', false],
  ['TC-03 without flow there is neither heat nor fire', 'off.oilFlowing', true],
  ['TC-04 a tank being filled is not heated', 'on.cutbackDelivery', false],
  ['TC-05 a fire tube does not heat a tank that is drawn from', 'on.cutbackDrawn', false],
  ['TC-06 vapour at the vents takes heat and fire away', 'on.cutbackVentHigh', true],
  ['TC-07 unknown contents are not heated', 'off.cutbackKnown', false],
  ['TC-08 water under hot binder is not heated', 'off.cutbackDry', false],
  ['TC-09 hot work and tank heat exclude each other', 'on.hotWorkOpen', false],
] as const;

describe('tank interlocks', () => {
  it.each(CASES)('%s', (name, edge, fireToo) => {
    const id = name.slice(0, 5);
    const tank = id.startsWith('TE') ? 'emulsion' : 'cutback';
    const value = having(tank, edge);
    expect(heatBlockedBy(tank, value)).toEqual([id]);
    expect(tankMayBeHeated(value)).toBe(false);
    expect(oilMayBeFired(value)).toBe(!fireToo);
    expect(fireBlockedBy(tank, value)).toEqual(fireToo ? [id] : []);
    // Flow comes with the heat: it is no reason not to ask for it.
    expect(tankMayAskForHeat(value)).toBe(id.endsWith('03'));
    const back = having(
      tank,
      edge,
      edge.startsWith('on.') ? edge.replace('on.', 'off.') : edge.replace('off.', 'on.'),
    );
    expect(tankMayBeHeated(back)).toBe(true);
  });

  it.each(['emulsion', 'cutback'] as const)('%s: knows nothing at the start, so allows nothing', (tank) => {
    const value = drive(tankInterlockMachines[tank], []);
    expect([tankMayBeHeated(value), tankMayAskForHeat(value), oilMayBeFired(value)]).toEqual([
      false,
      false,
      false,
    ]);
    expect(tankPermissives(tank, value).every((one) => !one.met)).toBe(true);
    expect(tankMayBeHeated(drive(tankInterlockMachines[tank], heard(tank)))).toBe(true);
  });

  it('a value that cannot be read allows nothing', () => {
    for (const value of ['', {}, { cover: 'covered' }])
      expect([tankMayBeHeated(value), tankMayAskForHeat(value), oilMayBeFired(value)]).toEqual([
        false,
        false,
        false,
      ]);
  });

  it('every cause of both tanks has a case here', () => {
    expect(CASES.map(([name]) => name.slice(0, 5))).toEqual(TANK_CAUSES.map((one) => one.id));
  });
});
