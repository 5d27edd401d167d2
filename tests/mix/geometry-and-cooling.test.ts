/** A lying cylinder against numeric integration; cooling forecasts against their own law. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cylinderM3, dipOfM } from '../../machines/mix/cylinder.ts';
import {
  cooledC,
  coolingTauS,
  timeToReachS,
  timeUntilInsideS,
  timeUntilOutsideS,
} from '../../machines/mix/newton-cooling.ts';

/** Volume as the integral of the surface width over the dip, midpoint rule in the angle. */
const integratedM3 = (diameterM: number, lengthM: number, dipM: number): number => {
  const r = diameterM / 2;
  const endAngle = Math.acos(1 - dipM / r);
  const slices = 2000;
  let sum = 0;
  for (let i = 0; i < slices; i += 1) {
    const angle = ((i + 0.5) * endAngle) / slices;
    // width 2 r sin, dip element r sin dθ
    sum += 2 * r * Math.sin(angle) * r * Math.sin(angle) * (endAngle / slices);
  }
  return sum * lengthM;
};

describe('lying cylinder', () => {
  it('agrees with numeric integration at every dip', () => {
    for (let dipMm = 5; dipMm <= 1900; dipMm += 35) {
      const exact = integratedM3(1.9, 4, dipMm / 1000);
      expect(cylinderM3(1.9, 4, dipMm / 1000)).toBeCloseTo(exact, 5);
    }
  });

  it('is empty, half and full where it must be', () => {
    const full = Math.PI * 0.95 * 0.95 * 4;
    expect(cylinderM3(1.9, 4, -1)).toBe(0);
    expect(cylinderM3(1.9, 4, 0.95)).toBeCloseTo(full / 2, 12);
    expect(cylinderM3(1.9, 4, 3)).toBeCloseTo(full, 12);
  });

  it('gives the dip back from the volume to a micrometre', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.0005, max: 0.9995, noNaN: true }),
        fc.double({ min: 0, max: 2, noNaN: true }),
        (share, guess) => {
          const dipM = share * 2;
          expect(dipOfM(2, 4.5, cylinderM3(2, 4.5, dipM), guess)).toBeCloseTo(dipM, 6);
        },
      ),
    );
    expect(dipOfM(2, 4.5, -1)).toBe(0);
    expect(dipOfM(2, 4.5, 99)).toBe(2);
  });
});

describe('cooling forecasts', () => {
  it('time to reach is the inverse of cooling', () => {
    const tauS = coolingTauS(10_000, 0.84, 1750);
    const seconds = timeToReachS(105, 18, tauS, 65);
    expect(cooledC(105, 18, tauS, seconds ?? 0)).toBeCloseTo(65, 9);
    expect(seconds).toBeCloseTo(tauS * Math.log(87 / 47), 6);
  });

  it('is null for what cooling never reaches, 0 for what is there', () => {
    expect(timeToReachS(50, 18, 1000, 60)).toBeNull();
    expect(timeToReachS(50, 18, 1000, 18)).toBeNull();
    expect(timeToReachS(50, 50, 1000, 40)).toBeNull();
    expect(timeToReachS(50, 18, 1000, 50)).toBe(0);
    expect(timeToReachS(5, 18, 1000, 10)).toBeGreaterThan(0);
  });

  it('tells when a window is entered and when it is left again', () => {
    expect(timeUntilInsideS(80, 18, 1000, 25, 65)).toBe(timeToReachS(80, 18, 1000, 65));
    expect(timeUntilInsideS(40, 18, 1000, 25, 65)).toBe(0);
    expect(timeUntilInsideS(20, 18, 1000, 25, 65)).toBeNull();
    expect(timeUntilOutsideS(40, 18, 1000, 25, 65)).toBe(timeToReachS(40, 18, 1000, 25));
    expect(timeUntilOutsideS(40, 30, 1000, 25, 65)).toBeNull();
    expect(timeUntilOutsideS(80, 18, 1000, 25, 65)).toBeNull();
  });
});
