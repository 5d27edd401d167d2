/** What a shift hands over: its counts close to the gram, or say by how much they do not. */
import { describe, expect, it } from 'vitest';
import { countsOf } from '../../machines/line/handover.ts';

describe('the counts of a shift', () => {
  it('close to the gram: taken in = lots + waste + water lost + held', () => {
    const counts = countsOf({
      materials: -1_234_567,
      'lot:260512-1': 900_000,
      'lot:260512-2': 100_001,
      waste: 50_000,
      waterLost: 4_566,
      hopper: 180_000,
      mixer: 0,
    });
    expect(counts).toEqual({
      inGrams: 1_234_567,
      lots: [
        { lot: '260512-1', grams: 900_000 },
        { lot: '260512-2', grams: 100_001 },
      ],
      wasteGrams: 50_000,
      waterLostGrams: 4_566,
      held: [{ where: 'hopper', grams: 180_000 }],
      differenceGrams: 0,
    });
  });

  it('say what is left over when they do not close', () => {
    expect(countsOf({ materials: -1000, waste: 400 }).differenceGrams).toBe(600);
    expect(countsOf({}).differenceGrams).toBe(0);
  });
});
