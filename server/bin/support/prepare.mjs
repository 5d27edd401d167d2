// Everything that must be true before the program can run: packages installed, server (and console) built.

import { ensureClientBuilt, ensurePagesBuilt, ensureServerBuilt } from './build.mjs';
import { ensureInstalled } from './install.mjs';

/** Returns the path of the built server. `client: true` builds the console too, `pages: true` the pages that stand alone. */
export async function prepare({ client, pages = client }) {
  await ensureInstalled();
  if (client) await ensureClientBuilt();
  if (pages) await ensurePagesBuilt();
  return ensureServerBuilt();
}
