/** Take-off of patches: worked by hand, and what must hold whatever the hole. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { basisSchema } from '../../machines/yard/patches/basis.schema.ts';
import { BASIS_FIGURES, DEFAULT_BASIS } from '../../machines/yard/patches/basis.ts';
import { depthsOf, fillLayersOf, layersOf } from '../../machines/yard/patches/layers.ts';
import type { Measured } from '../../machines/yard/patches/patch.types.ts';
import { sumOf, sumsByRoute, takeOffOf } from '../../machines/yard/patches/take-off.ts';
import { troubleWith } from '../../machines/yard/patches/trouble.ts';

const HOLE: Measured = {
  place: 'Fell Lane, by the ford',
  route: 'North',
  lengthM: 0.9,
  widthM: 0.5,
  depthMm: 60,
  baseReached: false,
  compactedBy: 'hand rammer',
  surface: 'bituminous',
};
const sum = (parts: readonly number[]): number => parts.reduce((total, part) => total + part, 0);

describe('layers', () => {
  it.each([
    [25, [25]],
    [60, [60]],
    [75, [75]],
    [76, [38, 38]],
    // Never 75 + 15.
    [90, [45, 45]],
    [115, [58, 57]],
    [150, [75, 75]],
    [151, [51, 50, 50]],
    [300, [75, 75, 75, 75]],
  ])('%d mm is %j', (depthMm, layers) => {
    expect(layersOf(depthMm)).toEqual(layers);
  });

  it('below 25 mm there is none', () => {
    expect(layersOf(24)).toEqual([]);
    expect(layersOf(20)).toEqual([]);
  });

  it('are always legal, as few as can be, and sum to the depth', () => {
    fc.assert(
      fc.property(fc.integer({ min: 25, max: 600 }), (depthMm) => {
        const layers = layersOf(depthMm);
        expect(sum(layers)).toBe(depthMm);
        for (const layer of layers) {
          expect(layer).toBeGreaterThanOrEqual(25);
          expect(layer).toBeLessThanOrEqual(75);
        }
        expect((layers.length - 1) * 75).toBeLessThan(depthMm);
        expect(Math.max(...layers) - Math.min(...layers)).toBeLessThanOrEqual(1);
      }),
    );
  });
});

describe('mix and crusher run', () => {
  it.each([
    // Over the base mix goes down to 100 mm: 160 mm is 100 of mix on 60 of crusher run.
    [160, true, 100, 60],
    // 110 mm would leave 10 mm of fill, which nobody can place: 50 of fill, 60 of mix.
    [110, true, 60, 50],
    [100, true, 100, 0],
    [40, true, 40, 0],
    // Without the base mix alone goes to 150 mm.
    [150, false, 150, 0],
    [220, false, 150, 70],
    [160, false, 110, 50],
  ])('%d mm, base reached %s: %d of mix on %d of crusher run', (depthMm, base, mixMm, fillMm) => {
    expect(depthsOf(depthMm, base, DEFAULT_BASIS)).toEqual({ mixMm, fillMm });
  });

  it('add to the hole, leave a legal layer of mix, and keep within what the basis allows', () => {
    const basis = fc.record({
      mixAloneMm: fc.integer({ min: 75, max: 300 }),
      mixOverBaseMm: fc.integer({ min: 50, max: 200 }),
    });
    fc.assert(
      fc.property(fc.integer({ min: 25, max: 600 }), fc.boolean(), basis, (depthMm, base, allowed) => {
        const { mixMm, fillMm } = depthsOf(depthMm, base, allowed);
        expect(mixMm + fillMm).toBe(depthMm);
        expect(mixMm).toBeGreaterThanOrEqual(25);
        expect(mixMm).toBeLessThanOrEqual(base ? allowed.mixOverBaseMm : allowed.mixAloneMm);
        expect(sum(layersOf(mixMm))).toBe(mixMm);
        expect(sum(fillLayersOf(fillMm))).toBe(fillMm);
        for (const layer of fillLayersOf(fillMm)) expect(layer).toBeLessThanOrEqual(100);
      }),
    );
  });
});

describe('a hole worked by hand', () => {
  it('60 mm, hand rammer, base not reached', () => {
    // Cut 0.90 + 2 × 0.05 = 1.00 m by 0.60 m: 0.60 m². 60 + 10 mm: 0.042 m³ × 2100 = 88.2 kg, + 5 % = 92.61 kg.
    // Sides 2 × (1.00 + 0.60) × 0.060 = 0.192 m²; tack (0.60 + 0.192) × 0.25 = 0.198 kg. Sand 0.60 × 2.5 = 1.5 kg.
    expect(takeOffOf(HOLE, DEFAULT_BASIS)).toEqual({
      areaM2: 0.6,
      mixDepthMm: 60,
      finishMm: 10,
      layersMm: [60],
      fillDepthMm: 0,
      fillLayersMm: [],
      mixKg: 92.6,
      tackKg: 0.2,
      primeKg: 0,
      crusherRunKg: 0,
      sandKg: 1.5,
    });
  });

  it('160 mm down to the base, roller', () => {
    // Cut 2.00 × 1.00 = 2.00 m². Mix 100 + 3 mm: 0.206 m³ × 2100 × 1.05 = 454.23 kg in 50 + 50 mm.
    // Crusher run 60 mm: 0.12 m³ × 2200 × 1.05 = 277.2 kg. Prime 2.00 × 0.85 = 1.7 kg.
    // Tack 2.00 × 0.275 + 2 × 3.00 × 0.100 × 0.25 = 0.55 + 0.15 = 0.70 kg. Sand 5 kg.
    const hole: Measured = {
      ...HOLE,
      lengthM: 1.9,
      widthM: 0.9,
      depthMm: 160,
      baseReached: true,
      compactedBy: 'roller',
    };
    expect(takeOffOf(hole, DEFAULT_BASIS)).toMatchObject({
      areaM2: 2,
      mixDepthMm: 100,
      finishMm: 3,
      layersMm: [50, 50],
      fillDepthMm: 60,
      fillLayersMm: [60],
      mixKg: 454.2,
      tackKg: 0.7,
      primeKg: 1.7,
      crusherRunKg: 277.2,
      sandKg: 5,
    });
  });

  it('90 mm in cement concrete', () => {
    // Cut 1.10 × 0.90 = 0.99 m². Mix 90 + 10 mm: 0.099 × 2100 × 1.05 = 218.295 kg in 45 + 45 mm.
    // Tack at 0.325: 0.99 + 2 × 2.00 × 0.090 = 1.35 m² → 0.43875 kg.
    const hole: Measured = { ...HOLE, lengthM: 1, widthM: 0.8, depthMm: 90, surface: 'concrete' };
    expect(takeOffOf(hole, DEFAULT_BASIS)).toMatchObject({
      layersMm: [45, 45],
      mixKg: 218.3,
      tackKg: 0.44,
      primeKg: 0,
    });
  });
});

describe('tack rates', () => {
  // MoRTH Specifications, Table 500-5: bituminous 0.20–0.30, granular primed 0.25–0.30, concrete 0.30–0.35 kg/m².
  it.each([
    ['tackBituminousKgM2', 0.2, 0.3],
    ['tackPrimedKgM2', 0.25, 0.3],
    ['tackConcreteKgM2', 0.3, 0.35],
  ] as const)('%s stands inside its published range and cannot be set outside of it', (key, from, to) => {
    expect(DEFAULT_BASIS[key]).toBeGreaterThanOrEqual(from);
    expect(DEFAULT_BASIS[key]).toBeLessThanOrEqual(to);
    expect(basisSchema.safeParse({ ...DEFAULT_BASIS, [key]: from }).success).toBe(true);
    expect(basisSchema.safeParse({ ...DEFAULT_BASIS, [key]: to + 0.01 }).success).toBe(false);
    expect(basisSchema.safeParse({ ...DEFAULT_BASIS, [key]: from - 0.01 }).success).toBe(false);
  });

  it('every figure has a unit and says where it comes from', () => {
    expect(BASIS_FIGURES.map(({ key }) => key).sort()).toEqual(Object.keys(DEFAULT_BASIS).sort());
    for (const { unit, source } of BASIS_FIGURES)
      expect(`${unit} ${source}`).toMatch(/\S .*(MoRTH|no source|from memory)/);
    expect(basisSchema.safeParse(DEFAULT_BASIS).success).toBe(true);
  });
});

describe('what is wrong with a hole', () => {
  it.each([
    [{ depthMm: 20 }, 'cut it down to 25 mm'],
    [{ depthMm: 0 }, 'measure the hole again'],
    [{ depthMm: 6000 }, 'see that it is in millimetres'],
    [{ lengthM: 90 }, 'see that it is in metres'],
    [{ widthM: -1 }, 'measure the hole again'],
    [{ widthM: Number.NaN }, 'is no number'],
    [{ place: '  ' }, 'write where the hole is'],
  ])('%j', (change, words) => {
    expect(troubleWith({ ...HOLE, ...change }).map(({ message }) => message)).toEqual([
      expect.stringContaining(words),
    ]);
  });

  it('nothing, and then every figure of it is a number and not below 0', () => {
    expect(troubleWith(HOLE)).toEqual([]);
    fc.assert(
      fc.property(
        fc.double({ min: 0.05, max: 20, noNaN: true }),
        fc.double({ min: 0.05, max: 10, noNaN: true }),
        fc.integer({ min: 25, max: 600 }),
        fc.boolean(),
        (lengthM, widthM, depthMm, baseReached) => {
          const hole: Measured = { ...HOLE, lengthM, widthM, depthMm, baseReached };
          expect(troubleWith(hole)).toEqual([]);
          const found = takeOffOf(hole, DEFAULT_BASIS);
          for (const value of Object.values(found).flat()) expect(value).toBeGreaterThanOrEqual(0);
          expect(found.mixKg).toBeGreaterThan(0);
          // More than the bare block of the hole, and no more than twice the cut one.
          expect(found.mixKg).toBeGreaterThan(lengthM * widthM * (found.mixDepthMm / 1000) * 2100 - 0.1);
          expect(found.primeKg > 0).toBe(baseReached || found.fillDepthMm > 0);
        },
      ),
    );
  });
});

describe('sums', () => {
  const patch = (row: number, route: string, takenOut: string | null = null) => ({
    ...HOLE,
    route,
    row,
    takenOut,
    takeOff: takeOffOf(HOLE, DEFAULT_BASIS),
  });

  it('leave out what is taken out, and routes add to the whole', () => {
    const patches = [
      patch(1, 'North'),
      patch(2, 'South'),
      patch(3, 'North'),
      patch(4, '', 'filled by others'),
    ];
    expect(sumOf(patches)).toMatchObject({ patches: 3, mixKg: 277.8, sandKg: 4.5 });
    const routes = sumsByRoute(patches);
    expect(routes.map(({ route }) => route)).toEqual(['North', 'South', '']);
    expect(routes.map(({ sum: { patches: n } }) => n)).toEqual([2, 1, 0]);
  });
});
