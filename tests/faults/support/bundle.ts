/** Builds a test's helper process into one file, so that starting it twenty times takes no time. */
import { join } from 'node:path';
import { build } from 'vite';
import { BUILD, ROOT } from '../../../server/bin/support/places.mjs';

export const bundle = async (source: string, name: string): Promise<string> => {
  const outDir = join(BUILD, 'test-helpers');
  await build({
    configFile: false,
    root: ROOT,
    publicDir: false,
    logLevel: 'error',
    build: {
      ssr: source,
      outDir,
      emptyOutDir: false,
      target: 'node20',
      rollupOptions: { output: { entryFileNames: `${name}.mjs` } },
    },
  });
  return join(outDir, `${name}.mjs`);
};
