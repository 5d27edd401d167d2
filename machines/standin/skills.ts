/** How a stand-in of each skill behaves: how long it takes to act, what it forgets, what it tries. */
import type { Skill } from '../scenario/shift.schema.ts';

export type SkillTraits = {
  /** Seconds between seeing and doing: shortest and longest. */
  readonly reactS: readonly [number, number];
  /** Chance that a thing is overlooked for a while, and for how long, s. */
  readonly overlooks: number;
  readonly overlooksS: readonly [number, number];
  /** Tries to light the burner while cutback is in the mixer. */
  readonly lightsOverCutback: boolean;
};

export const TRAITS: { readonly [S in Skill]: SkillTraits } = {
  good: { reactS: [2, 6], overlooks: 0, overlooksS: [0, 0], lightsOverCutback: false },
  slow: { reactS: [20, 60], overlooks: 0, overlooksS: [0, 0], lightsOverCutback: false },
  forgetful: { reactS: [4, 15], overlooks: 0.15, overlooksS: [90, 300], lightsOverCutback: false },
  reckless: { reactS: [1, 3], overlooks: 0, overlooksS: [0, 0], lightsOverCutback: true },
};
