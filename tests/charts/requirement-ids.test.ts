/** Each requirement of the flame interlock is quoted by a test, and the README shows the table the data makes. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { CAUSE_IDS } from '../../machines/charts/flame-interlock/flame-interlock.causes.ts';
import { INHIBITABLE, UPKEEP } from '../../machines/charts/flame-interlock/flame-interlock.upkeep.ts';
import { matrixTable, requirementsTable } from '../../machines/charts/flame-interlock/requirements-table.ts';
import { NEVER } from '../explore/never-rules.ts';

const HERE = import.meta.dirname;
const textOf = (folder: string): string =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.test.ts'))
    .map((name) => readFileSync(join(folder, name), 'utf8'))
    .join('\n');

describe('requirement IDs', () => {
  // A name of a test quotes an ID as 'FI-01 …' or "NR-01 …" at the start of a string, after a colon or semicolon.
  const tests = textOf(join(HERE, '..'));
  it.each([...CAUSE_IDS])('%s is quoted by a test', (id) => {
    expect(tests).toMatch(new RegExp(`['\`]${id} [a-z]`));
  });
  it.each(Object.keys(NEVER))('%s is quoted by a test', (id) => {
    expect(tests).toMatch(new RegExp(`${id}[ ,:;\`]`));
  });
});

/** Cells without the padding a formatter may give them. */
const plain = (text: string): string => text.replace(/ *\| */g, '|').replace(/-{3,}/g, '---');

describe('README of the flame interlock', () => {
  const readme = plain(readFileSync(join(HERE, '../../machines/charts/flame-interlock/README.md'), 'utf8'));
  it('holds the table the data makes', () => {
    expect(readme).toContain(plain(requirementsTable()));
  });
  it('holds the cause-and-effect matrix the data makes', () => {
    expect(readme).toContain(plain(matrixTable()));
  });
});

describe('upkeep of the interlocks', () => {
  it('every cause names the never-rules that verify it, and each of them exists', () => {
    for (const id of CAUSE_IDS) {
      expect(UPKEEP[id].verifiedBy.length, id).toBeGreaterThan(0);
      for (const rule of UPKEEP[id].verifiedBy) expect(NEVER, `${id} ${rule}`).toHaveProperty(rule);
    }
  });
  it('no cause that keeps flame and cutback apart can be inhibited: none of the interlock, none of the burner, none of the cutback tank', () => {
    expect(INHIBITABLE).toEqual(['TE-01', 'TE-05']);
  });
});
