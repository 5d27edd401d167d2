/**
 * Every state of the safety charts: any event at any time, any timer at any moment. Counts are recorded, so a
 * change of a chart that changes what can be reached shows here; look at it, then record the new count.
 */

import { describe, expect, it } from 'vitest';
import { getAdjacencyMap } from 'xstate/graph';
import { GATE_RULES } from '../../machines/line/gate.ts';
import { listensTo, tableOf } from './chart-table.ts';
import { burnerTable, interlockSpace, MACHINES } from './charts.ts';
import { asStory, cannotReach, explore } from './explorer.ts';
import { freeGateSweep, gateSweep } from './gate-space.ts';
import { honestPlantModel } from './honest-plant.ts';
import { TASKS } from './models.ts';
import { NEVER } from './never-rules.ts';
import { endlessOffer } from './settling.ts';
import { tankGateSweep } from './tank-models.ts';

const RECORDED: { readonly [model: string]: readonly [states: number, transitions: number] } = {
  'flame interlock': [182_272, 2_679_836],
  burner: [20, 99],
  'burner beside what it last heard': [82, 423],
  'thermal-oil heater': [73, 329],
  'emulsion tank heater': [25, 111],
  'cutback tank heater': [25, 111],
  'flame interlock, regions no trip looks at': [64, 384],
  'emulsion tank interlock × heater × gate': [1728, 18_237],
  'cutback tank interlock × heater × gate': [1728, 18_237],
  alarm: [14, 58],
  'emulsion batch': [130, 488],
  'warmEmulsion batch': [130, 488],
  'cutback batch': [122, 459],
  'drying campaign': [14, 34],
  weigher: [10, 25],
  lot: [4, 7],
  seat: [3, 7],
  'flame interlock × burner × gate': [739_524, 13_634_368],
  'honest plant, hostile demands': [69_842, 922_565],
};

const RULES_OF: { readonly [model: string]: string } = {
  'flame interlock': `NR-08 ${NEVER['NR-08']}; NR-09 ${NEVER['NR-09']}; NR-11 ${NEVER['NR-11']}; NR-18 ${NEVER['NR-18']}; NR-32 ${NEVER['NR-32']}; NR-43 ${NEVER['NR-43']}; NR-44 ${NEVER['NR-44']}`,
  'flame interlock, regions no trip looks at': `NR-30 ${NEVER['NR-30']}; NR-11`,
  'emulsion tank interlock × heater × gate': `NR-33 ${NEVER['NR-33']}; NR-34 ${NEVER['NR-34']}; NR-11`,
  'cutback tank interlock × heater × gate': 'NR-33; NR-34; NR-11',
  burner: `NR-06 ${NEVER['NR-06']}; NR-10 ${NEVER['NR-10']}; NR-37 ${NEVER['NR-37']}; NR-11`,
  'burner beside what it last heard': `NR-55 ${NEVER['NR-55']}`,
  'thermal-oil heater': `NR-13 ${NEVER['NR-13']}; NR-14 ${NEVER['NR-14']}; NR-56 ${NEVER['NR-56']}; NR-11`,
  'emulsion tank heater': `NR-12 ${NEVER['NR-12']}; NR-35 ${NEVER['NR-35']}; NR-11`,
  'cutback tank heater': 'NR-12; NR-35; NR-11',
  'emulsion batch': `NR-20 ${NEVER['NR-20']}; NR-21 ${NEVER['NR-21']}; NR-22 ${NEVER['NR-22']}; NR-23 ${NEVER['NR-23']}; NR-45 ${NEVER['NR-45']}; NR-46 ${NEVER['NR-46']}; NR-47 ${NEVER['NR-47']}; NR-11`,
  'warmEmulsion batch': 'NR-20; NR-21; NR-22; NR-23; NR-45; NR-46; NR-47; NR-11',
  'cutback batch': 'NR-20; NR-21; NR-22; NR-23; NR-45; NR-46; NR-47; NR-11',
  'drying campaign': `NR-24 ${NEVER['NR-24']}; NR-25 ${NEVER['NR-25']}; NR-11`,
  weigher: `NR-26 ${NEVER['NR-26']}; NR-27 ${NEVER['NR-27']}; NR-11`,
  lot: `NR-28 ${NEVER['NR-28']}`,
  seat: `NR-29 ${NEVER['NR-29']}; NR-11`,
  alarm: `NR-17 ${NEVER['NR-17']}; NR-54 ${NEVER['NR-54']}; NR-11`,
  'flame interlock × burner × gate': `NR-01 ${NEVER['NR-01']}; NR-02 to NR-06; NR-18; NR-19; NR-31 ${NEVER['NR-31']}; NR-32; NR-07 ${NEVER['NR-07']}`,
  'honest plant, hostile demands': `NR-16 ${NEVER['NR-16']}`,
};

describe('all states of the safety charts', () => {
  for (const task of TASKS) {
    const model = task.build();
    it(`${model.name}: ${RULES_OF[model.name]}`, { timeout: 120_000 }, () => {
      const explored = explore(model);
      expect(explored.violations.map(asStory)).toEqual([]);
      if (task.ready !== null)
        expect(cannotReach(model, explored, task.ready).slice(0, 3).map(model.describe)).toEqual([]);
      expect([explored.states, explored.transitions]).toEqual(RECORDED[model.name]);
    });
  }

  it.each([
    ['flameSeen', true],
    ['flameSeen', false],
    ['fuelShut', true],
    ['fuelShut', false],
    ['binderValveShut', true],
    ['binderValveShut', false],
  ] as const)(
    'NR-16 holds with any one sensor lying: %s always says %s',
    { timeout: 120_000 },
    (signal, says) => {
      const model = honestPlantModel(interlockSpace(), burnerTable(), GATE_RULES, { signal, says });
      expect(explore(model).violations.map(asStory)).toEqual([]);
    },
  );

  it('the honest plant really works: it burns, and at other times cutback runs into the pug mill', () => {
    const model = honestPlantModel(interlockSpace(), burnerTable());
    const told = [...explore(model).order].filter((_, index) => index % 7 === 0).map(model.describe);
    expect(told.some((one) => /^flame, fuel open.*"running"/.test(one))).toBe(true);
    expect(told.some((one) => /cutback in pug mill, binder valve open/.test(one))).toBe(true);
  }, 120_000);

  it('gate in every state of the interlock there could be: NR-01, NR-02, NR-03, NR-04, NR-05, NR-06, NR-18, NR-19, NR-31, NR-32', () => {
    const { judged, breaches } = gateSweep();
    expect(breaches.slice(0, 3)).toEqual([]);
    expect(judged).toBe(172_800);
  }, 120_000);

  it('gate beside every state of the regions no trip looks at: NR-04, NR-30', () => {
    const { judged, breaches } = freeGateSweep();
    expect(breaches.slice(0, 3)).toEqual([]);
    expect(judged).toBe(69_696);
  }, 120_000);

  it('gate beside every state of both tank interlocks: NR-33, NR-34', () => {
    const { judged, breaches } = tankGateSweep();
    expect(breaches.slice(0, 3)).toEqual([]);
    expect(judged).toBe(512 * 512);
  }, 120_000);

  for (const name of ['burner', 'oilHeater', 'emulsionTank', 'cutbackTank'] as const)
    it(`NR-15 ${NEVER['NR-15']}: ${name}`, () => {
      expect(endlessOffer(tableOf(MACHINES[name]))).toBeNull();
    });
});

describe('the explorer agrees with the graph XState draws, timers included', () => {
  it('burner: as many states', () => {
    const table = burnerTable();
    const map = getAdjacencyMap(MACHINES.burner, {
      events: (snapshot) => listensTo(snapshot as never).map((type) => ({ type }) as never),
    });
    expect(Object.keys(map)).toHaveLength(table.names.length);
  });

  it.each(['emulsionTankInterlock', 'cutbackTankInterlock'] as const)('%s: as many states', (name) => {
    const map = getAdjacencyMap(MACHINES[name], {
      events: (snapshot) => listensTo(snapshot as never).map((type) => ({ type }) as never),
    });
    const table = tableOf(MACHINES[name], 600);
    expect(Object.keys(map)).toHaveLength(table.names.length);
    expect(table.names).toHaveLength(512);
    // As many ways on as well: every one of its nine regions can turn in every state.
    const ways = Object.values(map).map(({ transitions }) => Object.keys(transitions).length);
    expect(new Set(ways)).toEqual(new Set([9]));
  });

  it('burner: without its timers XState finds fewer, so the timers do count', () => {
    const map = getAdjacencyMap(MACHINES.burner, {
      events: burnerTable()
        .events.filter((type) => !type.startsWith('xstate.'))
        .map((type) => ({ type }) as never),
    });
    expect(Object.keys(map).length).toBeLessThan(burnerTable().names.length);
  });
});
