/** A job mix from its sheet to approval: blended by hand and by the solver, undone, kept over a reload, put in, compared. */
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { axeFindings } from './support/axe.ts';
import { SIZES, type Size } from './support/browser.ts';
import { button, eventually, sayWho } from './support/hands.ts';
import { layoutFaults } from './support/layout.ts';
import { openYard } from './support/yard.ts';

const yard = openYard([fileURLToPath(new URL('../../scenarios/shifts/plain-mixes.yaml', import.meta.url))]);
const sizes = Object.keys(SIZES) as Size[];

const goTo = (page: Page, path: string) => page.goto(new URL(path, page.url()).href);

const shares = (page: Page): Promise<string[]> => page.locator('.mx-slider output').allTextContents();

const looksRight = async (page: Page): Promise<void> => {
  for (const size of sizes) {
    await page.setViewportSize(SIZES[size]);
    expect(await layoutFaults(page, size === 'tablet')).toEqual([]);
  }
  await page.setViewportSize(SIZES.desk);
  expect(await axeFindings(page)).toEqual([]);
};

it('a mix is worked out, put in as a draft, approved and compared', async () => {
  const { page, complaints } = await yard.console();
  await goTo(page, '/yard/mixes');
  await sayWho(page, 'quality officer');
  await page.getByRole('heading', { name: 'Emulsion patch mix', exact: true }).waitFor();

  await goTo(page, '/yard/mixes/emulsion-patch');
  const summary = page.getByRole('complementary', { name: 'Summary of the mix' });
  await summary.waitFor();
  const before = await shares(page);

  // By hand: the fines are taken down, the others make room, and one step back brings all of them back.
  await page.getByRole('slider').last().focus();
  for (let i = 0; i < 8; i += 1) await page.keyboard.press('ArrowLeft');
  await eventually(async () => expect(await shares(page)).not.toEqual(before));
  const sum = (await shares(page)).reduce((total, text) => total + Number.parseFloat(text), 0);
  expect(sum).toBeCloseTo(100, 6);
  await button(summary, 'Undo').click();
  await eventually(async () => expect(await shares(page)).toEqual(before));

  await button(page, 'Find the best blend').click();
  await page.getByText('It fits:').waitFor();
  await button(page, 'Take these shares').click();
  await summary.getByText('in its band').waitFor();
  await page.getByLabel(/^or residual binder/).fill('4.9');
  await summary.getByText('4.9 %').waitFor();

  // A reload loses nothing.
  const taken = await shares(page);
  await page.reload();
  await summary.getByText('4.9 %').waitFor();
  expect(await shares(page)).toEqual(taken);
  await looksRight(page);

  await button(summary, 'Put in as a draft').click();
  const dialog = page.getByRole('dialog', { name: 'Put in as a draft' });
  await button(dialog, 'Put in the draft').click();
  await dialog.getByText('reason of at least 3 letters').waitFor();
  await dialog.getByLabel('Why, kept in the record').fill('into its band, more binder');
  await button(dialog, 'Put in the draft').click();
  await page.getByText('into its band, more binder').waitFor();

  await button(page, 'Approve').click();
  await button(page.getByRole('dialog'), 'Approve').click();
  await page.getByText(/^version 2 is in force/).waitFor();
  await looksRight(page);

  await page.getByRole('link', { name: 'Compare versions' }).click();
  await page.getByRole('row', { name: /^Dose, on dry aggregate/ }).waitFor();
  await looksRight(page);
  expect(complaints).toEqual([]);
});
