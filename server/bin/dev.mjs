// `npm run dev`: the server from its sources, started again on every change, and the console with hot reload beside it.
import { requireNode } from './support/node-version.mjs';

requireNode();
import('./support/develop.mjs').then(({ develop }) => develop(process.argv.slice(2)));
