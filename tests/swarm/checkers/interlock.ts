/** Never a flame beside open cutback: not in what is asked of the field, and not in the plant's own truth. */
import type { Checker } from './checker.ts';

/** Less solvent than this in the pug mill is a film on its walls, kg. */
const FILM_KG = 0.1;

export const interlockChecker = (): Checker => ({
  name: 'interlock',
  look: ({ advanced: { world } }) => {
    const { outputs, signals } = world.line;
    const flameAsked = outputs.burnerPilot || outputs.burnerMain !== 'shut';
    const wayOpen = outputs.cutbackFeed !== 'shut' || (outputs.bucketValve && signals.cutbackInBucket);
    if (flameAsked && wayOpen) return 'flame and an open way for cutback are asked for together';
    if (signals.tripped && (flameAsked || outputs.bucketValve || outputs.cutbackFeed !== 'shut'))
      return 'something is asked to open while tripped';
    const { dryer, mill, bucket } = world.plant;
    if (dryer.burner.mainLit && (mill.solventKg > FILM_KG || bucket.cutbackKg > FILM_KG))
      return `a flame burns beside cutback: ${mill.solventKg.toFixed(2)} kg of solvent in the pug mill, ${bucket.cutbackKg.toFixed(2)} kg of cutback in the bucket`;
    return null;
  },
});
