// `npm test`: installs what is missing, runs every part, goes on after a failing one, ends with `N passed, N failed`.
import { requireNode } from '../server/bin/support/node-version.mjs';

requireNode();

const { ensureInstalled } = await import('../server/bin/support/install.mjs');
const { failWith } = await import('../server/bin/support/say.mjs');
const { PARTS, runParts } = await import('./support/parts.mjs');
const { printReport } = await import('./support/report.mjs');

const asked = process.argv.slice(2);
const unknown = asked.filter((name) => !(name in PARTS));
if (unknown.length > 0) {
  console.error(`no part called ${unknown.join(', ')}. Parts: ${Object.keys(PARTS).join(', ')}`);
  process.exit(2);
}

try {
  await ensureInstalled();
} catch (error) {
  failWith(error);
}

const startedMs = performance.now();
const results = await runParts(asked.length > 0 ? asked : Object.keys(PARTS));
process.exitCode = printReport(results, (performance.now() - startedMs) / 1000);
