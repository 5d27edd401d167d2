// `npm start`: from a fresh clone to a running server. Needs nothing but Node; further arguments go to `serve`.
import { requireNode } from './support/node-version.mjs';

requireNode();

// Imported late: what follows may use what an old Node cannot read.
import('./support/run.mjs').then(({ run }) => run(['serve', ...process.argv.slice(2)], { client: true }));
