#!/usr/bin/env node
// The command line: builds what is missing or stale, then runs the command in this very process.
import { requireNode } from './support/node-version.mjs';

requireNode();

const args = process.argv.slice(2);
// Only a server that shows the console needs the console built.
const asksHelp = args.includes('--help') || args.includes('-h');
const client = args[0] === 'serve' && !asksHelp;
const pages = client || (args[0] === 'page' && !asksHelp);
// Imported late: what follows may use what an old Node cannot read.
import('./support/run.mjs').then(({ run }) => run(args, { client, pages }));
