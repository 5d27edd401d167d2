/** For each rule something is broken on purpose; an explorer that does not find it proves nothing. */
import { describe, expect, it } from 'vitest';
import { MUTANTS } from './mutants.ts';

describe('broken on purpose, and found', () => {
  for (const { rule, broken, hunt } of MUTANTS)
    it(`${rule}: ${broken}`, { timeout: 120_000 }, () => {
      expect(hunt()).not.toBeNull();
    });

  it('a breach is told as a story that begins at the start and ends with the breach', () => {
    const story =
      MUTANTS.find((one) => one.rule === 'NR-16')
        ?.hunt()
        ?.split('\n') ?? [];
    expect(story[0]).toMatch(/^NR-16 with honest sensors/);
    expect(story[1]).toMatch(/^ {2}0\. start → .*burner "off"/);
    expect(story.at(-1)).toMatch(/flame, .*cutback in bucket/);
  });
});
