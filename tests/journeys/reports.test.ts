/** From a batch on the line to its sheet on paper: the Lots page, the Reports page, and entries looked up. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { parseCsv } from '../reports/support/parse-csv.ts';
import { readPdf } from '../reports/support/pdf-text.ts';
import { axeFindings } from './support/axe.ts';
import { SIZES, type Size } from './support/browser.ts';
import { button, closeGuide, eventually, sayWho, setSpeed, takeControls } from './support/hands.ts';
import { layoutFaults } from './support/layout.ts';
import { openYard } from './support/yard.ts';

const yard = openYard();
const sizes = Object.keys(SIZES) as Size[];

/** The stand-in works at sixty times real time until the first lot holds a batch. */
const makeABatch = async (page: Page): Promise<void> => {
  await closeGuide(page);
  await sayWho(page, 'operator');
  await takeControls(page);
  const { url } = yard.served();
  await setSpeed(page, 60);
  await button(page, 'Plant').click();
  const plant = page.getByRole('dialog', { name: 'Plant' });
  await plant.getByRole('button', { name: 'Switch on' }).click();
  await page.keyboard.press('Escape');
  await eventually(async () => {
    const { shifts } = (await (
      await fetch(`${url}/api/shifts`)
    )
      .json()
      .then((list) => ({ shifts: list }))) as {
      shifts: { batches: number }[];
    };
    expect(shifts[0]?.batches).toBeGreaterThan(1);
  });
  // What is shown and what is fetched a moment later must be of the same record.
  await button(page, 'Pause').click();
};

const report = (page: Page) => page.getByRole('article');

const download = async (page: Page, format: string): Promise<Buffer> => {
  const [file] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('link', { name: new RegExp(`^${format}`) }).click(),
  ]);
  return readFileSync(await file.path());
};

it('a batch can be followed to its sheet, its lot and the entries that name it', async () => {
  const { page, complaints } = await yard.console();
  await makeABatch(page);

  await page.goto(new URL('/lots', page.url()).href);
  await page.getByRole('button', { name: 'Show the batch sheets' }).last().click();
  await page.getByRole('link', { name: 'Batch sheet 1', exact: true }).click();
  await report(page).getByRole('heading', { name: 'Batch sheet 1' }).waitFor();
  await report(page)
    .getByRole('img', { name: /^Weights against targets/ })
    .waitFor();
  const sheet = readPdf(await download(page, 'PDF'));
  expect(sheet.pages).toHaveLength(1);
  expect(sheet.pages.flat().join(' ')).toContain('not a safety-rated controller');

  await page.goBack();
  await page.getByRole('link', { name: 'Lot file' }).last().click();
  await report(page)
    .getByRole('heading', { name: /^Lot file/ })
    .waitFor();
  const rows = parseCsv((await download(page, 'CSV')).toString());
  const shown = await report(page).getByRole('row').filter({ hasText: 'discharged' }).count();
  expect(rows.filter((row) => row[0] === 'batches' && row.includes('discharged'))).toHaveLength(shown);

  await page.getByLabel('Report', { exact: true }).selectOption('Refusals and trips');
  await report(page).getByRole('heading', { name: 'Refusals and trips', exact: true }).waitFor();
  // Half a question has no answer yet, and says so.
  await page.getByLabel('Report', { exact: true }).selectOption('Batch sheet');
  await page.getByText('Choose a batch above').waitFor();

  await page.getByRole('link', { name: 'Shifts and entries' }).click();
  await page.getByLabel('Material').selectOption('Chips');
  const found = page.getByRole('region', { name: /^Entries found/ });
  await found.waitFor();
  expect(await found.locator('tbody tr').count()).toBeGreaterThan(1);
  expect(await found.locator('tbody tr', { hasNotText: /chips|batch|discharged/i }).count()).toBe(0);
  await page.getByRole('button', { name: 'Refusals', exact: true }).click();
  await page.getByText('No entry of the record meets all of this').waitFor();
  await page.getByRole('button', { name: 'Clear the search' }).click();
  await eventually(async () => expect(await found.count()).toBe(0));
  expect(complaints).toEqual([]);
});

it.each(sizes)('every report is sound at %s size', async (size) => {
  const { page, complaints } = await yard.console(size);
  const { url } = yard.served();
  for (const query of ['kind=shift', 'kind=batch&batch=1', 'kind=alarms', 'kind=refusals', 'kind=lot']) {
    await page.goto(`${url}/records/reports?${query}`);
    if (query === 'kind=lot') await page.getByLabel('Lot', { exact: true }).selectOption({ index: 1 });
    await report(page).waitFor();
    expect(await layoutFaults(page, size === 'tablet'), query).toEqual([]);
    expect(await axeFindings(page), query).toEqual([]);
  }
  expect(complaints).toEqual([]);
});

it('says in words that the record holds no such thing', async () => {
  const { page } = await yard.console();
  await page.goto(`${yard.served().url}/records/reports?kind=lot&lot=999999-1`);
  const alert = page.getByRole('alert');
  await alert.waitFor();
  expect(await alert.textContent()).toContain('The record has no lot 999999-1');
});
