// The parts of `npm test` in the order they run, and how each one is run and counted.
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join, relative } from 'node:path';
import { BUILD, ROOT } from '../../server/bin/support/places.mjs';
import { findOrInstallChromium } from './chromium.mjs';
import { runTool } from './tool.mjs';

/**
 * @typedef {{ name: string, why: string }} Failure
 * @typedef {{ part: string, passed: number, failures: Failure[], seconds: number }} PartResult
 */

const TYPED = ['machines', 'server', 'client', 'tests'];

/** A step that is one tool and one verdict. */
const verdict = (passed, why) => ({
  passed: passed ? 1 : 0,
  failures: passed ? [] : [{ name: why, why: '' }],
});

async function lint() {
  const code = await runTool('biome', ['check', '--error-on-warnings', '--max-diagnostics=50', '.']);
  return verdict(code === 0, 'biome found something; `npm run format` mends what can be mended by itself');
}

async function types() {
  const bad = [];
  for (const folder of TYPED)
    if ((await runTool('tsc', ['-p', join(folder, 'tsconfig.json')])) !== 0) bad.push(folder);
  return verdict(bad.length === 0, `type errors in ${bad.join(', ')}`);
}

/** What vitest wrote about its run; every test that did not pass counts as failed, skipped ones too. */
function readVitest(file, part) {
  const report = JSON.parse(readFileSync(file, 'utf8'));
  const failures = [];
  let passed = 0;
  for (const { name, status, message, assertionResults } of report.testResults) {
    const where = relative(ROOT, name);
    for (const test of assertionResults) {
      if (test.status === 'passed') passed++;
      else
        failures.push({ name: `${where}: ${test.fullName}`, why: test.failureMessages?.[0] ?? test.status });
    }
    if (status === 'failed' && !assertionResults.some((test) => test.status === 'failed'))
      failures.push({ name: `${where}: the file itself failed`, why: message });
  }
  if (passed + failures.length === 0) failures.push({ name: `${part}: no tests were found`, why: '' });
  return { passed, failures };
}

/** Parts that wait for servers, kills and pages much of the time: three at once keep two cores busy. */
const WAITING = ['--maxWorkers=3'];

const vitest = (part, env = {}, more = []) =>
  async function runVitest() {
    const file = join(BUILD, 'test-reports', `${part}.json`);
    mkdirSync(join(BUILD, 'test-reports'), { recursive: true });
    rmSync(file, { force: true });
    const args = [
      'run',
      '--config',
      'tests/vitest.config.ts',
      '--project',
      part,
      '--reporter=default',
      ...more,
    ];
    const code = await runTool('vitest', [...args, '--reporter=json', `--outputFile.json=${file}`], env);
    let result;
    try {
      result = readVitest(file, part);
    } catch {
      return {
        passed: 0,
        failures: [{ name: `${part}: vitest ended with ${code} and left no report`, why: '' }],
      };
    }
    if (code !== 0 && result.failures.length === 0)
      result.failures.push({ name: `${part}: vitest ended with ${code}, see its output above`, why: '' });
    return result;
  };

async function journeys() {
  const found = await findOrInstallChromium();
  if (!found.ok) return { passed: 0, failures: [{ name: 'journeys: no Chromium', why: found.why }] };
  return vitest('journeys', { CHROMIUM_PATH: found.path }, WAITING)();
}

export const PARTS = {
  lint,
  types,
  unit: vitest('unit'),
  explore: vitest('explore'),
  integration: vitest('integration', {}, WAITING),
  faults: vitest('faults', {}, WAITING),
  journeys,
};

/** @returns {Promise<PartResult[]>} */
export async function runParts(names) {
  const results = [];
  for (const part of names) {
    console.log(`\n── ${part} ${'─'.repeat(Math.max(0, 70 - part.length))}`);
    const startedMs = performance.now();
    const result = await PARTS[part]();
    results.push({ part, ...result, seconds: (performance.now() - startedMs) / 1000 });
  }
  return results;
}
