/**
 * The replay in headless Chromium, on the page that stands alone and from a file on the disk: how soon there is
 * something to see, how long checking and running the charts again take, and how far off any moment is.
 */
import { existsSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { type Browser, chromium, type Page } from 'playwright-core';
import type { Scenario } from '../../machines/scenario/shift.schema.ts';
import { ensurePagesBuilt } from '../../server/bin/support/build.mjs';
import { exportShift, spanNamed } from '../../server/export/export-shift.ts';
import { writeWhole } from '../../server/export/write-file.ts';
import { line } from '../../server/line.ts';
import { runHeadless } from '../../server/runner/headless.ts';
import { scenarioOrError } from '../../server/scenarios/load.ts';
import { openKey } from '../../server/seal/key-file.ts';
import { openSqliteStore } from '../../server/store/sqlite.ts';
import { findOrInstallChromium } from '../support/chromium.mjs';
import { benchFolder, type Figure, percentile } from './measure.ts';

const SHIFT = 'scenarios/shifts/emulsion-day.yaml';
const SEEKS = 80;
const OPENINGS = 3;
const PATIENCE_MS = 120_000;

/** A sealed export of that shift, made now; returns how many groups of readings it holds. */
async function makeExport(scenario: Scenario, file: string): Promise<number> {
  const folder = `${file}.data`;
  rmSync(folder, { recursive: true, force: true });
  rmSync(file, { force: true });
  const store = openSqliteStore(folder);
  try {
    const key = openKey(folder, null);
    const result = await runHeadless({ engine: line, scenario, store, key, onFact: () => undefined });
    if (!result.ended || result.seal === null) throw new Error('the shift did not end in a seal');
    await writeWhole(file, exportShift(store, await spanNamed(store, '1')));
    return Math.ceil(result.world.atMs / 1000);
  } finally {
    await store.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Processor time the pages and their workers have used so far, ms: the same on a busy machine as on a quiet one. */
async function cpuMs(browser: Browser): Promise<number> {
  const session = await browser.newBrowserCDPSession();
  const { processInfo } = await session.send('SystemInfo.getProcessInfo');
  await session.detach();
  return processInfo.reduce((sum, one) => sum + (one.type === 'renderer' ? one.cpuTime * 1000 : 0), 0);
}

/** ms until the first screen, until the charts were run to the end, until the check was done. */
type Opened = { readonly firstMs: number; readonly foldedMs: number; readonly checkedMs: number };

async function openFile(page: Page, file: string): Promise<Opened> {
  const startedMs = performance.now();
  await page.locator('input[type=file]').setInputFiles(file);
  await page.locator('.line-page').waitFor({ timeout: PATIENCE_MS });
  const firstMs = performance.now() - startedMs;
  const pill = page.locator('.check-pill');
  await page.waitForFunction(
    () => !/Running/.test(document.querySelector('.check-pill')?.textContent ?? 'Running'),
    null,
    { timeout: PATIENCE_MS, polling: 50 },
  );
  const foldedMs = performance.now() - startedMs;
  await page.waitForFunction(
    () => !/Running|Checking/.test(document.querySelector('.check-pill')?.textContent ?? 'Checking'),
    null,
    { timeout: PATIENCE_MS, polling: 50 },
  );
  const words = await pill.textContent();
  if (words === null || !words.startsWith('Intact:')) throw new Error(`the export is not intact: ${words}`);
  return { firstMs, foldedMs, checkedMs: performance.now() - startedMs };
}

const two = (n: number): string => String(Math.floor(n)).padStart(2, '0');

/** ms from asking for a moment to the frame in which the whole Line page of that moment is drawn. */
function seekMs(page: Page, atS: number): Promise<number> {
  const ofDayS = 6 * 3600 + atS;
  const clock = `${two(ofDayS / 3600)}:${two((ofDayS / 60) % 60)}:${two(ofDayS % 60)}`;
  // No function with a name may stand inside: the loader would call a helper the page does not have.
  return page.evaluate(
    async ([text, drawn]) => {
      const field = document.getElementById('replay-go-to') as HTMLInputElement;
      Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value')?.set?.call(field, text);
      field.dispatchEvent(new Event('input', { bubbles: true }));
      const shown = document.querySelector('[data-drawn]');
      const startedMs = performance.now();
      field.form?.requestSubmit();
      while (shown?.getAttribute('data-drawn') !== drawn) {
        if (performance.now() - startedMs > 10_000) throw new Error(`no screen for ${text}`);
        await new Promise((resolve) => setTimeout(resolve, 1));
      }
      await new Promise((resolve) => requestAnimationFrame(resolve));
      return performance.now() - startedMs;
    },
    [clock, String(atS * 1000)] as const,
  );
}

export async function benchReplay(): Promise<Figure[]> {
  const found = await findOrInstallChromium();
  if (!found.ok) throw new Error(found.why);
  const viewer = join(await ensurePagesBuilt(), 'viewer.html');
  if (!existsSync(viewer)) throw new Error(`${viewer} was not built`);
  const scenario = scenarioOrError(SHIFT, {});
  const long: Scenario = { ...scenario, shift: { ...scenario.shift, hours: 12 } };
  const files = { day: join(benchFolder(), 'replay-day.zip'), long: join(benchFolder(), 'replay-12h.zip') };
  const groups = await makeExport(scenario, files.day);
  const longS = await makeExport(long, files.long);
  const browser = await chromium.launch({
    executablePath: found.path,
    args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run'],
  });
  try {
    const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
    const openings: Opened[] = [];
    for (let i = 0; i < OPENINGS; i++) {
      await page.goto(pathToFileURL(viewer).href);
      openings.push(await openFile(page, files.day));
    }
    await page.goto(pathToFileURL(viewer).href);
    const whole = await openFile(page, files.long);
    const samples: number[] = [];
    const cpuBeforeMs = await cpuMs(browser);
    let random = 12345;
    for (let i = 0; i < SEEKS; i++) {
      random = (Math.imul(random, 1103515245) + 12345) >>> 0;
      samples.push(await seekMs(page, 1 + (random % (longS - 2))));
    }
    const cpuSeekMs = ((await cpuMs(browser)) - cpuBeforeMs) / SEEKS;
    const figure = (id: string, what: string, value: number, unit = 'ms'): Figure => ({
      id: `replay.${id}`,
      what: `${what}, headless Chromium`,
      value,
      unit,
    });
    const best = (pick: (opened: Opened) => number) => Math.min(...openings.map(pick));
    return [
      figure(
        'open',
        `export of ${groups} groups: chosen to first screen, best of ${OPENINGS}`,
        best((o) => o.firstMs),
      ),
      figure(
        'again',
        'the same: to all charts run again',
        best((o) => o.foldedMs),
      ),
      figure(
        'check',
        'the same: to everything checked',
        best((o) => o.checkedMs),
      ),
      figure('open12h', `export of ${longS} groups: chosen to first screen`, whole.firstMs),
      figure('seek.p50', `${SEEKS} moments of 12 h: asked to drawn, p50`, percentile(samples, 50)),
      figure('seek.p99', `${SEEKS} moments of 12 h: asked to drawn, p99`, percentile(samples, 99)),
      figure('seek.cpu', 'the same: processor time a moment', cpuSeekMs),
    ];
  } finally {
    await browser.close();
    for (const file of Object.values(files)) rmSync(file, { force: true });
  }
}
