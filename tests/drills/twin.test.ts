/** The unguarded twin: a model beside the run, which it never touches, and the only place where nothing says no. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { debriefOf, saveDrill } from '../../machines/drills/run.ts';
import { twinOf } from '../../machines/drills/twin.ts';
import { importsOf } from '../style/sources.ts';
import { runOf, shipped } from './support/drills.ts';

const relight = shipped('relight-over-charged-mixer');

const frozen = <T>(value: T, seen = new Set<unknown>()): T => {
  if (typeof value !== 'object' || value === null || seen.has(value)) return value;
  seen.add(value);
  Object.freeze(value);
  for (const inner of Object.values(value)) frozen(inner, seen);
  return value;
};

describe('the twin of a reckless relight', () => {
  const twin = twinOf(runOf(relight, 'reckless'));

  it('burns over solvent where the guarded plant did not', () => {
    expect(twin?.because).toMatch(/^Lighting the burner was refused: FI-/);
    expect(twin?.flameWithSolventMs).not.toBeNull();
    expect(twin?.unguarded.some((one) => one.flame && one.solventKg > 1)).toBe(true);
    expect(twin?.guarded.some((one) => one.flame && one.solventKg > 0.05)).toBe(false);
    expect(twin?.words).toMatch(/^A flame would have burned in the dryer for \d+ s with up to \d/);
    expect(twin?.caution).toMatch(/^A model: /);
  });

  it('begins where the guarded plant stood', () => {
    const first = twin?.unguarded[0];
    const same = twin?.guarded.find((one) => Math.abs(one.atMs - (first?.atMs ?? 0)) <= 2000);
    expect(first?.solventKg).toBeCloseTo(same?.solventKg ?? -1, 1);
    expect(first?.vapourLelPct).toBeCloseTo(same?.vapourLelPct ?? -1, 0);
  });

  it('conserves mass and is the same each time', () => {
    expect(Math.abs(twin?.massErrorKg ?? 1)).toBeLessThan(1e-6);
    expect(twinOf(runOf(relight, 'reckless'))).toEqual(twin);
  });
});

describe('a debrief', () => {
  it('has no twin when the interlock never had to step in', () => {
    expect(debriefOf(runOf(shipped('first-emulsion-batch'), 'good')).twin).toBeNull();
    expect(debriefOf(runOf(relight, 'good')).twin).toBeNull();
  });

  it('changes nothing in the run it is made from', () => {
    const run = runOf(relight, 'reckless');
    const before = JSON.stringify(saveDrill(run));
    // XState snapshots are left out of the freezing: they keep caches of their own.
    const { charts, alarmCharts, ...line } = run.world.line;
    frozen({ ...run, world: { ...run.world, line: { ...line } } });
    expect(charts).toBeDefined();
    expect(alarmCharts).toBeDefined();
    debriefOf(run);
    expect(JSON.stringify(saveDrill(run))).toBe(before);
  });

  it('shows, when extraction was lost, that the twin went on filling the hood', () => {
    const { twin } = debriefOf(runOf(shipped('extraction-lost'), 'good'));
    expect(twin?.because).toMatch(/FT-03/);
    expect(twin?.worstLelPct ?? 0).toBeGreaterThan(1.2 * (twin?.guardedWorstLelPct ?? 100));
  });
});

describe('the code of the twin', () => {
  const folder = new URL('../../machines/drills/', import.meta.url).pathname;
  const importsIn = (name: string) => {
    const path = `machines/drills/${name}`;
    return importsOf(path, readFileSync(join(folder, name), 'utf8'));
  };

  it('drives a plant, and no line, chart or gate', () => {
    for (const name of ['twin.ts', 'twin-controls.ts'])
      for (const { specifier, typeOnly } of importsIn(name))
        if (!typeOnly) expect(specifier, name).not.toMatch(/charts\/|line\/(?!line\.types|lookup)|world\//);
  });

  it('is used by the debrief alone', () => {
    const users = readdirSync(folder).filter((name) =>
      importsIn(name).some(
        ({ specifier, typeOnly }) => !typeOnly && /\/twin(-controls)?\.ts$/.test(specifier),
      ),
    );
    expect(users.sort()).toEqual(['debrief.ts', 'twin.ts']);
  });
});
