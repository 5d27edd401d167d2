/** The first entry of a shift. */
import { canonical } from '../../machines/record/canonical.ts';
import type { OpeningBody } from '../../machines/record/entry.ts';
import { PHYSICS_VERSION, PROGRAM, RECORD_FORMAT } from '../../machines/record/version.ts';
import type { Scenario } from '../../machines/scenario/shift.schema.ts';
import { sha256 } from '../digest.ts';

export const digestOf = (scenario: Scenario): string => sha256(canonical(scenario));

export const openingFor = (scenario: Scenario): OpeningBody => ({
  format: RECORD_FORMAT,
  program: PROGRAM,
  physics: PHYSICS_VERSION,
  engine: `node ${process.version}`,
  scenario: scenario.shift.id,
  scenarioDigest: digestOf(scenario),
  seed: scenario.shift.seed,
});
