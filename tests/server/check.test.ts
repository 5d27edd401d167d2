/** `check`: every finding names file, line, column and path, and what may stand there. */
import { cpSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import { loadPlantOrShift } from '../../server/scenarios/choose.ts';
import { checkFile, KINDS, loadShift } from '../../server/scenarios/load.ts';
import { findingText } from '../../server/scenarios/validate.ts';
import { scratchFolder } from './support/tools.ts';

let folder: string;

/** Writes a file into the scratch scenarios; `edit` changes one piece of the sound text, which must be there. */
const put = (name: string, text: string): string => {
  const file = join(folder, name);
  writeFileSync(file, text);
  return file;
};
const edited = (name: string, from: string, to: string): string => {
  const text = readFileSync(join(folder, name), 'utf8');
  if (!text.includes(from)) throw new Error(`${name} holds no ${from}`);
  return put(name, text.replace(from, to));
};

const found = (file: string): string[] =>
  checkFile(file).findings.map((finding) => findingText(finding).replaceAll(`${folder}/`, ''));

const PEOPLE = `kind: people
people:
  - id: kim
    name: Kim
    role: operator
  - id: noor
    name: Noor
    role: supervisor
`;

const SHIFT = `kind: shift
id: test-day
name: Test day
plant: plants/demo-yard.yaml
people: people/crew.yaml
mixes:
  - mixes/emulsion-patch.yaml
date: 2026-05-04
startsAt: "06:00"
hours: 8
seed: 1
weather:
  startC: 8
  warmestC: 17
orders:
  - mix: emulsion-patch
    tonnes: 40
    bay: 1
standIn:
  person: kim
  skill: good
`;

beforeEach(() => {
  folder = scratchFolder();
  for (const sub of ['mixes', 'plants'])
    cpSync(join('scenarios', sub), join(folder, sub), { recursive: true });
  for (const sub of ['people', 'shifts']) mkdirSync(join(folder, sub));
  put('people/crew.yaml', PEOPLE);
  put('shifts/test-day.yaml', SHIFT);
});

describe('check', () => {
  it('finds nothing in sound files', () => {
    expect(found(join(folder, 'shifts/test-day.yaml'))).toEqual([]);
    expect(found(join(folder, 'people/crew.yaml'))).toEqual([]);
    expect(loadShift(join(folder, 'shifts/test-day.yaml')).scenario).toMatchObject({
      shift: { id: 'test-day' },
      mixes: [{ id: 'emulsion-patch' }],
      people: [{ id: 'kim' }, { id: 'noor' }],
    });
  });

  it('names the line of a wrong value and the values allowed', () => {
    expect(found(edited('people/crew.yaml', 'role: operator', 'role: operater'))).toEqual([
      'people/crew.yaml:5:11 people[0].role: "operater" is not known here (allowed: operator, supervisor, quality officer, storekeeper, trainer, trainee, auditor)',
    ]);
  });

  it('names a key that does not belong, and those that do', () => {
    expect(found(edited('people/crew.yaml', 'name: Noor', 'nmae: Noor'))).toEqual([
      'people/crew.yaml:6:5 people[1].name: is missing (allowed: text)',
      'people/crew.yaml:7:5 people[1].nmae: is no key that belongs here (allowed: the keys id, name, role)',
    ]);
  });

  it('names a number out of its range', () => {
    expect(found(edited('shifts/test-day.yaml', 'hours: 8', 'hours: 80'))).toEqual([
      'shifts/test-day.yaml:10:8 hours: 80 is too large (allowed: a number above 0 up to 14)',
    ]);
    expect(found(edited('shifts/test-day.yaml', 'hours: 80', 'hours: eight'))).toEqual([
      'shifts/test-day.yaml:10:8 hours: is "eight" (allowed: a number above 0 up to 14)',
    ]);
  });

  it('names a time of day and a date of the wrong form', () => {
    expect(found(edited('shifts/test-day.yaml', '"06:00"', '"6 am"'))).toEqual([
      'shifts/test-day.yaml:9:11 startsAt: write a time of day as HH:MM',
    ]);
    expect(found(edited('shifts/test-day.yaml', '2026-05-04', '2026-13-04')).join()).toContain(
      'shifts/test-day.yaml:8:7 date: ',
    );
  });

  it('names a duplicate key and text that is no YAML', () => {
    expect(found(edited('shifts/test-day.yaml', 'seed: 1', 'seed: 1\nseed: 2'))).toEqual([
      'shifts/test-day.yaml:12:1 Map keys must be unique',
    ]);
    expect(found(put('people/crew.yaml', 'kind: people\npeople: [\n'))[0]).toMatch(
      /^people\/crew\.yaml:\d+:\d+ /,
    );
  });

  it('names a duplicate id', () => {
    expect(found(edited('people/crew.yaml', 'id: noor', 'id: kim'))).toEqual([
      'people/crew.yaml:6:9 people[1].id: kim stands twice',
    ]);
  });

  it('names a file that is not there, in the shift that names it', () => {
    expect(found(edited('shifts/test-day.yaml', 'people/crew.yaml', 'people/nobody.yaml')).join()).toMatch(
      /^shifts\/test-day\.yaml:5:9 people: names .*people\/nobody\.yaml, and there is no such file/,
    );
  });

  it('names what does not fit together', () => {
    const text = SHIFT.replace('mix: emulsion-patch', 'mix: lemonade')
      .replace('bay: 1', 'bay: 9')
      .replace('person: kim', 'person: lee');
    expect(found(put('shifts/test-day.yaml', text))).toEqual([
      'shifts/test-day.yaml:16:10 orders[0].mix: lemonade is in none of the mix files (allowed: emulsion-patch)',
      expect.stringMatching(
        /^shifts\/test-day\.yaml:18:10 orders\[0\]\.bay: the plant has no bay 9 \(allowed: 1, /,
      ),
      'shifts/test-day.yaml:20:11 standIn.person: lee is not in the people file (allowed: kim, noor)',
    ]);
  });

  it('passes on what is wrong in a file the shift names', () => {
    edited('people/crew.yaml', 'role: supervisor', 'role: king');
    expect(found(join(folder, 'shifts/test-day.yaml')).join()).toContain(
      'people/crew.yaml:8:11 people[1].role: "king"',
    );
  });

  it('names the incident that is unknown, and what each kind needs', () => {
    const text = `${SHIFT}incidents:
  - what: earthquake
    atMin: 10
  - what: instrument
    atMin: 10
    tag: hopperKgs
    fault: stuck
`;
    const [first, second, ...rest] = found(put('shifts/test-day.yaml', text));
    expect(first).toBe(
      'shifts/test-day.yaml:23:11 incidents[0].what: "earthquake" is not known here (allowed: instrument or equipment)',
    );
    expect(second).toMatch(
      /^shifts\/test-day\.yaml:27:10 incidents\[1\]\.tag: "hopperKgs" is not known here \(allowed: .*hopperKg, /,
    );
    expect(rest).toEqual([]);
  });

  it('names the kind it does not know, and a file that is not there', () => {
    expect(found(put('x.yaml', 'kind: recipe\n'))).toEqual([
      `x.yaml:1:7 kind: "recipe" is not a kind of scenario file (allowed: ${KINDS.join(', ')})`,
    ]);
    expect(found(put('x.yaml', 'name: x\n'))).toEqual([
      `x.yaml:1:1 kind: is missing (allowed: ${KINDS.join(', ')})`,
    ]);
    expect(found(put('x.yaml', ''))).toEqual([`x.yaml:1:1 kind: is missing (allowed: ${KINDS.join(', ')})`]);
    expect(found(join(folder, 'none.yaml'))).toEqual(['none.yaml:1:1 there is no such file']);
    expect(found(folder)[0]).toContain('cannot be read (EISDIR)');
  });

  it('--plant takes a plant in place of the one the shift names, or a shift', () => {
    const shift = join(folder, 'shifts/test-day.yaml');
    const plant = edited('plants/demo-yard.yaml', 'kind: plant', 'kind: plant ');
    writeFileSync(plant, readFileSync(plant, 'utf8').replace(/^name: .*$/m, 'name: Another yard'));
    expect(loadPlantOrShift(shift, plant, 'none.yaml').plant.name).toBe('Another yard');
    expect(loadPlantOrShift(undefined, shift, 'none.yaml').shift.id).toBe('test-day');
    expect(loadPlantOrShift(undefined, undefined, shift).shift.id).toBe('test-day');
    expect(() => loadPlantOrShift(shift, join(folder, 'people/crew.yaml'), 'none.yaml')).toThrow(
      /crew\.yaml is not a plant file: its kind is people\.$/,
    );
    expect(() => loadPlantOrShift(undefined, join(folder, 'none.yaml'), shift)).toThrow(
      /there is no such file\.$/,
    );
  });

  it('is not led astray by a file that grows without end when read', () => {
    const bomb = ['kind: people', 'a: &a [x, x, x, x, x, x, x, x, x]'];
    for (const [name, of] of ['ba', 'cb', 'dc', 'ed', 'fe', 'gf', 'hg'])
      bomb.push(`${name}: &${name} [${Array(9).fill(`*${of}`).join(', ')}]`);
    expect(found(put('x.yaml', bomb.join('\n'))).join()).toMatch(/alias/i);
  });
});
