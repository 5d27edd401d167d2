/** What must hold of every shipped drill, worked by all three trainees; the drills are shared out over test files. */
import { describe, expect, it } from 'vitest';
import { debriefsOf, runOf, SEED, SHIPPED } from './drills.ts';

/** A sensible spread: the good trainee is well above the slow one, and the slow one above the reckless one. */
const LEAST_APART = 5;

export const everyDrill = (part: number, of: number): void => {
  const mine = SHIPPED.filter((_, i) => i % of === part);
  describe.each(mine.map((one) => [one.name, one] as const))(`%s, seed ${SEED}`, (_, one) => {
    it('is passed by the good trainee and not by the reckless one, in order', () => {
      const { good, slow, reckless } = debriefsOf(one);
      const scores = { good: good.score, slow: slow.score, reckless: reckless.score };
      expect(good.passed, JSON.stringify([scores, good.expected, good.unsafe])).toBe(true);
      expect(good.unsafe).toEqual([]);
      expect(reckless.passed, JSON.stringify(reckless.competencies)).toBe(false);
      expect(scores.good, JSON.stringify(scores)).toBeGreaterThanOrEqual(scores.slow + LEAST_APART);
      expect(scores.slow, JSON.stringify(scores)).toBeGreaterThanOrEqual(scores.reckless + LEAST_APART);
    });

    it('never lets a flame and solvent meet in the guarded plant, whoever works it', () => {
      for (const skill of ['good', 'slow', 'reckless'] as const) {
        const { physical, world } = runOf(one, skill);
        expect(physical.map((danger) => danger.kind)).not.toContain('flame with solvent');
        expect(world.plant.dryer.burner.puffs).toBe(0);
      }
    });

    it('gives reasons that add up', () => {
      for (const debrief of Object.values(debriefsOf(one))) {
        expect(debrief.competencies.length).toBeGreaterThan(0);
        for (const { points, of, reasons, score } of debrief.competencies) {
          expect(points).toBeLessThanOrEqual(of);
          expect(score).toBe(of === 0 ? 0 : Math.round((100 * points) / of));
          expect(reasons.length).toBeGreaterThan(0);
        }
        expect(debrief.endMs).toBeGreaterThan(debrief.startMs);
        expect(JSON.parse(JSON.stringify(debrief))).toEqual(debrief);
      }
    });

    it('has a twin whose masses balance, wherever the interlock had to step in', () => {
      for (const { twin } of Object.values(debriefsOf(one))) {
        if (twin === null) continue;
        expect(Math.abs(twin.massErrorKg)).toBeLessThan(1e-6);
        expect(twin.unguarded.length).toBeGreaterThan(100);
        expect(twin.caution).toMatch(/model/);
      }
    });
  });
};
