/** The command line: help, wrong use, one-line errors and exit codes. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { main } from '../../server/cli.ts';
import { openSqliteStore } from '../../server/store/sqlite.ts';
import { sampleRecord } from '../record/samples.ts';
import { scratchFolder } from './support/tools.ts';

let out: string[];
let err: string[];

beforeEach(() => {
  out = [];
  err = [];
  vi.spyOn(console, 'log').mockImplementation((line) => void out.push(String(line)));
  vi.spyOn(console, 'error').mockImplementation((line) => void err.push(String(line)));
});
afterEach(() => vi.restoreAllMocks());

/** Exit code; what was printed is in `out` and `err`. */
const call = (...argv: string[]): Promise<number> => main(argv);

describe('help', () => {
  it('lists the commands', async () => {
    expect(await call('--help')).toBe(0);
    for (const name of ['serve', 'run', 'check', 'verify']) expect(out.join()).toContain(`  ${name}`);
    expect(out.join()).toContain('Not a safety-rated controller');
  });

  it.each(['serve', 'run', 'check', 'verify'])('%s --help tells its options', async (name) => {
    expect(await call(name, '--help')).toBe(0);
    expect(out.join()).toMatch(new RegExp(`^patchyard ${name} `));
    expect(await call('help', name)).toBe(0);
    expect(out[1]).toBe(out[0]);
  });
});

describe('wrong use', () => {
  it.each([
    [[], 2, ''],
    [['bake'], 2, 'There is no command bake: the commands are serve, run, check,'],
    [['constructor'], 2, 'There is no command constructor'],
    [['serve', '--prot', '1'], 2, "Unknown option '--prot'"],
    [['serve', '--port', '99999'], 2, '--port 99999 is not a whole number from 0 to 65535.'],
    [['serve', '--speed', '7'], 2, '--speed 7 is not one of 1, 10, 60.'],
    [['serve', '--host', '0.0.0.0'], 1, '--host 0.0.0.0 is refused: there are no accounts yet'],
    [['run'], 2, 'run needs one shift file.'],
    [['run', 'none.yaml'], 1, 'none.yaml:1:1 there is no such file'],
    [
      ['run', 'scenarios/people/demo-yard.yaml'],
      1,
      'demo-yard.yaml is a people file: name a shift file here.',
    ],
    [['serve', '--data', ''], 2, '--data needs a value.'],
    [['serve', '--port', '0', '--data', 'package.json'], 1, 'package.json is a file, not a data folder'],
    [
      ['serve', '--port', '0', '--data', 'package.json/a/b'],
      1,
      'Data folder package.json/a/b cannot be made, /',
    ],
    [
      ['run', 'scenarios/shifts/emulsion-day.yaml', '--data', 'package.json/a'],
      1,
      'Data folder package.json/a cannot be made, /',
    ],
    [['run', 'x.yaml', '--seed', '-1'], 2, '--seed'],
    [['run', 'x.yaml', '--seed', '1.5'], 2, '--seed 1.5 is not a whole number'],
    [
      ['run', 'scenarios/shifts/emulsion-day.yaml', '--record', 'some'],
      2,
      '--record some is not one of none, chain.',
    ],
    [['check'], 2, 'check needs a file.'],
    [['verify', '--data', 'no-such-folder'], 2, 'There is no record to read in no-such-folder'],
  ] as const)('%j ends with %i: %s', async (argv, code, message) => {
    expect(await call(...argv)).toBe(code);
    expect(err.join('\n')).toContain(message);
    expect(err.join('\n').split('\n').length).toBe(1);
  });
});

describe('a data folder that the system itself refuses', () => {
  it.each([
    ['serve', ['--port', '0'], '/proc/no-such', /^Data folder \/proc\/no-such cannot be made \(E[A-Z]+\): /],
    ['serve', ['--port', '0'], '/proc/no/such', /^Data folder \/proc\/no\/such cannot be made \(E[A-Z]+\): /],
    ['run', ['scenarios/shifts/emulsion-day.yaml'], '/proc/no-such', /cannot be made \(E[A-Z]+\): /],
    ['run', ['scenarios/shifts/emulsion-day.yaml'], '/proc', /^Data folder \/proc cannot be (written|made)/],
  ] as const)('%s %j --data %s ends in one line', async (command, args, folder, words) => {
    expect(await call(command, ...args, '--data', folder)).toBe(1);
    expect(err.join('\n')).toMatch(words);
    expect(err.join('\n').split('\n').length).toBe(1);
  });
});

describe('check', () => {
  it('ends with 0 for sound files and says so', async () => {
    expect(await call('check', 'scenarios/shifts/emulsion-day.yaml', 'scenarios/people/demo-yard.yaml')).toBe(
      0,
    );
    expect(out).toEqual([
      'scenarios/shifts/emulsion-day.yaml: a sound shift file',
      'scenarios/people/demo-yard.yaml: a sound people file',
    ]);
    // Sound all the same: what the mix's dose and grading say against its specification is told as notes.
    expect(err.length).toBeGreaterThan(0);
    for (const line of err) expect(line).toContain('note:');
  });

  it('ends with 1 and the findings', async () => {
    const file = join(scratchFolder(), 'crew.yaml');
    writeFileSync(file, 'kind: people\npeople:\n  - { id: kim, name: Kim, role: cook }\n');
    expect(await call('check', file)).toBe(1);
    expect(err[0]).toContain(`${file}:3:33 people[0].role: "cook" is not known here (allowed: operator, `);
  });
});

describe('verify', () => {
  it('tells a whole record from a changed one', async () => {
    const folder = scratchFolder();
    const store = openSqliteStore(folder);
    const sealed = sampleRecord(30);
    await store.append(sealed);
    expect(await call('verify', '--data', folder)).toBe(0);
    expect(out[0]).toContain(`31 entries, head ${sealed[30]?.entry.hash}`);
    await store.close();
    const { default: Database } = await import('better-sqlite3');
    const db = new Database(join(folder, 'record.sqlite'));
    db.prepare('UPDATE entries SET hash = ? WHERE seq = 12').run('0'.repeat(64));
    db.close();
    expect(await call('verify', '--data', folder)).toBe(1);
    expect(err[0]).toContain('is not whole at entry 12');
  });
});
