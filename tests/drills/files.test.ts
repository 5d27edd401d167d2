/** Drill files: those shipped are sound and complete, and a bad one is refused with line, path, reason and what is allowed. */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { COMPETENCIES } from '../../machines/drills/drill.schema.ts';
import { DRILLS_FOLDER, drillFilesIn } from '../../server/scenarios/drill-file.ts';
import { checkFile } from '../../server/scenarios/load.ts';
import { findingText } from '../../server/scenarios/validate.ts';
import { SHIPPED } from './support/drills.ts';

describe('the shipped drills', () => {
  it('are all sound', () => {
    for (const file of drillFilesIn(DRILLS_FOLDER))
      expect(checkFile(file)).toEqual({ kind: 'drill', findings: [] });
  });

  it('cover what a trainee must have met', () => {
    expect(SHIPPED.map((one) => one.drill.id).sort()).toEqual(
      [
        'burner-left-lit',
        'emulsion-frost',
        'emulsion-overheated',
        'extraction-lost',
        'first-cutback-campaign',
        'first-emulsion-batch',
        'hot-aggregate',
        'just-this-once',
        'leaking-binder-valve',
        'power-dip',
        'relight-over-charged-mixer',
        'scale-off',
        'scanner',
        'vapour-and-detector',
        'wet-aggregate',
        'wrong-binder',
      ].sort(),
    );
    const competencies = new Set(
      SHIPPED.flatMap((one) => one.drill.expect.map((expected) => expected.competency)),
    );
    expect([...competencies].sort()).toEqual([...COMPETENCIES].sort());
  });

  it('can be told apart by name, and do not give away in the brief what goes wrong', () => {
    expect(new Set(SHIPPED.map((one) => one.drill.name)).size).toBe(SHIPPED.length);
    for (const { drill } of SHIPPED)
      for (const incident of drill.incidents) expect(drill.brief).not.toContain(incident.text);
  });
});

describe('a bad drill file', () => {
  let folder: string;
  const SOUND = readFileSync(join(DRILLS_FOLDER, '06-extraction-lost.yaml'), 'utf8');

  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'drill-'));
    mkdirSync(join(folder, 'drills'));
  });
  afterEach(() => rmSync(folder, { recursive: true, force: true }));

  const lineOf = (text: string, piece: string): number =>
    text.slice(0, text.indexOf(piece)).split('\n').length;
  const found = (from: string, to: string): { line: number; findings: string[] } => {
    expect(SOUND).toContain(from);
    const text = SOUND.replace(from, to);
    const file = join(folder, 'drills', 'bad.yaml');
    writeFileSync(file, text);
    const findings = checkFile(file).findings.map((one) => findingText({ ...one, file: basename(one.file) }));
    return { line: lineOf(SOUND, from), findings };
  };

  it('is sound as it stands', () => {
    expect(found('minutes: 20', 'minutes: 20').findings).toEqual([]);
  });

  it.each([
    [
      'a kind of fault that is not known',
      'equipment: hoodFanStopped',
      'equipment: hoodFanMelted',
      /oneOf\[0\]\.equipment: "hoodFanMelted" is not known here \(allowed: hoodFanStopped, /,
    ],
    [
      'a competency that is not known',
      'competency: faults',
      'competency: luck',
      /\.competency: "luck" is not known here \(allowed: reads the plant, fire discipline, batching, faults, communication\)/,
    ],
    [
      'a signal that is not known',
      'signal: extractionProved',
      'signal: extractionProven',
      /"extractionProven" is not known here \(allowed: .*extractionProved/,
    ],
    [
      'a command that is not known',
      'do: lightBurner',
      'do: lightUp',
      /"lightUp" is not known here \(allowed: .*lightBurner/,
    ],
    [
      'a condition that is not known',
      'is: step, in: [addingBinder]',
      'is: mood, in: [bad]',
      /\.is: "mood" is not known here \(allowed: after or signal or step/,
    ],
    [
      'a step that is not known',
      'is: step, in: [addingBinder]',
      'is: step, in: [addingBindr]',
      /\.in\[0\]: "addingBindr" is not known here \(allowed: .*addingBinder/,
    ],
    [
      'a field its command does not have',
      'do: lightBurner, tried: true',
      'do: lightBurner, with: { tank: 3 }',
      /\.with\.tank: is no field of lightBurner \(it has: none\)/,
    ],
    [
      'a pass mark above a hundred',
      'passMark: 70',
      'passMark: 170',
      /passMark: 170 is too large \(allowed: a number from 1 to 100\)/,
    ],
    ['a key that does not belong', 'minutes: 20', 'hours: 20', /hours: is no key that belongs here/],
    [
      'an expectation that comes after one that is not there',
      'after: [call]',
      'after: [shout]',
      /\.after\[0\]: names shout, and there is no such expectation \(there are: acknowledge, call, reset, clear\)/,
    ],
    [
      'a time written the wrong way round',
      'afterS: [2, 9]',
      'afterS: [9, 2]',
      /\.afterS: write the shorter time first/,
    ],
    [
      'a shift that is not there',
      'shifts/cutback-day.yaml',
      'shifts/no-day.yaml',
      /start\.shift: names .*no-day\.yaml, and there is no such file/,
    ],
    [
      'an order for a mix the shift does not have',
      'mix: cutback-patch',
      'mix: lemonade',
      /start\.change\.orders\[0\]\.mix: lemonade is none of the shift's mixes \(allowed: cutback-patch\)/,
    ],
  ])('names %s', (_, from, to, says) => {
    const { line, findings } = found(from, to);
    const text = findings.find((one) => says.test(one));
    expect(text, findings.join('\n')).toBeDefined();
    expect(text).toMatch(new RegExp(`^bad\\.yaml:${line}:\\d+ `));
  });

  it('names what is missing, what stands twice, and what says nothing', () => {
    expect(found('teaches: >-', 'teached: >-').findings.join()).toMatch(/teaches: is missing/);
    expect(found('- id: call\n', '- id: acknowledge\n').findings.join()).toMatch(
      /expect\[1\]\.id: acknowledge stands twice/,
    );
    expect(found('    by:\n      - { what: call, who: fitter }\n', '').findings.join()).toMatch(
      /expect\[1\]: give either by \(what is done\) or until \(what is reached\)/,
    );
  });
});
