/** Stories as the console opens them: those shipped, a file of one's own, and files that are none. */
import { describe, expect, it } from 'vitest';
import { readStory, SHIPPED } from '../../client/interlock/story-files.ts';
import { elementsOf, sideOf, whyStopped } from '../../client/interlock/story-words.ts';
import { playStory } from '../../machines/line/story.ts';

const [first] = SHIPPED;

describe('stories in the console', () => {
  it('all shipped stories open, in the order of their rules, and each is stopped with a reason in words', () => {
    expect(SHIPPED.length).toBeGreaterThanOrEqual(8);
    expect(SHIPPED.map(({ rule }) => rule)).toEqual(SHIPPED.map(({ rule }) => rule).sort());
    for (const story of SHIPPED) {
      const { steps, stopsAt } = playStory(story);
      const stopped = steps[stopsAt ?? -1];
      if (stopped === undefined) throw new Error(`${story.rule} is stopped nowhere`);
      expect(whyStopped(stopped), story.rule).toMatch(/\.$/);
    }
  });

  it('flame and an open way: both go the same way until the gate holds the pilot valve back', () => {
    if (first === undefined) throw new Error('no story');
    expect(first.rule).toBe('NR-01');
    const { steps, stopsAt } = playStory(first);
    expect(stopsAt).toBe(steps.length - 1);
    const last = steps.at(-1);
    if (last === undefined) throw new Error('no step');
    expect(elementsOf(last.step.through ?? {})).toContain('Dryer pilot valve');
    expect(elementsOf(last.through ?? {})).not.toContain('Dryer pilot valve');
    expect(whyStopped(last)).toBe('The gate holds it back: Dryer pilot valve (FI-12).');
    const sides = sideOf(last.real, last.broken, {});
    expect(sides.flatMap(({ lines }) => lines).filter(({ differs }) => differs)).toEqual([]);
  });

  it.each([
    ['kind: story\n  - x: [', /^This is not YAML/],
    ['just words', /^This is no story file/],
    ['kind: shift', /kind/],
  ])('%j cannot be opened, and it is said why', (text, why) => {
    const opened = readStory(text);
    expect(opened.ok).toBe(false);
    if (!opened.ok) expect(opened.because[0]).toMatch(why);
  });
});
