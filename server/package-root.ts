/** Where this package lies on disk, from its sources and from its built bundle alike. */
import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const findRoot = (from: string): string => {
  let folder = from;
  while (!existsSync(join(folder, 'package.json'))) {
    const above = dirname(folder);
    if (above === folder) throw new Error(`no package.json above ${from}`);
    folder = above;
  }
  return folder;
};

export const PACKAGE_ROOT = findRoot(dirname(fileURLToPath(import.meta.url)));
export const SCENARIOS_FOLDER = join(PACKAGE_ROOT, 'scenarios');
export const CLIENT_FOLDER = join(PACKAGE_ROOT, '.build', 'client');
