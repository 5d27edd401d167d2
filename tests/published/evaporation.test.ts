/** Evaporation from open surfaces against published equations; a correlation is held to a factor, not to a digit. */
import { describe, expect, it } from 'vitest';
import {
  airViscosityM2S,
  diffusionM2S,
  massTransferMS,
  solventDiffusionM2S,
  solventTransferMS,
} from '../../machines/mix/evaporation.ts';
import { pureVapourKgM3 } from '../../machines/mix/solvent.ts';

const WATER = { kgMol: 0.018015, diffusionVolume: 13.1 };

describe('diffusion in air', () => {
  it('of water vapour is 2.5e-5 m²/s at 25 °C (handbook value, from memory, ±5 %)', () => {
    const found = diffusionM2S(25, WATER.kgMol, WATER.diffusionVolume);
    expect(Math.abs(found / 2.5e-5 - 1)).toBeLessThan(0.05);
  });

  it('of the solvent is slower than water’s by the root of the masses at least, and grows with T^1.75', () => {
    expect(solventDiffusionM2S(25)).toBeLessThan(
      diffusionM2S(25, WATER.kgMol, WATER.diffusionVolume) / Math.sqrt(2.7),
    );
    expect(solventDiffusionM2S(80) / solventDiffusionM2S(25)).toBeCloseTo((353.15 / 298.15) ** 1.75, 9);
  });

  it('air’s own kinematic viscosity is 1.56e-5 m²/s at 25 °C (handbook value, from memory, ±1 %)', () => {
    expect(Math.abs(airViscosityM2S(25) / 1.56e-5 - 1)).toBeLessThan(0.01);
  });
});

describe('mass transfer in wind', () => {
  // ASHRAE form of Carrier’s equation, as printed: W = (95 + 37.4·V)·Δp/Hv in lb/h·ft², V mph, Δp inHg, Hv Btu/lb.
  // It is for water that people bathe in, and known to lie high; a study it is printed with takes 68 for 95.
  it.each([0.5, 1, 2, 4])('of water at %f m/s is within a factor of 2 of the ASHRAE equation', (windMS) => {
    const lbHFt2PerInHg = (68 + (37.4 * windMS) / 0.44704) / 1050;
    const kgSM2PerPa = (lbHFt2PerInHg * 4.8824) / 3600 / 3386.39;
    const published = (kgSM2PerPa * 8.314 * 298.15) / WATER.kgMol;
    const schmidt = airViscosityM2S(25) / diffusionM2S(25, WATER.kgMol, WATER.diffusionVolume);
    const ratio = massTransferMS(windMS, 10, schmidt) / published;
    expect(ratio).toBeGreaterThan(0.5);
    expect(ratio).toBeLessThan(2);
  });

  // U.S. EPA guidance for offsite consequence analysis, evaporation from pools (from memory):
  // QR = 0.284·U^0.78·MW^(2/3)·A·VP/(82.05·T) in lb/min, A ft², VP mmHg, T kelvin.
  it.each([0.5, 1.5, 3])(
    'of the solvent at %f m/s is within a factor of 2 of the EPA pool equation',
    (windMS) => {
      const kelvin = 298.15;
      const vpMmHg = 760;
      const lbMinFt2 = (0.284 * windMS ** 0.78 * 156.31 ** (2 / 3) * vpMmHg) / (82.05 * kelvin);
      const kgSM2 = (lbMinFt2 * 0.453592) / 60 / 0.092903;
      const published = kgSM2 / pureVapourKgM3(25);
      const ratio = solventTransferMS(windMS, 10, 25) / published;
      expect(ratio).toBeGreaterThan(0.5);
      expect(ratio).toBeLessThan(2);
    },
  );

  it('never takes air as quite still, and falls with the length of the surface', () => {
    expect(massTransferMS(0, 1, 1)).toBe(massTransferMS(0.1, 1, 1));
    expect(massTransferMS(1, 10, 1)).toBeLessThan(massTransferMS(1, 1, 1));
  });
});
