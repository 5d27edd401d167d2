// Runs a tool from node_modules with its output shown, and gives it up when it hangs.
import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { ROOT } from '../../server/bin/support/places.mjs';

const PACKAGES = { biome: '@biomejs/biome', tsc: 'typescript', vitest: 'vitest' };
const LIMIT_MS = 8 * 60_000;

/** The script behind a tool's name: run by this Node itself, so that it works without a shell and on any system. */
function scriptOf(tool) {
  const folder = join(ROOT, 'node_modules', PACKAGES[tool]);
  const { bin } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
  return join(folder, typeof bin === 'string' ? bin : bin[tool]);
}

/** Exit code of the tool; 124 when it was stopped for taking too long. */
export function runTool(tool, args, env = {}) {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [scriptOf(tool), ...args], {
      cwd: ROOT,
      stdio: ['ignore', 'inherit', 'inherit'],
      env: { ...process.env, ...env },
    });
    const timer = setTimeout(() => {
      console.log(`${tool} was stopped after ${LIMIT_MS / 60_000} minutes`);
      child.kill('SIGKILL');
      resolve(124);
    }, LIMIT_MS);
    child.on('exit', (code) => {
      clearTimeout(timer);
      resolve(code ?? 1);
    });
  });
}
