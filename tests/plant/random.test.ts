/** The plant's random numbers: even over their range, unlike their neighbours, repeatable. */
import { expect, it } from 'vitest';
import { firstRandom, nextRandom, spread } from '../../machines/plant/random.ts';

const drawn = (seed: number, n: number): number[] => {
  const numbers: number[] = [];
  let state = firstRandom(seed);
  for (let i = 0; i < n; i += 1) {
    state = nextRandom(state);
    numbers.push(spread(state));
  }
  return numbers;
};

it('are even from −1 to 1: chi-square over 20 boxes below its 99.99 % point', () => {
  for (const seed of [0, 1, 42, 0xffffffff]) {
    const numbers = drawn(seed, 20_000);
    const boxes = new Array<number>(20).fill(0);
    expect(Math.min(...numbers)).toBeGreaterThanOrEqual(-1);
    expect(Math.max(...numbers)).toBeLessThan(1);
    for (const x of numbers) {
      const box = Math.floor((x + 1) * 10);
      boxes[box] = (boxes[box] ?? 0) + 1;
    }
    const chi2 = boxes.reduce((sum, count) => sum + (count - 1000) ** 2 / 1000, 0);
    // 19 degrees of freedom, from chi-square tables
    expect(chi2).toBeLessThan(50.8);
  }
});

it('do not follow their neighbours', () => {
  const numbers = drawn(7, 20_000);
  let sum = 0;
  for (let i = 1; i < numbers.length; i += 1) sum += (numbers[i] ?? 0) * (numbers[i - 1] ?? 0);
  expect(Math.abs(sum / numbers.length / (1 / 3))).toBeLessThan(0.03);
});

it('are the same from one seed, others from another', () => {
  expect(drawn(5, 50)).toEqual(drawn(5, 50));
  expect(drawn(6, 50)).not.toEqual(drawn(5, 50));
});
