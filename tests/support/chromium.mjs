// Finds a Chromium for the browser journeys, or installs one where that is a single safe command, or says what to do.
import { spawnSync } from 'node:child_process';
import { accessSync, constants, existsSync, readdirSync, statSync } from 'node:fs';
import { homedir } from 'node:os';
import { delimiter, join } from 'node:path';

const NAMES = [
  'chromium',
  'chromium-browser',
  'google-chrome-stable',
  'google-chrome',
  'chrome',
  'microsoft-edge',
];
const FIXED = [
  '/usr/bin/chromium',
  '/snap/bin/chromium',
  '/opt/google/chrome/chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
  'C:\\Program Files (x86)\\Google\\Chrome\\Application\\chrome.exe',
  'C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe',
];

const INSTRUCTION =
  'The browser journeys need Chromium or Chrome and none was found. Install one (Debian or Ubuntu: ' +
  '`sudo apt-get install chromium`; elsewhere: `npx playwright-core install chromium`), or set CHROMIUM_PATH ' +
  'to the program, then run `npm test` again.';

function runs(path) {
  try {
    accessSync(path, constants.X_OK);
    return statSync(path).isFile();
  } catch {
    return false;
  }
}

/** Browsers fetched by `npx playwright-core install`, newest first. */
function fetched() {
  const caches = [
    process.env.PLAYWRIGHT_BROWSERS_PATH,
    join(homedir(), '.cache/ms-playwright'),
    join(homedir(), 'Library/Caches/ms-playwright'),
    join(process.env.LOCALAPPDATA ?? homedir(), 'ms-playwright'),
  ].filter((folder) => folder !== undefined && existsSync(folder));
  const inside = [
    'chrome-linux/chrome',
    'chrome-linux64/chrome',
    'chrome-win/chrome.exe',
    'chrome-win64/chrome.exe',
    'chrome-mac/Chromium.app/Contents/MacOS/Chromium',
    'chrome-mac-arm64/Google Chrome for Testing.app/Contents/MacOS/Google Chrome for Testing',
  ];
  return caches.flatMap((cache) =>
    readdirSync(cache)
      .filter((name) => /^chromium-\d+$/.test(name))
      .sort((a, b) => Number(b.slice(9)) - Number(a.slice(9)))
      .flatMap((name) => inside.map((path) => join(cache, name, path))),
  );
}

/** Path of an installed browser, or null. */
function findInstalled() {
  const folders = (process.env.PATH ?? '').split(delimiter).filter(Boolean);
  const onPath = NAMES.flatMap((name) => folders.map((folder) => join(folder, name)));
  return [...onPath, ...FIXED, ...fetched()].find(runs) ?? null;
}

/** Debian, Ubuntu and their kin, as root: the one case in which installing needs no question and no password. */
function mayAptInstall() {
  return process.platform === 'linux' && process.getuid?.() === 0 && existsSync('/usr/bin/apt-get');
}

function aptInstall() {
  const apt = (...args) =>
    spawnSync('apt-get', args, {
      stdio: ['ignore', 'ignore', 'inherit'],
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    }).status === 0;
  console.log('no Chromium found: installing Debian’s with apt-get (about a minute) …');
  apt('update', '-q');
  return apt('install', '-y', '-q', '--no-install-recommends', 'chromium', 'fonts-dejavu-core');
}

/**
 * The browser to use: CHROMIUM_PATH when set, else one that is installed, else Debian's when that can be installed.
 * @returns {Promise<{ ok: true, path: string } | { ok: false, why: string }>}
 */
export async function findOrInstallChromium() {
  const wanted = process.env.CHROMIUM_PATH;
  if (wanted !== undefined && wanted !== '')
    return runs(wanted)
      ? { ok: true, path: wanted }
      : { ok: false, why: `CHROMIUM_PATH is set to ${wanted}, and there is no program there.` };
  const found = findInstalled();
  if (found !== null) return { ok: true, path: found };
  if (mayAptInstall() && aptInstall()) {
    const installed = findInstalled();
    if (installed !== null) return { ok: true, path: installed };
  }
  return { ok: false, why: INSTRUCTION };
}
