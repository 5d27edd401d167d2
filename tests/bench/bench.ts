/** `npm run bench [-- --json] [-- appends headless …]`: figures of this machine, measured now, nothing remembered. */
import { cpus } from 'node:os';
import { benchAppends } from './appends.bench.ts';
import { benchDrills } from './drills.bench.ts';
import { benchHeadless } from './headless.bench.ts';
import { benchKeeping } from './keeping.bench.ts';
import { benchLab } from './lab.bench.ts';
import { benchLatency } from './latency.bench.ts';
import { type Figure, tableOf } from './measure.ts';
import { benchMixes } from './mixes.bench.ts';
import { benchPatches } from './patches.bench.ts';
import { benchReplay } from './replay.bench.ts';
import { benchReports } from './reports.bench.ts';
import { benchStock } from './stock.bench.ts';
import { benchTrace } from './trace.bench.ts';
import { benchTransitions } from './transitions.bench.ts';
import { benchVerify } from './verify.bench.ts';

const BENCHES: { readonly [name: string]: () => Promise<Figure[]> } = {
  headless: benchHeadless,
  drills: benchDrills,
  transitions: benchTransitions,
  appends: benchAppends,
  latency: benchLatency,
  keeping: benchKeeping,
  replay: benchReplay,
  verify: benchVerify,
  reports: benchReports,
  mixes: benchMixes,
  patches: benchPatches,
  stock: benchStock,
  trace: benchTrace,
  lab: benchLab,
};

const args = process.argv.slice(2);
const asJson = args.includes('--json');
const asked = args.filter((arg) => arg !== '--json');
const unknown = asked.filter((name) => !(name in BENCHES));
if (unknown.length > 0) {
  console.error(`no bench called ${unknown.join(', ')}. There are: ${Object.keys(BENCHES).join(', ')}`);
  process.exit(2);
}

const figures: Figure[] = [];
for (const [name, bench] of Object.entries(BENCHES)) {
  if (asked.length > 0 && !asked.includes(name)) continue;
  if (!asJson) console.log(name);
  const found = await bench();
  figures.push(...found);
  if (!asJson) console.log(`${tableOf(found)}\n`);
}

const machine = `${cpus().length} × ${cpus()[0]?.model ?? 'unknown processor'}, Node ${process.version}`;
if (asJson) console.log(JSON.stringify({ machine, figures }, null, 2));
else console.log(`on ${machine}`);
