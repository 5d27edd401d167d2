/**
 * From sixty holes pasted in the browser to an order, the week's plan, a lot, a load and patches, nothing typed twice;
 * then a delivery of binder was bad, and every patch that got some is listed with its mass.
 */

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Locator, Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { ROOT } from '../style/sources.ts';
import { axeFindings } from './support/axe.ts';
import { actions, button, closeGuide, eventually, sayWho, setSpeed, takeControls } from './support/hands.ts';
import { layoutFaults } from './support/layout.ts';
import { openYard } from './support/yard.ts';

const yard = openYard([fileURLToPath(new URL('../../scenarios/shifts/plain-mixes.yaml', import.meta.url))]);
const SIXTY = readFileSync(join(ROOT, 'scenarios/patches/sixty-holes.csv'), 'utf8');

const sound = async (page: Page, touch = false): Promise<void> => {
  expect(await layoutFaults(page, touch)).toEqual([]);
  expect(await axeFindings(page)).toEqual([]);
};

/** As Ctrl+V does. */
const paste = (box: Locator, text: string): Promise<void> =>
  box.evaluate((element, words) => {
    const data = new DataTransfer();
    data.setData('text/plain', words);
    element.dispatchEvent(
      new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }),
    );
  }, text);

const open = (page: Page, name: string): Promise<void> =>
  page.getByRole('link', { name, exact: true }).first().click();
const tab = async (page: Page, name: string): Promise<void> => {
  await open(page, 'Yard');
  await page.getByRole('navigation', { name: 'Parts of the yard' }).getByRole('link', { name }).click();
};

type Patches = {
  readonly lists: readonly { readonly id: string; readonly sum: { readonly patches: number } }[];
  readonly orders: readonly {
    readonly id: string;
    readonly state: string;
    readonly lots: readonly string[];
  }[];
};
const patchesNow = async (): Promise<Patches> =>
  (await (await fetch(`${yard.served().url}/api/ledger/patches`)).json()).view;

let asks = 0;
const askLab = async (person: string, command: object): Promise<unknown> => {
  const response = await fetch(`${yard.served().url}/api/ledger/lab/commands`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ id: `journey-${++asks}-${person}`, by: { person, console: 'journey' }, command }),
  });
  return response.json();
};

const endShift = async (page: Page): Promise<void> => {
  await actions(page).locator('[data-do="endShift"]').click();
  const dialog = page.getByRole('dialog', { name: 'End the shift?' });
  await dialog.getByLabel(/Handover notes/).fill('nothing special');
  await button(dialog, 'End the shift').click();
  await page.getByRole('region', { name: 'Sealed' }).waitFor();
};

it('tables that are not sound are refused in words, and nothing of them is taken', async () => {
  const { page, complaints } = await yard.console('tablet');
  await closeGuide(page);
  await sayWho(page, 'storekeeper');
  await tab(page, 'Patches');
  await open(page, 'New patch list');
  const box = page.getByLabel('Paste rows from a spreadsheet');

  // A hundred thousand rows are answered before they are read.
  await paste(box, `Place,L,W,D\n${'Mill Lane,1,1,60\n'.repeat(100_000)}`);
  const refusal = page.locator('[data-refusal]');
  await refusal.getByText(/100 001 rows; a list holds at most 5 000 patches/).waitFor();
  await paste(box, 'PK\u0003\u0004\u0000\u0000');
  await refusal.getByText(/save it as CSV in the spreadsheet/).waitFor();

  // Decimal comma, merged cells, a formula, a hole too shallow, a quote in a name.
  const table =
    'Route;Place;Length;Width;Depth\nNorth;"Mill ""Old"" Lane";1,5;0,8;60\n;=HYPERLINK("x");2,0;0,5;90\n;Fell Road;1;1;20\n';
  await paste(box, table);
  await page.getByText('1 row cannot be taken').waitFor();
  await page.getByText(/20 mm is too thin for a layer/).waitFor();
  await page.getByText(/begins like a formula/).waitFor();
  await page.getByText('An empty place or route means the one above it (merged cells)').click();
  await sound(page, true);
  const take = button(page, 'Take the list');
  await page.getByLabel('Name of the list').fill('Odd ones');
  await take.click();
  await refusal.getByText(/mend or leave out. Nothing is taken by halves/).waitFor();

  // Read with another separator it is no list of holes at all.
  await page.getByLabel('Columns are separated by').selectOption(',');
  await page.getByText(/If everything stands in one column, choose another separator/).waitFor();
  await page.getByLabel('Columns are separated by').selectOption(';');
  expect((await patchesNow()).lists).toEqual([]);

  await page.getByText(/Leave this row out/).click();
  await page.getByText('I have looked at the preview').click();
  await page.getByLabel('Name of the list').fill('Odd ones');
  await take.click();
  await page.getByRole('link', { name: /Odd ones/ }).click();
  await page.getByRole('cell', { name: /=HYPERLINK/ }).waitFor();
  await sound(page, true);
  await button(page, 'Take back').click();
  await page.getByLabel('Reason, kept in the record').fill('only tried');
  await button(page, 'Take the list back').click();
  await page.getByText(/This list is taken back/).waitFor();
  expect(complaints).toEqual([]);
});

it('sixty holes become an order, a plan, a lot, a load, patches, and a recall', async () => {
  const { page, complaints } = await yard.console();
  await closeGuide(page);
  await sayWho(page, 'supervisor');
  await takeControls(page);

  await tab(page, 'Patches');
  await open(page, 'New patch list');
  await paste(page.getByLabel('Paste rows from a spreadsheet'), SIXTY);
  await page.getByText('60 rows read as holes').waitFor();
  await page.getByText('I have looked at the preview').click();
  await page.getByLabel('Name of the list').fill('Week 16');
  await sound(page);
  await button(page, 'Take the list').click();
  await page.getByRole('link', { name: /Week 16/ }).click();
  await page.getByRole('img', { name: /^Section of patch 1/ }).waitFor();
  await sound(page);
  const list = (await patchesNow()).lists[0]?.id ?? '';

  // The blend that lies best in its band becomes the approved version: the order is made of it, and the line makes it.
  await tab(page, 'Mixes');
  await page.getByRole('link', { name: 'Open the sheet' }).last().click();
  await button(page, 'Find the best blend').click();
  await button(page, 'Take these shares').click();
  await button(page.getByRole('complementary', { name: 'Summary of the mix' }), 'Put in as a draft').click();
  const drafting = page.getByRole('dialog', { name: 'Put in as a draft' });
  await drafting.getByLabel('Why, kept in the record').fill('into its band');
  await button(drafting, 'Put in the draft').click();
  await button(page, 'Approve').click();
  await button(page.getByRole('dialog'), 'Approve').click();
  await page.getByText(/^version 2 is in force/).waitFor();

  await tab(page, 'Patches');
  await page.getByRole('link', { name: /Week 16/ }).click();
  await button(page, 'Order mix').click();
  const dialog = page.getByRole('dialog', { name: 'Order mix for Week 16' });
  await dialog.getByLabel('Holes').selectOption('Depot');
  await dialog.getByText(/1 batch/).waitFor();
  await dialog.getByText('Emulsion patch mix, version 2 (emulsion)').waitFor({ state: 'attached' });
  await button(dialog, 'Make the order').click();
  await dialog.waitFor({ state: 'detached' });

  await open(page, 'Line');
  await endShift(page);
  await tab(page, 'Schedule');
  await page.getByText('nothing is late').waitFor();
  await sound(page);
  await button(page, /^Open the planned shift/).click();
  await page.getByText('06:00:0', { exact: false }).first().waitFor();
  await takeControls(page);

  // The stand-in makes the one batch of the plan.
  await button(page, 'Plant').click();
  await page.getByRole('dialog', { name: 'Plant' }).getByRole('button', { name: 'Switch on' }).click();
  await page.keyboard.press('Escape');
  await setSpeed(page, 60);
  await eventually(async () => expect((await patchesNow()).orders[0]?.state).toBe('made'));
  await setSpeed(page, 1);
  await takeControls(page);
  await endShift(page);
  const lot = (await patchesNow()).orders[0]?.lots[0] ?? '';
  expect(lot).toMatch(/^\d{6}-1$/);
  const made = await (await fetch(`${yard.served().url}/api/ledger/lots/${lot}`)).text();
  expect(made.slice(0, 20_000)).toMatch(/"mixVersion":2/);

  // A short lot that nobody could test leaves by the concession of two people only.
  const reason = 'short lot for the depot itself, looked at by both';
  expect(await askLab('isolde', { do: 'askConcession', lot, reason })).toEqual({ ok: true });
  expect(await askLab('halvard', { do: 'grantConcession', lot, reason })).toEqual({ ok: true });

  await tab(page, 'Loads');
  await button(page, 'Make out a load').click();
  await page.getByRole('button', { name: /Emulsion patch mix/ }).click();
  await page.getByLabel('For patch list').selectOption(list);
  await page.getByLabel('Route').selectOption('Depot');
  await button(page, 'All 4').click();
  await page.getByLabel('Vehicle').fill('Truck 3');
  await sound(page);
  await button(page, /^Make it out: /).click();
  await button(page, 'Weigh out').click();
  const scale = page.getByRole('dialog', { name: /^Weigh out/ });
  await scale.getByLabel('Empty (tare), kg').fill('5200');
  await scale.getByLabel('Full (gross), kg').fill('5640');
  await button(scale, 'Weigh out: it leaves').click();
  await page.getByRole('link', { name: 'Lay patches, bring back' }).click();
  for (const row of [57, 58, 59, 60]) {
    await eventually(async () =>
      expect(await page.getByLabel('Patch', { exact: true }).inputValue()).toBe(`${list}/${row}`),
    );
    await button(page, 'It is laid').click();
  }
  await eventually(async () => expect((await patchesNow()).orders[0]?.state).toBe('delivered'));

  // The binder the plant began with was bad: which patches got it?
  await tab(page, 'Trace');
  await page.getByLabel('Trace from').fill('OPENING:emul');
  await page.getByRole('option', { name: /^Delivery emulsion/ }).click();
  await page.getByRole('heading', { name: 'Patches', exact: true }).waitFor();
  const affected = page.getByRole('region', { name: 'Patches', exact: true });
  for (const row of [57, 58, 59, 60]) await affected.getByRole('link', { name: `${list}/${row}` }).waitFor();
  await affected.getByText('4 patches', { exact: true }).waitFor();
  await sound(page);
  expect(complaints).toEqual([]);
});
