/** `check` of specifications, and of mixes against the specification they name. */
import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import { checkFile } from '../../server/scenarios/load.ts';
import { findingText } from '../../server/scenarios/validate.ts';
import { scratchFolder } from './support/tools.ts';

let folder: string;

/** The line of a file on which a piece of text stands, from 1. */
const lineOf = (file: string, piece: string): number =>
  readFileSync(file, 'utf8')
    .split('\n')
    .findIndex((line) => line.includes(piece)) + 1;

const edited = (name: string, from: string, to: string): string => {
  const file = join(folder, name);
  const text = readFileSync(file, 'utf8');
  if (!text.includes(from)) throw new Error(`${name} holds no ${from}`);
  writeFileSync(file, text.replace(from, to));
  return file;
};
const shown = (findings: readonly Parameters<typeof findingText>[0][] | undefined): string[] =>
  (findings ?? []).map((one) => findingText(one).replaceAll(`${folder}/`, ''));
const found = (file: string): string[] => shown(checkFile(file).findings);
const notes = (file: string): string[] => shown(checkFile(file).notes);

beforeEach(() => {
  folder = scratchFolder();
  for (const sub of ['mixes', 'specifications', 'plants', 'people', 'shifts'])
    cpSync(join('scenarios', sub), join(folder, sub), { recursive: true });
});

const SPEC = 'specifications/emulsion-patch.yaml';

describe('check of a specification', () => {
  it.each(['cutback-patch', 'emulsion-patch', 'dense-cold-laid'])('%s is sound', (name) => {
    const checked = checkFile(join(folder, `specifications/${name}.yaml`));
    expect(checked.kind).toBe('specification');
    expect(checked.findings).toEqual([]);
  });

  it.each([
    ['property: coatedPct', 'property: coatdPct', /coatdPct|is no property a test gives/],
    ['coatedPct, from: 90', 'coatedPct, from: 130', /between 0 and 100/],
    ["coatedPct, from: 90, unit: '%'", 'coatedPct, from: 90, unit: kg', /coatedPct is given in %/],
    ['bondKgCm2, from: 2,', 'bondKgCm2,', /a limit needs from, to or both/],
    ['from: 20, to: 80', 'from: 90, to: 80', /from 90 lies above to 80/],
    [
      'source: IRC:SP:100 Table 6.9, status: published',
      'source: IRC:SP:100 Table 6.9, status: certain',
      /"certain" is not known here \(allowed: published, common practice, from memory\)/,
    ],
    ['rule: each', 'rule: most', /"most" is not known here \(allowed: each, mean, share within\)/],
    ['rule: each', 'rule: share within', /needs 3 results or more of gradation/],
    ['{ gradation: 1,', '{ gradation: 9,', /a short lot cannot need more samples than a full one/],
    [
      'when: { absorptionToPct: 1 }',
      'when: { absorptionFromPct: 2, absorptionToPct: 1 }',
      /must lie below absorptionToPct/,
    ],
    ['  bond: 1\n', '  bonds: 1\n', /bonds/],
    ['shelfLife: { days: 60', 'shelfLife: { days: 0', /0 is too small/],
  ])('%s made %s is named with its line', (from, to, words) => {
    const file = edited(SPEC, from, to);
    const lines = found(file);
    expect(lines.join('\n')).toMatch(words);
    for (const line of lines) expect(line).toMatch(/^specifications\/emulsion-patch\.yaml:\d+:\d+ /);
  });

  it('points at the very line of a wrong limit', () => {
    const file = edited(SPEC, 'coatedPct, from: 90', 'coatedPct, from: 130');
    expect(found(file)[0]).toContain(`emulsion-patch.yaml:${lineOf(file, 'from: 130')}:`);
  });

  it('notes limits that leave one value alone, at the line of the condition', () => {
    const file = join(folder, SPEC);
    expect(notes(file)).toEqual([
      expect.stringMatching(/leave 5\.5 % alone for stone that drinks more than 1\.5 % water/),
    ]);
    expect(found(file)).toEqual([]);
  });
});

describe('check of a mix against its specification', () => {
  const MIX = 'mixes/emulsion-patch-open.yaml';

  it('finds the specification it names missing, at that line', () => {
    const file = edited(MIX, 'specification: emulsion-patch', 'specification: none-such');
    expect(found(file)).toEqual([
      expect.stringMatching(
        new RegExp(
          `^${MIX}:${lineOf(file, 'specification: none-such')}:16 specification: names .*none-such\\.yaml, and there is no such file$`,
        ),
      ),
    ]);
  });

  it('notes a dose of 7 % at its line, on aggregate and of mix, and what dose would do; the file stays sound', () => {
    const file = edited(MIX, 'dosePct: 8.8', 'dosePct: 7');
    expect(found(file)).toEqual([]);
    const [first] = notes(file);
    expect(first).toContain(`${MIX}:${lineOf(file, 'dosePct: 7 ')}:12 binder.dosePct: `);
    expect(first).toContain(
      'is 4.20 % of aggregate, 4.03 % of mix; the limit is 4.5 to 5.5 % of mix. A dose of 7.85 %',
    );
  });

  it('notes a specification of the other family', () => {
    const file = edited(MIX, 'specification: emulsion-patch', 'specification: cutback-patch');
    expect(notes(file).join('\n')).toContain(
      'is of emulsion, and specification cutback-patch is for cutback mixes',
    );
  });
});

describe('check of a shift', () => {
  it('holds its mixes against their specifications with the stone of its plant', () => {
    const file = join(folder, 'shifts/emulsion-day.yaml');
    expect(found(file)).toEqual([]);
    expect(notes(file).join('\n')).toContain('through 0.6 mm, and the limit is 0 to 4 %');
  });

  it('finds nothing against the open-graded mixes, dosed and graded for their specifications', () => {
    const emulsion = edited(
      'shifts/emulsion-day.yaml',
      'mixes/emulsion-patch.yaml',
      'mixes/emulsion-patch-open.yaml',
    );
    writeFileSync(
      emulsion,
      readFileSync(emulsion, 'utf8').replaceAll('mix: emulsion-patch,', 'mix: emulsion-patch-open,'),
    );
    const cutback = edited(
      'shifts/cutback-day.yaml',
      'mixes/cutback-patch.yaml',
      'mixes/cutback-patch-open.yaml',
    );
    writeFileSync(
      cutback,
      readFileSync(cutback, 'utf8').replaceAll('mix: cutback-patch,', 'mix: cutback-patch-open,'),
    );
    for (const file of [emulsion, cutback]) {
      expect(found(file)).toEqual([]);
      expect(notes(file)).toEqual([]);
    }
  });
});
