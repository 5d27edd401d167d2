/** `patchyard drill`: what it prints for people and for programs, and how it refuses. */
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { main } from '../../server/cli.ts';

const FILE = 'scenarios/drills/01-first-emulsion-batch.yaml';

describe('patchyard drill', () => {
  let out: string[];
  let errors: string[];
  beforeEach(() => {
    out = [];
    errors = [];
    vi.spyOn(console, 'log').mockImplementation((text: string) => void out.push(text));
    vi.spyOn(console, 'error').mockImplementation((text: string) => void errors.push(text));
  });
  afterEach(() => vi.restoreAllMocks());

  it('prints one JSON object: score, passed, competencies, unsafe and more', async () => {
    expect(await main(['drill', FILE, '--as', 'good', '--json'])).toBe(0);
    expect(out).toHaveLength(1);
    const found = JSON.parse(out[0] ?? '');
    expect(found).toMatchObject({
      passed: true,
      unsafe: [],
      as: 'good',
      file: FILE,
      seed: 1,
      drill: { id: 'first-emulsion-batch' },
      twin: null,
    });
    expect(found.score).toBeGreaterThan(70);
    expect(found.competencies.map((one: { name: string }) => one.name)).toEqual([
      'reads the plant',
      'batching',
    ]);
  });

  it('says in words what a reckless trainee did, and that it was not passed', async () => {
    expect(await main(['drill', FILE, '--as', 'reckless', '--seed', '3'])).toBe(0);
    const text = out.join('\n');
    expect(text).toMatch(/^First emulsion batch \(level 1\), as reckless, seed 3: done\nNot passed/);
    expect(text).toMatch(/Unsafe\n +\d+:\d\d {2}done: Mix was let go with bare stones in it\./);
    expect(text).toMatch(/Without the interlock\n {2}It never had to step in\./);
  });

  it.each([
    [[], /drill needs one drill file, or --all/],
    [[FILE, '--as', 'clever'], /--as clever is not one of good, slow, reckless/],
    [[FILE, '--seed', 'x'], /--seed x is not a whole number/],
    [['--all', FILE], /--all takes no file/],
  ])('called wrongly with %j says so', async (args, says) => {
    expect(await main(['drill', ...args])).toBe(2);
    expect(errors.join()).toMatch(says);
  });

  it('names what is wrong with a file that is no drill', async () => {
    expect(await main(['drill', 'scenarios/shifts/cutback-day.yaml'])).toBe(1);
    expect(errors.join()).toMatch(/cutback-day\.yaml:2:7 kind: "shift" is not known here \(allowed: drill\)/);
  });
});
