/** Each requirement of the flame interlock is quoted by a test, and the README shows the table the data makes. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import {
  CAUSE_IDS,
  PERMISSIVES,
  TRIPS,
} from '../../machines/charts/flame-interlock/flame-interlock.causes.ts';
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

const table = (): string => {
  const sides = { binder: 'binder', feed: 'cutback feed', flame: 'flame' } as const;
  const permissives = PERMISSIVES.map(
    (one) =>
      `| ${one.id} | ${one.for.map((side) => sides[side]).join(', ')}${one.onlyToLight ? ' (to light)' : ''} | ${one.words.met} | ${one.cause} | ${one.clears} |`,
  );
  const trips = TRIPS.map((one) => `| ${one.id} | ${one.cause} | ${one.hazard} | ${one.clears} |`);
  return [
    '| ID | For | Must be so | Forbidden by | Met again by |',
    '| --- | --- | --- | --- | --- |',
    ...permissives,
    '',
    '| ID | Trips on | Hazard | Cause cleared by |',
    '| --- | --- | --- | --- |',
    ...trips,
  ].join('\n');
};

/** Cells without the padding a formatter may give them. */
const plain = (text: string): string => text.replace(/ *\| */g, '|').replace(/-{3,}/g, '---');

describe('README of the flame interlock', () => {
  it('holds the table the data makes', () => {
    const readme = readFileSync(join(HERE, '../../machines/charts/flame-interlock/README.md'), 'utf8');
    expect(plain(readme)).toContain(plain(table()));
  });
});
