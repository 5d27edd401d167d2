// Prepares what is needed, then runs the built server's command line in this very process.
import { pathToFileURL } from 'node:url';
import { prepare } from './prepare.mjs';
import { failWith } from './say.mjs';

/** `args` as on the command line, the command first. In-process, so that signals and exit codes need no relay. */
export async function run(args, options) {
  try {
    const entry = await prepare(options);
    process.argv = [process.argv[0], entry, ...args];
    await import(pathToFileURL(entry).href);
  } catch (error) {
    failWith(error);
  }
}
