// Everything that must be true before the program can run: packages installed, server (and console) built.

import { ensureClientBuilt, ensureServerBuilt } from './build.mjs';
import { ensureInstalled } from './install.mjs';

/** Returns the path of the built server. `client: true` builds the console too. */
export async function prepare({ client }) {
  await ensureInstalled();
  if (client) await ensureClientBuilt();
  return ensureServerBuilt();
}
