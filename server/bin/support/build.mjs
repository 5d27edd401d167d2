// Builds the console and the server into .build, only when their sources changed since.
import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { digestOf } from './digest.mjs';
import { BUILD, CLIENT_BUILD, PAGES_BUILD, ROOT, SERVER_BUILD, SERVER_ENTRY } from './places.mjs';
import { PlainError, saying } from './say.mjs';

const LOCK = join(ROOT, 'package-lock.json');
const at = (folder) => join(ROOT, folder);

const isCurrent = (outDir, mainFile, digest) => {
  const stamp = join(outDir, '.digest');
  return existsSync(mainFile) && existsSync(stamp) && readFileSync(stamp, 'utf8') === digest;
};

/**
 * Builds beside the old one and swaps at the end: a build that is broken off leaves nothing half done. Several
 * configs land in one folder, one after the other.
 */
async function buildInto(outDir, digest, ...configs) {
  const { build } = await import('vite');
  const fresh = `${outDir}.${process.pid}`;
  const old = `${fresh}.old`;
  mkdirSync(BUILD, { recursive: true });
  try {
    for (const config of configs)
      await build({
        ...config,
        logLevel: 'warn',
        build: { ...config.build, outDir: fresh, emptyOutDir: config === configs[0] },
      });
    writeFileSync(join(fresh, '.digest'), digest);
    if (existsSync(outDir)) renameSync(outDir, old);
    renameSync(fresh, outDir);
  } catch (error) {
    throw new PlainError(`the build failed: ${error instanceof Error ? error.message : error}`);
  } finally {
    rmSync(fresh, { recursive: true, force: true });
    rmSync(old, { recursive: true, force: true });
  }
}

/** The server as one file, .build/server/cli.mjs; packages stay outside, in node_modules. */
export async function ensureServerBuilt() {
  const digest = digestOf([at('machines'), at('server')], [LOCK]);
  if (!isCurrent(SERVER_BUILD, SERVER_ENTRY, digest)) {
    await saying('building the server', () =>
      buildInto(SERVER_BUILD, digest, {
        configFile: false,
        root: ROOT,
        publicDir: false,
        build: {
          ssr: 'server/cli.ts',
          target: 'node20',
          sourcemap: true,
          rollupOptions: { output: { entryFileNames: 'cli.mjs', chunkFileNames: '[name].mjs' } },
        },
      }),
    );
  }
  return SERVER_ENTRY;
}

/** The console as static files in .build/client, with the config that stands in client/. */
export async function ensureClientBuilt() {
  const digest = digestOf([at('machines'), at('client')], [LOCK]);
  if (!isCurrent(CLIENT_BUILD, join(CLIENT_BUILD, 'index.html'), digest)) {
    await saying('building the console', () =>
      buildInto(CLIENT_BUILD, digest, { configFile: at('client/vite.config.ts'), root: at('client') }),
    );
  }
  return CLIENT_BUILD;
}

/** Pages that stand alone, one HTML file each: those whose entry stands in client/standalone. */
const PAGES = ['viewer', 'interlock'];

/** The pages that stand alone in .build/standalone, with the config that stands beside them. */
export async function ensurePagesBuilt() {
  const there = PAGES.filter((page) => existsSync(at(`client/standalone/${page}.html`)));
  const digest = digestOf([at('machines'), at('client')], [LOCK]);
  if (!isCurrent(PAGES_BUILD, join(PAGES_BUILD, `${there[0]}.html`), digest)) {
    const configFile = at('client/standalone/vite.config.ts');
    await saying('building the pages that stand alone', () =>
      buildInto(
        PAGES_BUILD,
        digest,
        ...there.map((mode) => ({ configFile, mode, root: at('client/standalone') })),
      ),
    );
  }
  return PAGES_BUILD;
}
