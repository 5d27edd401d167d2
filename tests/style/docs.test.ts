/** The documents tell the truth about the tree: paths in them exist, commands in them can be run. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { PARTS } from '../support/parts.mjs';
import { ROOT, read } from './sources.ts';

const DOCS = ['README.md', 'DEVELOPERS.md'];
const scripts: Record<string, string> = JSON.parse(read('package.json')).scripts;

/** NAME, THING, FOLDER: stands for whatever the reader calls it. */
const PLACEHOLDER = /(?:^|\/)(?!README|DEVELOPERS|LICENSE)[A-Z]{3,}/;

/** Paths named in backticks or linked to; a path with <a placeholder>, a NAME or * is a pattern, not a path. */
function pathsIn(text: string): string[] {
  const spans = [...text.matchAll(/`([^`\n]+)`/g)].map((found) => found[1] ?? '');
  const ticked = spans
    .flatMap((span) => span.split(/\s+/))
    .filter((word) => /^\.?\/?(machines|server|client|tests|scenarios|\.ci)\/[^<>*{}$]*$/.test(word));
  const linked = [...text.matchAll(/\]\(([^)#\s]+)[^)]*\)/g)]
    .map((found) => found[1] ?? '')
    .filter((target) => !/^(https?|mailto):/.test(target));
  return [...ticked.filter((word) => !PLACEHOLDER.test(word)), ...linked].map((path) =>
    path.replace(/[.,:;]+$/, ''),
  );
}

/** What is wrong with the commands a text tells people to run. */
function wrongCommandsIn(text: string): string[] {
  const wrong: string[] = [];
  for (const [, name = ''] of text.matchAll(/\bnpm run (?:-s |--silent )?([a-z][\w:-]*)/g))
    if (!(name in scripts)) wrong.push(`npm run ${name}`);
  for (const [, name = ''] of text.matchAll(/\bnpm (start|test)\b/g))
    if (!(name in scripts)) wrong.push(`npm ${name}`);
  for (const [, names = ''] of text.matchAll(/\bnode tests\/run\.mjs((?: [a-z]+)+)/g))
    for (const part of names.trim().split(' ')) if (!(part in PARTS)) wrong.push(`tests/run.mjs ${part}`);
  return wrong;
}

describe.each(DOCS)('%s', (doc) => {
  it('names only paths that exist', () => {
    const paths = pathsIn(read(doc));
    expect(paths.length).toBeGreaterThan(0);
    expect(paths.filter((path) => !existsSync(join(ROOT, path)))).toEqual([]);
  });

  it('names only commands that exist', () => {
    expect(read(doc)).toMatch(/npm (start|test)/);
    expect(wrongCommandsIn(read(doc))).toEqual([]);
  });
});

describe('the check itself', () => {
  it('finds paths and commands', () => {
    expect(
      pathsIn(
        'see `machines/no-such.ts`, `machines/<thing>/x.ts`, `machines/NAME.ts` and [this](server/gone.md#top).',
      ),
    ).toEqual(['machines/no-such.ts', 'server/gone.md']);
    expect(wrongCommandsIn('`npm run -s nothing` and `node tests/run.mjs unit nonsense`')).toEqual([
      'npm run nothing',
      'tests/run.mjs nonsense',
    ]);
  });
});
