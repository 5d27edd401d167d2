/** Pictures and measurements of the console on fixtures, for a person to look at: `npx tsx tests/client/shots.ts FOLDER [NAME…]`. */
import { mkdir } from 'node:fs/promises';
import { chromium } from 'playwright-core';
import { axeFindings } from '../journeys/support/axe.ts';
import { layoutFaults } from '../journeys/support/layout.ts';
import { findOrInstallChromium } from '../support/chromium.mjs';
import { SHOTS } from './shot-list.ts';

const [folder, ...wanted] = process.argv.slice(2);
if (folder === undefined) {
  console.error('give a folder: npx tsx tests/client/shots.ts FOLDER [NAME…]');
  process.exit(2);
}
const URL_BASE = process.env.FIXTURE_URL ?? 'http://127.0.0.1:4441';
const SIZES = { wide: [1440, 900], laptop: [1280, 720], tablet: [820, 1180] } as const;

const found = await findOrInstallChromium();
if (!found.ok) throw new Error(found.why);
await mkdir(folder, { recursive: true });
const browser = await chromium.launch({
  executablePath: found.path,
  args: [
    '--no-sandbox',
    '--disable-gpu',
    '--disable-quic',
    '--no-first-run',
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-sync',
  ],
});
let faults = 0;
for (const shot of SHOTS) {
  if (wanted.length > 0 && !wanted.includes(shot.name)) continue;
  for (const [size, [width, height]] of Object.entries(SIZES)) {
    if (shot.sizes !== undefined && !shot.sizes.includes(size)) continue;
    const context = await browser.newContext({ viewport: { width, height }, hasTouch: size === 'tablet' });
    const page = await context.newPage();
    page.on('console', (message) => {
      if (message.type() === 'error') console.log(`! ${shot.name} ${size}: ${message.text()}`);
    });
    page.on('pageerror', (error) => console.log(`! ${shot.name} ${size}: ${error.message}`));
    // The runner names functions by a helper of its own, which functions sent to the page then look for.
    await page.addInitScript('globalThis.__name = (f) => f');
    if (shot.guide !== true)
      await page.addInitScript(() => localStorage.setItem('patchyard.guide', 'closed'));
    await page.goto(`${URL_BASE}${shot.path}`);
    await page.waitForTimeout(700);
    for (const step of shot.clicks ?? []) await page.locator(step).first().click();
    await page.waitForTimeout(200);
    await page.screenshot({ path: `${folder}/${shot.name}-${size}.png` });
    const found = [...(await layoutFaults(page, size === 'tablet')), ...(await axeFindings(page))];
    faults += found.length;
    for (const each of found) console.log(`${shot.name} ${size}: ${each}`);
    await context.close();
  }
}
await browser.close();
console.log(`${faults} findings`);
