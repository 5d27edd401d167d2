/** The pug mill by itself: heat of mixing, water, coating, breaking, wear, motor. */
import { describe, expect, it } from 'vitest';
import { STONE_CP_KJ_KG_K, WATER_CP_KJ_KG_K } from '../../machines/mix/published.ts';
import {
  type Arrivals,
  createPugMill,
  mixKgOf,
  NO_ARRIVALS,
  type PugMill,
} from '../../machines/plant/mill-contents.ts';
import { motorA, stepPugMill } from '../../machines/plant/pug-mill.ts';
import { ALL_BIN_1 } from '../../machines/plant/sizes.ts';
import { MAIN_WATER_C } from '../../machines/plant/water.ts';
import { demoPlant, demoSpec } from './demo.ts';

const { emulsion, cutback } = demoPlant();
const SPEC = demoSpec.mixer;
/** Walls that lose nothing, to see the mixing alone. */
const LAGGED = { ...SPEC, wallWPerK: 1e-12 };

const stone = (stoneKg: number, waterKg: number, drinkKg: number, tempC: number): Arrivals => ({
  ...NO_ARRIVALS,
  fromHopper: { stoneKg, waterKg, drinkKg, tempC, sizes: ALL_BIN_1 },
});

const turned = (
  mill: PugMill,
  seconds: number,
  first: Arrivals = NO_ARRIVALS,
  spec = SPEC,
  airC = 18,
): PugMill => {
  let next = mill;
  for (let i = 1; i <= seconds * 10; i += 1)
    next = stepPugMill(next, spec, i, i === 1 ? first : NO_ARRIVALS, emulsion, cutback, 0, true, false, airC);
  return next;
};

describe('heat of mixing', () => {
  it('stone and water meet at Σ m·c·T / Σ m·c', () => {
    const hot = turned(createPugMill(18), 0.1, stone(700, 0, 0, 60), LAGGED);
    const mixed = turned(hot, 0.1, { ...NO_ARRIVALS, waterKg: 15 }, LAGGED);
    const stoneKj = 700 * STONE_CP_KJ_KG_K;
    const waterKj = 15 * WATER_CP_KJ_KG_K;
    expect(mixed.tempC).toBeCloseTo((stoneKj * 60 + waterKj * MAIN_WATER_C) / (stoneKj + waterKj), 6);
  });

  it('hot cutback warms the stone by a few degrees', () => {
    const dry = turned(createPugMill(18), 0.1, stone(710, 0, 0, 50), LAGGED);
    const mixed = turned(dry, 0.1, { ...NO_ARRIVALS, cutbackKg: 39, binderC: 82 }, LAGGED);
    expect(mixed.tempC - dry.tempC).toBeGreaterThan(2);
    expect(mixed.tempC - dry.tempC).toBeLessThan(6);
  });

  it('cools through its walls as wall conductance over heat capacity says', () => {
    const dry = turned(createPugMill(18), 0.1, stone(700, 0, 0, 60));
    const later = turned(dry, 120);
    const tauS = (700 * STONE_CP_KJ_KG_K * 1000) / SPEC.wallWPerK;
    expect(later.tempC).toBeCloseTo(18 + (dry.tempC - 18) * Math.exp(-120 / tauS), 3);
  });
});

describe('water', () => {
  it('is drunk by thirsty stone up to what it can hold, the rest stays free', () => {
    const damp = turned(createPugMill(18), 0.1, stone(700, 0, 5, 18));
    const soon = turned(damp, 5, { ...NO_ARRIVALS, waterKg: 12 });
    expect(soon.absorbedKg).toBeGreaterThan(0.5);
    expect(soon.absorbedKg).toBeLessThan(3);
    const later = turned(soon, 300);
    expect(later.absorbedKg).toBeCloseTo(5, 3);
    expect(later.freeKg).toBeCloseTo(7, 3);
  });

  it('beyond what the mix can hold runs off and is counted', () => {
    let mill = turned(createPugMill(18), 0.1, stone(200, 0, 0, 18));
    mill = turned(mill, 0.1, { ...NO_ARRIVALS, waterKg: 60 });
    let ranOffKg = mill.runOffKg;
    for (let i = 0; i < 600; i += 1) {
      mill = stepPugMill(mill, SPEC, 1, NO_ARRIVALS, emulsion, cutback, 0, true, false, 18);
      ranOffKg += mill.runOffKg;
    }
    expect(mill.freeKg).toBeLessThan(20);
    expect(mill.freeKg + ranOffKg).toBeCloseTo(60, 9);
  });
});

const emulsionMix = (freeKg: number, tempC: number, seconds: number): PugMill => {
  const wet = turned(createPugMill(18), 0.1, stone(690, freeKg, 0, tempC));
  return turned(wet, seconds, { ...NO_ARRIVALS, emulsionKg: 51, binderC: tempC });
};
const cutbackMix = (tempC: number, seconds: number, more: Partial<Arrivals> = {}): PugMill => {
  const dry = turned(createPugMill(18), 0.1, stone(710, 0, 0, tempC));
  const damp = turned(dry, 0.1, { ...NO_ARRIVALS, antiStripKg: 0.3, ...more });
  return turned(damp, seconds, { ...NO_ARRIVALS, cutbackKg: 39, binderC: tempC });
};

describe('coating', () => {
  it('grows with time and is better on damp stone than on dry stone, for emulsion', () => {
    expect(emulsionMix(9, 18, 20).coatedShare).toBeLessThan(emulsionMix(9, 18, 60).coatedShare);
    expect(emulsionMix(9, 18, 60).coatedShare).toBeGreaterThan(0.93);
    expect(emulsionMix(0, 18, 60).coatedShare).toBeLessThan(emulsionMix(9, 18, 60).coatedShare - 0.03);
  });

  it('is slower with a cold, thick cutback and on wet stone', () => {
    const normal = cutbackMix(52, 60).coatedShare;
    expect(cutbackMix(20, 60).coatedShare).toBeLessThan(normal - 0.1);
    expect(cutbackMix(52, 60, { waterKg: 14 }).coatedShare).toBeLessThan(normal - 0.1);
    expect(cutbackMix(52, 60, { antiStripKg: 0 }).coatedShare).toBeLessThan(normal);
  });

  it('stops growing while the mill stands', () => {
    const mixed = emulsionMix(9, 18, 20);
    let still = mixed;
    for (let i = 0; i < 300; i += 1)
      still = stepPugMill(still, SPEC, 1, NO_ARRIVALS, emulsion, cutback, 0, false, false, 18);
    const stopped = still.coatedShare;
    for (let i = 0; i < 300; i += 1)
      still = stepPugMill(still, SPEC, 1, NO_ARRIVALS, emulsion, cutback, 0, false, false, 18);
    expect(still.coatedShare).toBe(stopped);
  });

  it('is worn off by mixing far too long', () => {
    const good = emulsionMix(9, 18, 200);
    const long = turned(good, 300);
    expect(good.coatedShare).toBeGreaterThan(0.97);
    expect(long.coatedShare).toBeLessThan(good.coatedShare - 0.1);
  });

  it('is thinned by fresh stone', () => {
    const good = emulsionMix(9, 18, 60);
    const more = turned(good, 0.1, stone(300, 0, 0, 18));
    expect(more.coatedShare).toBeLessThan(good.coatedShare * 0.75);
  });
});

describe('emulsion breaking', () => {
  it('turns brown to black faster when warm, and sets its water free', () => {
    const cool = emulsionMix(9, 18, 60);
    const warm = emulsionMix(9, 60, 60);
    expect(cool.brokenShare).toBeLessThan(0.3);
    expect(warm.brokenShare).toBeGreaterThan(2 * cool.brokenShare);
    expect(warm.boundKg).toBeLessThan(cool.boundKg);
    expect(cool.boundKg).toBeCloseTo(51 * emulsion.waterShare * (1 - cool.brokenShare), 9);
  });
});

describe('motor', () => {
  it('reads nothing off, idle when empty, more the fuller and the stiffer the mix', () => {
    const mill = createPugMill(18);
    expect(motorA(mill, SPEC)).toBe(0);
    expect(motorA(turned(mill, 20), SPEC)).toBeCloseTo(SPEC.idleA, 6);
    const half = turned(mill, 20, stone(350, 0, 0, 18));
    const full = turned(mill, 20, stone(700, 0, 0, 18));
    expect(motorA(full, SPEC)).toBeGreaterThan(motorA(half, SPEC) + 10);
    expect(motorA(cutbackMix(25, 30), SPEC)).toBeGreaterThan(motorA(cutbackMix(60, 30), SPEC) + 3);
  });

  it('empties through an open gate only as fast as it turns', () => {
    const full = emulsionMix(9, 18, 60);
    const open = (running: boolean): number => {
      let mill = full;
      for (let i = 1; i <= 150; i += 1)
        mill = stepPugMill(mill, SPEC, i, NO_ARRIVALS, emulsion, cutback, 0, running, true, 18);
      return mixKgOf(mill);
    };
    expect(open(true)).toBeLessThan(320);
    expect(open(false)).toBeGreaterThan(650);
  });
});
