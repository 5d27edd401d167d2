/** Benches of moisture and sieve analysis. */
import { type Grading, passingPct } from '../../mix/gradation.ts';
import { sievesOf } from '../worksheets/fields.ts';
import type { Readings, SheetContext } from '../worksheets/sheet.types.ts';
import { leastDryG, overloadG, type SieveDiameter } from '../worksheets/sieve-rules.ts';
import type { Bench, Truth } from './bench.types.ts';
import { between, clamped, observed, read } from './draw.ts';
import { passingSdPct, SD } from './precision.ts';

export const moistureBench: Bench = (truth, rng, error, context) => {
  const panG = between(rng, 180, 260);
  const dryG = Math.min(context.sampleMassG ?? 1000, between(rng, 900, 1100)) * 0.8;
  const ofMix = truth.mixMoisturePct;
  const moisturePct = observed(rng, ofMix ?? truth.moisturePct ?? 0, SD.moisturePct * error);
  return {
    material: ofMix === undefined ? 'aggregate' : 'emulsion mix',
    panG: read(panG, 0.1),
    wetG: read(panG + dryG * (1 + moisturePct / 100), 0.1),
    dryG: read(panG + dryG, 0.1),
    driedAgainG: read(panG + dryG, 0.1),
    ovenC: 110,
    endedAt: context.nowAt,
  };
};

/** True % passing from the truth's `passing:` values, by straight lines over the logarithm where a sieve is not named. */
export const truePassing = (truth: Truth): Grading =>
  Object.entries(truth)
    .filter(([property]) => property.startsWith('passing:'))
    .map(([property, value]) => ({ sieveMm: Number(property.slice('passing:'.length)), passingPct: value }))
    .sort((a, b) => b.sieveMm - a.sieveMm);

/** Portions that keep every sieve below its overload, so many g lying on each. */
const portionsFor = (heldG: readonly { sieveMm: number; grams: number }[], diameter: SieveDiameter): number =>
  clamped(
    Math.max(1, ...heldG.map(({ sieveMm, grams }) => Math.ceil(grams / overloadG(sieveMm, diameter)))),
    1,
    10,
  );

export const sieveBench: Bench = (truth, rng, error, context: SheetContext) => {
  const grading = truePassing(truth);
  const sieves = sievesOf(context);
  const sizeMm = sieves.findLast((sieveMm) => passingPct(grading, sieveMm) >= 100) ?? sieves[0] ?? 0;
  const wantedG = Math.max(1000, leastDryG(sizeMm)) * between(rng, 1.05, 1.3);
  const dryG = read(Math.min((context.sampleMassG ?? 15_000) * 0.9, wantedG), 0.1);

  // Coarse to fine, each no more than the one before: errors do not make stone pass a finer sieve only.
  let least = 100;
  const passing = sieves.map((sieveMm) => {
    const truly = passingPct(grading, sieveMm);
    least = observed(rng, truly, passingSdPct(truly) * error, 0, least);
    return least;
  });
  let above = 100;
  const held = sieves.map((sieveMm, i) => {
    const grams = (dryG * (above - (passing[i] as number))) / 100;
    above = passing[i] as number;
    return { sieveMm, grams: read(grams, 0.1) };
  });
  const finesG = dryG - held.reduce((sum, { grams }) => sum + grams, 0);
  const washedOffG = read(finesG * between(rng, 0.6, 0.9), 0.1);
  // A little dust stays in the sieves and in the air, less than the 0.3 % that sieving may lose.
  const lostG = Math.min(finesG - washedOffG, error * between(rng, 0, 0.0005) * dryG);
  const readings: Record<string, string | number | null> = {
    of: 'extraction',
    dryG,
    washedG: read(dryG - washedOffG, 0.1),
    sieveMm: '305',
    portions: portionsFor(held, '305'),
    panG: read(Math.max(0, finesG - washedOffG - lostG), 0.1),
    furtherPct: read(between(rng, 0.1, 0.4), 0.1),
    endedAt: context.nowAt,
  };
  for (const { sieveMm, grams } of held) readings[`retainedG:${sieveMm}`] = grams;
  return readings satisfies Readings;
};
