/** Items of the plant against the closed forms of the physics they claim. */
import { Solver } from 'odex';
import { describe, expect, it } from 'vitest';
import { AT_REST } from '../../machines/field/outputs.ts';
import { cooledC, coolingTauS } from '../../machines/mix/newton-cooling.ts';
import { heatKjPerK } from '../../machines/plant/aggregate.ts';
import { COLD_BURNER, stepBurnerFlame } from '../../machines/plant/burner-flame.ts';
import { EMPTY_HOLDING_BIN, stepHoldingBin } from '../../machines/plant/holding-bin.ts';
import { createHood, stepHood } from '../../machines/plant/hood.ts';
import { cellMatrix, HOPPER_CELL, STILL_CELL, stepLoadCell } from '../../machines/plant/load-cell.ts';
import { ALL_BIN_1 } from '../../machines/plant/sizes.ts';
import { stepTank } from '../../machines/plant/tank.ts';
import { OIL_CP_KJ_KG_K, stepThermalOil } from '../../machines/plant/thermal-oil.ts';
import { demoPlant, demoSpec } from './demo.ts';

describe('holding bin', () => {
  it('cools by Newton’s law with the fan at full speed, to 1e-6 K over 50 minutes', () => {
    const heap = { stoneKg: 10_000, waterKg: 20, drinkKg: 50, tempC: 105, sizes: ALL_BIN_1 };
    let bin = { ...EMPTY_HOLDING_BIN, heap, fanShare: 1 };
    const nothing = { stoneKg: 0, waterKg: 0, drinkKg: 0, tempC: 0, sizes: ALL_BIN_1 };
    for (let i = 0; i < 30_000; i += 1)
      bin = stepHoldingBin(bin, demoSpec.holdingBin, 'shut', true, nothing, 18, false);
    const tauS = coolingTauS(1, heatKjPerK(heap), demoSpec.holdingBin.fanWPerK);
    expect(bin.heap.tempC).toBeCloseTo(cooledC(105, 18, tauS, 3000), 6);
  });
});

describe('hood', () => {
  it('is washed out as e^-N after N volumes', () => {
    const spec = demoSpec.hood;
    const flowM3S = spec.fanM3S + spec.leakM3S;
    let hood = { ...createHood(18), flowM3S: spec.fanM3S, vapourKg: 0.2 };
    for (let i = 1; i <= 200; i += 1) {
      hood = stepHood(hood, spec, true, 0);
      const volumes = (flowM3S * i * 0.1) / spec.volumeM3;
      expect(hood.vapourKg / 0.2).toBeCloseTo(Math.exp(-volumes), 10);
    }
  });

  it('with a source follows dM/dt = k(c* − M/V) − Q·M/V as an independent solver (odex) does', () => {
    const spec = demoSpec.hood;
    const exchangeM3S = 0.2;
    const saturatedKgM3 = 0.012;
    const out = spec.fanM3S + spec.leakM3S;
    let hood = { ...createHood(18), flowM3S: spec.fanM3S, exchangeM3S, saturatedKgM3, vapourKg: 0 };
    let gone = 0;
    for (let i = 0; i < 120; i += 1) {
      hood = stepHood(hood, spec, true, 100);
      gone += hood.evaporatedKg;
    }
    // second unknown: solvent that has left the mix
    const solver = new Solver(2);
    solver.absoluteTolerance = 1e-12;
    solver.relativeTolerance = 1e-12;
    const rate = (_t: number, [m = 0]: number[]): number[] => {
      const leaves = exchangeM3S * (saturatedKgM3 - m / spec.volumeM3);
      return [leaves - (out * m) / spec.volumeM3, leaves];
    };
    const [vapourKg, goneKg] = solver.solve(rate, 0, [0, 0], 12).y;
    expect(hood.vapourKg).toBeCloseTo(vapourKg as number, 9);
    expect(gone).toBeCloseTo(goneKg as number, 9);
  });

  it('settles at source over flow: k·c*/(k + Q)', () => {
    const spec = demoSpec.hood;
    let hood = { ...createHood(18), flowM3S: spec.fanM3S, exchangeM3S: 0.2, saturatedKgM3: 0.012 };
    for (let i = 0; i < 3000; i += 1) hood = stepHood(hood, spec, true, 100);
    const c = (0.2 * 0.012) / (0.2 + spec.fanM3S + spec.leakM3S);
    expect(hood.vapourKg / spec.volumeM3).toBeCloseTo(c, 9);
  });
});

describe('drum', () => {
  it('loses unburnt fuel as e^-N: 1.83 % is left after 4 volumes, 0.67 % after 5', () => {
    const spec = demoSpec.dryer;
    let burner = { ...COLD_BURNER, unburntKg: 1 };
    const stepsPerVolume = spec.drumVolumeM3 / spec.fanM3S / 0.1;
    const left: number[] = [];
    for (let i = 1; i <= Math.ceil(5 * stepsPerVolume); i += 1) {
      burner = stepBurnerFlame(burner, AT_REST, spec, spec.fanM3S, false, false);
      left.push(burner.unburntKg);
      const volumes = (spec.fanM3S * i * 0.1) / spec.drumVolumeM3;
      expect(burner.unburntKg).toBeCloseTo(Math.exp(-volumes), 10);
    }
    expect(left[Math.round(4 * stepsPerVolume) - 1]).toBeCloseTo(0.0183, 3);
    expect(left[Math.round(5 * stepsPerVolume) - 1]).toBeCloseTo(0.0067, 3);
  });
});

describe('binder tank', () => {
  it('follows its heat balance: an exponential towards (coil·oil + loss·air)/(coil + loss)', () => {
    const start = demoPlant();
    const spec = demoSpec.tanks.cutback;
    let tank = { ...start.cutbackTank, stirShare: 1 };
    const cp = tank.seen.cpKjKgK;
    for (let i = 0; i < 36_000; i += 1)
      // tick 1 every step: the looked-up heat capacity stays as it was
      tank = stepTank(tank, spec, start.cutback, 1, 0, 170, 1, true, 18);
    const sum = spec.coilWPerK + spec.lossWPerK;
    const endC = (spec.coilWPerK * 170 + spec.lossWPerK * 18) / sum;
    const tauS = (spec.startMassKg * cp * 1000) / sum;
    expect(tank.tempC).toBeCloseTo(endC + (spec.startC - endC) * Math.exp(-3600 / tauS), 3);
  });
});

describe('thermal oil', () => {
  it('heats as its lumped balance says and its limiter cuts the fire', () => {
    const spec = demoSpec.oilHeater;
    let oil = demoPlant().oil;
    for (let i = 0; i < 30; i += 1) oil = stepThermalOil(oil, spec, true, true, 0, 18, false);
    const from = oil;
    for (let i = 0; i < 6000; i += 1) oil = stepThermalOil(oil, spec, true, true, 0, 18, false);
    const tauS = (spec.oilKg * OIL_CP_KJ_KG_K * 1000) / spec.lossWPerK;
    const endC = 18 + (spec.powerKw * 1000) / spec.lossWPerK;
    expect(oil.tempC).toBeCloseTo(endC + (from.tempC - endC) * Math.exp(-600 / tauS), 1);
    for (let i = 0; i < 72_000; i += 1) oil = stepThermalOil(oil, spec, false, true, 0, 18, false);
    expect(oil.tempC).toBeLessThan(301);
  });
});

describe('load cell', () => {
  it('answers a step as y = 1 − e^(−ζωt)(cos ω_d t + ζω/ω_d sin ω_d t)', () => {
    const [omega, zeta] = [7.5, 0.45];
    const matrix = cellMatrix(omega, zeta);
    const damped = omega * Math.sqrt(1 - zeta * zeta);
    let cell = STILL_CELL;
    for (let i = 1; i <= 30; i += 1) {
      cell = stepLoadCell(cell, matrix, 100);
      const t = i * 0.1;
      const y =
        1 -
        Math.exp(-zeta * omega * t) *
          (Math.cos(damped * t) + ((zeta * omega) / damped) * Math.sin(damped * t));
      expect(cell.kg).toBeCloseTo(100 * y, 6);
    }
  });

  it('overshoots, then rests exactly on its load', () => {
    let cell = STILL_CELL;
    let most = 0;
    for (let i = 0; i < 200; i += 1) {
      cell = stepLoadCell(cell, HOPPER_CELL, 700);
      most = Math.max(most, cell.kg);
    }
    expect(most).toBeGreaterThan(730);
    expect(cell).toEqual({ kg: 700, kgPerS: 0 });
    expect(stepLoadCell(cell, HOPPER_CELL, 700)).toBe(cell);
  });
});
