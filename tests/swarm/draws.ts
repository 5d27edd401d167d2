/** Seeded draws for random histories, from the same generator the line has. */
import { nextState, unitOf } from '../../machines/line/random.ts';

export type Draws = {
  readonly unit: () => number;
  readonly pick: <T>(list: readonly T[]) => T;
  /** A list with a weight each, 0 (never) or 1 to 100: wildly different from seed to seed. */
  readonly swarm: <T>(list: readonly T[]) => readonly (readonly [one: T, weight: number])[];
  readonly pickWeighted: <T>(list: readonly (readonly [one: T, weight: number])[]) => T;
};

export const drawsOf = (seed: number): Draws => {
  let state = seed >>> 0;
  const unit = (): number => {
    const drawn = unitOf(state);
    state = nextState(state);
    return drawn;
  };
  const pick = <T>(list: readonly T[]): T => list[Math.floor(unit() * list.length)] as T;
  const swarm = <T>(list: readonly T[]) => {
    const kept = list.filter(() => unit() < 0.5);
    const some = kept.length > 0 ? kept : [pick(list)];
    return some.map((one): readonly [T, number] => [one, 1 + Math.floor(unit() * 100)]);
  };
  const pickWeighted = <T>(list: readonly (readonly [one: T, weight: number])[]): T => {
    let left = unit() * list.reduce((sum, [, weight]) => sum + weight, 0);
    for (const [one, weight] of list) {
      left -= weight;
      if (left < 0) return one;
    }
    return (list.at(-1) as readonly [T, number])[0];
  };
  return { unit, pick, swarm, pickWeighted };
};
