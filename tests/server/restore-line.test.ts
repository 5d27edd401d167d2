/** The real line, saved and loaded at any moment, goes on as if nothing had happened. */
import { expect, it } from 'vitest';
import { canonical } from '../../machines/record/canonical.ts';
import { sha256 } from '../../server/digest.ts';
import { line } from '../../server/line.ts';
import { scenarioOrError } from '../../server/scenarios/load.ts';

/** Digest over all that the line said between two ticks, and its view at the end. */
const drive = (file: string, ticks: number, reloadEvery: number | null): string => {
  const scenario = scenarioOrError(file);
  const [person] = scenario.people.filter((p) => p.id === scenario.shift.standIn?.person);
  if (person === undefined || scenario.shift.standIn === undefined)
    throw new Error(`${file} has no stand-in`);
  const by = { person: person.id, role: person.role, console: 'test' };
  const first = {
    id: 'stand-in-on',
    by,
    command: { do: 'standIn', skill: scenario.shift.standIn.skill },
  } as const;
  let world = line.createWorld(scenario);
  let said = '';
  for (let i = 0; i < ticks; i++) {
    const next = line.advance(world, i === 0 ? [first] : []);
    world = next.world;
    if (next.facts.length > 0 || next.changes !== null)
      said = sha256(said + canonical([world.tick, next.changes, next.facts]));
    if (reloadEvery !== null && i % reloadEvery === 0)
      world = line.loadWorld(scenario, JSON.parse(JSON.stringify(line.saveWorld(world))));
  }
  return sha256(said + canonical(line.viewOf(world)));
};

it.each([
  ['emulsion-day', 6_000, 61],
  ['cutback-day', 24_000, 331],
])(
  '%s over %i ticks, saved and loaded every %i',
  (name, ticks, reloadEvery) => {
    const file = `scenarios/shifts/${name}.yaml`;
    expect(drive(file, ticks, reloadEvery)).toBe(drive(file, ticks, null));
  },
  120_000,
);
