// Where things are, from wherever the command was started.
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = resolve(dirname(fileURLToPath(import.meta.url)), '../../..');
export const BUILD = join(ROOT, '.build');
export const CLIENT_BUILD = join(BUILD, 'client');
export const PAGES_BUILD = join(BUILD, 'standalone');
export const SERVER_BUILD = join(BUILD, 'server');
export const SERVER_ENTRY = join(SERVER_BUILD, 'cli.mjs');
