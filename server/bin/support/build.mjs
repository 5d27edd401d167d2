// Builds the console and the server into .build, only when their sources changed since.
import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { digestOf } from './digest.mjs';
import { BUILD, CLIENT_BUILD, ROOT, SERVER_BUILD, SERVER_ENTRY } from './places.mjs';
import { PlainError, saying } from './say.mjs';

const LOCK = join(ROOT, 'package-lock.json');
const at = (folder) => join(ROOT, folder);

const isCurrent = (outDir, mainFile, digest) => {
  const stamp = join(outDir, '.digest');
  return existsSync(mainFile) && existsSync(stamp) && readFileSync(stamp, 'utf8') === digest;
};

/** Builds beside the old one and swaps at the end: a build that is broken off leaves nothing half done. */
async function buildInto(outDir, digest, config) {
  const { build } = await import('vite');
  const fresh = `${outDir}.${process.pid}`;
  const old = `${fresh}.old`;
  mkdirSync(BUILD, { recursive: true });
  try {
    await build({
      ...config,
      logLevel: 'warn',
      build: { ...config.build, outDir: fresh, emptyOutDir: true },
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
