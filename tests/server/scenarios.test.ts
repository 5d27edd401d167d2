/** Every scenario file that is shipped is sound, with all the files it names. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { checkFile } from '../../server/scenarios/load.ts';
import { findingText } from '../../server/scenarios/validate.ts';

const FILES = readdirSync('scenarios', { recursive: true, encoding: 'utf8' }).filter((name) =>
  name.endsWith('.yaml'),
);

describe('shipped scenarios', () => {
  it('are there', () => {
    for (const name of ['demo-day', 'emulsion-day', 'cutback-day', 'reckless-day'])
      expect(FILES).toContain(join('shifts', `${name}.yaml`));
  });

  it.each(FILES)('%s is sound', (name) => {
    expect(checkFile(join('scenarios', name)).findings.map(findingText)).toEqual([]);
  });
});
