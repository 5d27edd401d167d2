/**
 * The storekeeper's day on a tablet: a delivery entered, a tank dipped with the working shown, a load and bags
 * refused that may not leave, a bay counted, and what was wrong taken back.
 */
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { axeFindings } from './support/axe.ts';
import { button, closeGuide, eventually, sayWho, setSpeed, takeControls } from './support/hands.ts';
import { layoutFaults } from './support/layout.ts';
import { openYard } from './support/yard.ts';

const yard = openYard([fileURLToPath(new URL('../../scenarios/shifts/plain-mixes.yaml', import.meta.url))]);
const REASON = 'Reason, kept in the record';

const sound = async (page: Page): Promise<void> => {
  expect(await layoutFaults(page, true)).toEqual([]);
  expect(await axeFindings(page)).toEqual([]);
};
const tab = async (page: Page, name: string): Promise<void> => {
  await page.getByRole('link', { name: 'Yard', exact: true }).first().click();
  await page.getByRole('navigation', { name: 'Parts of the yard' }).getByRole('link', { name }).click();
};

type Shown = {
  readonly places: readonly { readonly place: string; readonly kg: number }[];
  readonly lots: readonly { readonly lot: string; readonly madeKg: number }[];
};
const stockNow = async (): Promise<Shown> =>
  (await (await fetch(`${yard.served().url}/api/ledger/stock`)).json()).view;
it('materials come in and are measured, mix is held back, counted and put right', async () => {
  const { page, complaints } = await yard.console('tablet');
  await closeGuide(page);
  await sayWho(page, 'supervisor');
  await takeControls(page);

  await tab(page, 'Materials');
  await button(page, 'Enter a delivery').click();
  const delivery = page.getByRole('dialog', { name: 'Enter a delivery' });
  await delivery.getByLabel('What came').selectOption('cutback');
  await delivery.getByText(/a second person confirms that it is cutback/).waitFor();
  await delivery.getByLabel('Ticket number').fill('TK-8812');
  await delivery.getByLabel('Net mass of the ticket, kg').fill('8 000');
  await button(delivery, 'Enter it').click();
  await page.getByRole('row', { name: /D-260414-1.*announced.*TK-8812/ }).waitFor();

  // Ø 1.9 m × 4 m, half full, at 80 °C: 5671 L, factor 0.9593 of ASTM D4311 column A, 0.970 kg/L.
  await button(page.getByRole('article').filter({ hasText: 'Cutback tank' }), 'Dip the tank').click();
  const dip = page.getByRole('dialog', { name: 'Dip: Cutback tank' });
  await dip.getByLabel('Dip, mm').fill('950');
  await dip.getByLabel('Temperature, °C').fill('80,0');
  await dip.getByText('5671 L').waitFor();
  await dip.getByText(/0\.9593/).waitFor();
  await dip.getByText('5277 kg').waitFor();
  await sound(page);
  await button(dip, 'Enter the dip').click();
  await page.getByText(/Cutback tank: measured .* against the books/).waitFor();
  await sound(page);

  // One batch by the stand-in; the lab has tested nothing of it yet.
  await button(page, 'Plant').click();
  await page.getByRole('dialog', { name: 'Plant' }).getByRole('button', { name: 'Switch on' }).click();
  await page.keyboard.press('Escape');
  await setSpeed(page, 60);
  await eventually(async () => expect((await stockNow()).lots[0]?.madeKg ?? 0).toBeGreaterThan(700));
  await setSpeed(page, 1);
  await tab(page, 'Loads');
  await button(page, 'Make out a load').click();
  await page.getByRole('button', { name: /Emulsion patch mix 0 kg may leave.*held back/ }).click();
  await page.getByLabel('Kilograms wanted').fill('300');
  await page.getByLabel('Vehicle').fill('Truck 3');
  await button(page, /^Make it out/).click();
  await page
    .locator('[data-refusal]')
    .getByText(/Only 0\.0 kg of Emulsion patch mix may leave/)
    .waitFor();
  await sound(page);
  await tab(page, 'Bays');
  const bay = page.getByRole('article').filter({ has: page.getByRole('heading', { name: 'Bay 1' }) });
  await bay.getByRole('img', { name: /^Bay 1 from the side, to scale/ }).waitFor();
  await sound(page);
  await button(bay, 'Fill bags').click();
  const bags = page.getByRole('dialog', { name: 'Fill bags from Bay 1' });
  await bags.getByLabel('Bags of 50 kg filled').fill('4');
  await bags.getByLabel('Weights of the sample, kg').fill('50,1 49,9 50,6 49,4');
  await bags.getByText('out of class: not booked until mended').waitFor();
  await button(bags, 'Book the bags').click();
  await bags
    .locator('[data-refusal]')
    .getByText(/Bag 3 of the sample, 50\.6 kg, lies 600 g/)
    .waitFor();
  await sound(page);
  await bags.getByLabel('Weights of the sample, kg').fill('50,1 49,9 50,2 49,8');
  await button(bags, 'Book the bags').click();
  await bags
    .locator('[data-refusal]')
    .getByText(/but only 0\.0 kg in Bay 1 may leave: lot/)
    .waitFor();
  await button(bags, 'Back').click();

  await button(bay, 'Take stock').click();
  const take = page.getByRole('dialog', { name: 'Take stock: Bay 1' });
  await take.getByLabel('How it was measured').selectOption('weighed');
  await take.getByLabel('Kilograms').fill('500');
  await take.getByLabel(REASON).fill('weighed with the loader');
  await sound(page);
  await button(take, 'Bring the books to this').click();
  const kgIn = async (place: string) => (await stockNow()).places.find((one) => one.place === place)?.kg;
  await eventually(async () => expect(await kgIn('bay:1')).toBe(500));
  const counted = page.getByRole('row', { name: /weighed with the loader/ });
  await button(counted, 'Take back').click();
  const back = page.getByRole('dialog', { name: /^Take back A-/ });
  await back.getByLabel(REASON).fill('the scale was not zeroed');
  await button(back, 'Take it back').click();
  await counted.getByText(/taken back by A-/).waitFor();
  expect(await kgIn('bay:1')).toBeGreaterThan(500);
  await sound(page);
  expect(complaints).toEqual([]);
});
