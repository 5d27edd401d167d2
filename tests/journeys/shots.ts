/** Pictures of every page at both sizes: `npx tsx tests/journeys/shots.ts URL FOLDER`, for a person to look at. */
import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { findOrInstallChromium } from '../support/chromium.mjs';
import { launch, openConsole, SIZES, type Size } from './support/browser.ts';
import { PAGES } from './support/pages.ts';

const [url, folder] = process.argv.slice(2);
if (url === undefined || folder === undefined) {
  console.error(
    'give the address of a running server and a folder: npx tsx tests/journeys/shots.ts URL FOLDER',
  );
  process.exit(2);
}
const found = await findOrInstallChromium();
if (!found.ok) {
  console.error(found.why);
  process.exit(1);
}
await mkdir(folder, { recursive: true });
const browser = await launch(found.path);
for (const size of Object.keys(SIZES) as Size[]) {
  const { page, complaints } = await openConsole(browser, url, size);
  for (const { path, name } of PAGES) {
    await page.goto(new URL(path, url).href);
    await page.getByRole('heading').first().waitFor();
    await page.waitForTimeout(600);
    const file = join(folder, `${name.toLowerCase()}-${size}.png`);
    await page.screenshot({ path: file });
    console.log(file);
  }
  for (const complaint of complaints) console.log(`! ${complaint}`);
}
await browser.close();
