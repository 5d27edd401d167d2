/** Vapour, flammability and heat against published values; each names where its number comes from. */
import { describe, expect, it } from 'vitest';
import { chargeTargets } from '../../machines/mix/batch-targets.ts';
import { burgessWheelerPct, leChatelierPct, lelPct } from '../../machines/mix/flammability.ts';
import { latentKjKg, petroleumCpKjKgK } from '../../machines/mix/petroleum.ts';
import {
  KEROSENE_LEL_VOL_PCT,
  KEROSENE_VAPOUR_MMHG_AT_100F,
  MC800_FLASH_MIN_C,
  MEASURED_DRYING_KWH_T_PER_PCT,
  WATER_CP_KJ_KG_K,
  WATER_LATENT_KJ_KG,
} from '../../machines/mix/published.ts';
import { ANTOINE, antoineKPa, volumePctOf, waterVapourKPa } from '../../machines/mix/vapour-pressure.ts';
import { createPlant, type Plant } from '../../machines/plant/plant.ts';
import type { PlantSpec } from '../../machines/scenario/plant.schema.ts';
import { cutbackMix, demoSpec, mixes, run, runUntil, steady18 } from '../plant/demo.ts';
import { lightBurner, weigh } from '../plant/sequences.ts';

describe('vapour pressure', () => {
  it('of decane at 25 °C is 0.17 kPa (OSHA chemical sampling information, ±0.005)', () => {
    expect(Math.abs(antoineKPa(ANTOINE.decane, 25) - 0.17)).toBeLessThanOrEqual(0.005);
  });

  it('of decane, undecane, dodecane is 1 atm at 174.1, 196.3 and 216.3 °C (boiling points, ±0.3 K; NIST)', () => {
    for (const [name, boilsC] of [
      ['decane', 174.1],
      ['undecane', 196.3],
      ['dodecane', 216.3],
    ] as const) {
      expect(antoineKPa(ANTOINE[name], boilsC - 0.3)).toBeLessThan(101.325);
      expect(antoineKPa(ANTOINE[name], boilsC + 0.3)).toBeGreaterThan(101.325);
    }
  });

  // Dodecane from its equation of state (Helmholtz ancillary of n-dodecane): Antoine extrapolates within 4 % here.
  it.each([
    [60, 0.227],
    [80, 0.7338],
    [90, 1.2414],
    [100, 2.0267],
  ])('of dodecane at %i °C is near %f kPa', (tempC, kPa) => {
    expect(Math.abs(antoineKPa(ANTOINE.dodecane, tempC) / kPa - 1)).toBeLessThan(0.04);
  });

  it('of water is 1 atm at 100 °C and 2.34 kPa at 20 °C (steam tables, ±1 %)', () => {
    expect(waterVapourKPa(100) / 101.325).toBeCloseTo(1, 2);
    expect(waterVapourKPa(20) / 2.339).toBeCloseTo(1, 2);
  });
});

describe('flash point and lower limit', () => {
  it('kerosene: 5 mmHg at 100 °F is 0.658 vol %, its lower limit 0.7 within 10 % (NIOSH Pocket Guide)', () => {
    const volumePct = (100 * KEROSENE_VAPOUR_MMHG_AT_100F) / 760;
    expect(volumePct).toBeCloseTo(0.658, 3);
    expect(Math.abs(lelPct(volumePct, KEROSENE_LEL_VOL_PCT) - 100)).toBeLessThanOrEqual(10);
  });

  it('decane at its flash point, 46 °C, stands at 0.85 of its lower limit 0.8 vol % (Crowl and Louvar, appendix B)', () => {
    const volumePct = volumePctOf(antoineKPa(ANTOINE.decane, 46));
    expect(volumePct).toBeCloseTo(0.676, 2);
    expect(volumePct / 0.8).toBeGreaterThan(0.75);
    expect(volumePct / 0.8).toBeLessThan(1);
  });

  it('the undecane surrogate meets the kerosene limit at the least flash point of MC-800, 66 °C, within 15 %', () => {
    const volumePct = volumePctOf(antoineKPa(ANTOINE.undecane, MC800_FLASH_MIN_C));
    expect(Math.abs(lelPct(volumePct, KEROSENE_LEL_VOL_PCT) - 100)).toBeLessThanOrEqual(15);
  });

  it('Burgess–Wheeler: decane at 60, 80, 100 °C and methane at 100 °C (recomputed from the formula, 1e-4)', () => {
    const decane = 6294.2 / 4.184;
    expect(burgessWheelerPct(0.8, decane, 60)).toBeCloseTo(0.7826, 4);
    expect(burgessWheelerPct(0.8, decane, 80)).toBeCloseTo(0.7726, 4);
    expect(burgessWheelerPct(0.8, decane, 100)).toBeCloseTo(0.7626, 4);
    expect(burgessWheelerPct(5, 191.76, 100)).toBeCloseTo(4.7067, 4);
  });

  it('Le Chatelier: 50/30/20 of 0.8/0.7/0.6 is 0.7210 vol %', () => {
    const parts = [
      { share: 0.5, lflPct: 0.8 },
      { share: 0.3, lflPct: 0.7 },
      { share: 0.2, lflPct: 0.6 },
    ];
    expect(leChatelierPct(parts)).toBeCloseTo(0.721, 4);
  });
});

describe('heat of petroleum, NBS Miscellaneous Publication 97', () => {
  // (110.9 − 0.09 t)/d Btu/lb for specific gravity 0.81 at 100, 212 and 400 °F.
  it.each([
    [100, 292.6],
    [212, 263.7],
    [400, 215.1],
  ])('latent heat of kerosene at %i °F is %f kJ/kg', (tempF, kJKg) => {
    expect(Math.abs(latentKjKg((tempF - 32) / 1.8, 0.81) - kJKg)).toBeLessThan(0.1);
  });

  it.each([
    [25, 1.02, 1.752],
    [100, 1.02, 2.004],
    [150, 1.02, 2.171],
    [25, 0.81, 1.966],
    [100, 0.81, 2.248],
  ])('specific heat at %i °C of gravity %f is %f kJ/kg·K', (tempC, sg, cp) => {
    expect(Math.abs(petroleumCpKjKgK(tempC, sg) - cp)).toBeLessThan(0.002);
  });

  it('is ten times what a misprinted 0.0388 would give at 0 °F: the misprint is refused by the table above', () => {
    expect(petroleumCpKjKgK(-17.78, 1) / ((0.0388 / 1) * 4.1868)).toBeCloseTo(10, 1);
  });
});

describe('energy to dry one more per cent of moisture', () => {
  const theoryKwhT = (10 * (WATER_CP_KJ_KG_K * 80 + WATER_LATENT_KJ_KG)) / 3600;

  it('from first principles is 7.20 kWh/t of aggregate, within 10 % of the 6.86 kWh/t of mix measured', () => {
    expect(theoryKwhT).toBeCloseTo(7.2, 2);
    expect(Math.abs(theoryKwhT / MEASURED_DRYING_KWH_T_PER_PCT - 1)).toBeLessThanOrEqual(0.1);
  });

  it('in the simulated dryer, heat taken up, is the same within 10 %', () => {
    const takenKwhPerT = (extraPct: number): number => {
      const bins = demoSpec.bins.map((bin) => ({
        ...bin,
        trueMoisturePct: bin.trueMoisturePct + extraPct,
        testedMoisturePct: bin.trueMoisturePct + extraPct,
      }));
      const spec: PlantSpec = { ...demoSpec, bins };
      // 20 °C stone, the same dry mass each time, heated until it is dry and at 105 °C
      const weather = { ...steady18, startC: 20, warmestC: 20 };
      let plant: Plant = createPlant({ spec, mixes, weather, startsAtMin: 420, seed: 3 });
      const dry = chargeTargets(cutbackMix, bins, 1000);
      const parts = dry.parts.map((part) => ({ ...part, wetKg: (part.wetKg * 900) / dry.dryKg }));
      plant = weigh(lightBurner(plant), parts, { drumFan: true, drumTurn: true, burnerMain: 'low' });
      const fire = { drumFan: true, drumTurn: true, burnerMain: 'high' } as const;
      const from = plant.dryer;
      plant = run(plant, 50, { ...fire, hopperTo: 'dryer' });
      plant = runUntil(plant, fire, (p) => p.dryer.load.tempC >= 115, 1200);
      const netKj = plant.dryer.takenKj - from.takenKj - (plant.dryer.lostKj - from.lostKj);
      return netKj / 3600 / (plant.dryer.load.stoneKg / 1000);
    };
    const perPct = (takenKwhPerT(3) - takenKwhPerT(0)) / 3;
    expect(Math.abs(perPct / theoryKwhT - 1)).toBeLessThanOrEqual(0.1);
    expect(Math.abs(perPct / MEASURED_DRYING_KWH_T_PER_PCT - 1)).toBeLessThanOrEqual(0.1);
  });
});
