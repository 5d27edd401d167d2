// Installs the packages of the lockfile when they are missing, incomplete or built for another Node.
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { ROOT } from './places.mjs';
import { PlainError, saying } from './say.mjs';

const NATIVE = join(ROOT, 'node_modules', 'better-sqlite3');

const packagesOf = (file) => JSON.parse(readFileSync(file, 'utf8')).packages;

/**
 * Why an install is needed, in words, or null. npm keeps what it really installed in a hidden lockfile;
 * comparing versions instead of file times survives clones, copies and branch changes.
 */
export function whyInstall(root) {
  const installed = join(root, 'node_modules', '.package-lock.json');
  if (!existsSync(installed)) return 'nothing is installed yet';
  const have = packagesOf(installed);
  for (const [name, wanted] of Object.entries(packagesOf(join(root, 'package-lock.json')))) {
    if (name === '' || wanted.optional || wanted.devOptional || wanted.peer || wanted.link) continue;
    const got = have[name];
    const short = name.replace(/^node_modules\//, '');
    if (got === undefined) return `${short} is missing`;
    if (got.version !== wanted.version) return `${short} is ${got.version}, ${wanted.version} is wanted`;
    if (!existsSync(join(root, name, 'package.json'))) return `${short} is missing`;
  }
  return null;
}

/** What a load of the native package depended on: the Node it was for and the very file. */
function nativeStamp() {
  const file = join(NATIVE, 'build', 'Release', 'better_sqlite3.node');
  return existsSync(file) ? `${process.versions.modules} ${statSync(file).mtimeMs}` : 'none';
}

/**
 * Whether the one native package loads in this Node: one built for Node 20 does not load in Node 24. Tried in a
 * process of its own, because a library that failed to load once cannot be loaded again by the same process.
 */
function nativeLoads() {
  const stampFile = join(ROOT, 'node_modules', '.patchyard-native');
  const stamp = nativeStamp();
  if (existsSync(stampFile) && readFileSync(stampFile, 'utf8') === stamp) return true;
  const trial = "new (require('better-sqlite3'))(':memory:').close()";
  const { status } = spawnSync(process.execPath, ['-e', trial], { cwd: ROOT, stdio: 'ignore' });
  if (status === 0) writeFileSync(stampFile, stamp);
  return status === 0;
}

/** Runs npm with its output on stderr; rejects with a plain message when it fails. */
function npm(args) {
  const script = process.env.npm_execpath;
  const isNpm = script !== undefined && /npm-cli\.c?js$/.test(script);
  const [command, first] = isNpm ? [process.execPath, [script]] : ['npm', []];
  return new Promise((resolve, reject) => {
    const child = spawn(command, [...first, ...args], {
      cwd: ROOT,
      stdio: ['ignore', 2, 2],
      shell: !isNpm && process.platform === 'win32',
    });
    child.on('error', () =>
      reject(new PlainError('npm was not found. It comes with Node: install Node from https://nodejs.org.')),
    );
    child.on('exit', (code) => {
      if (code === 0) resolve();
      else
        reject(
          new PlainError(
            `npm ${args[0]} failed (its own words are above). It needs the package registry within reach; ` +
              'better-sqlite3 also needs python3, make and a C++ compiler where no ready-made binary can be fetched.',
          ),
        );
    });
  });
}

/** Makes node_modules what the lockfile says. Quick (some ms) when there is nothing to do. */
export async function ensureInstalled() {
  const why = whyInstall(ROOT);
  if (why !== null) {
    await saying(`installing packages with npm ci (${why}; a minute or two)`, () =>
      npm(['ci', '--include=dev', '--no-progress']),
    );
  }
  if (nativeLoads()) return;
  await saying('building better-sqlite3 for this Node', () => npm(['rebuild', 'better-sqlite3']));
  if (!nativeLoads())
    throw new PlainError('better-sqlite3 does not load. Delete node_modules and run the same command again.');
}
