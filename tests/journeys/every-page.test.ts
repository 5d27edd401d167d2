/** Every page at both sizes, before and during a batch: axe finds nothing, no text is cut or covered, nothing scrolls sideways. */
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { axeFindings } from './support/axe.ts';
import { SIZES, type Size } from './support/browser.ts';
import {
  button,
  chooseOrder,
  closeGuide,
  eventually,
  sayWho,
  setSpeed,
  takeControls,
} from './support/hands.ts';
import { layoutFaults } from './support/layout.ts';
import { PAGES } from './support/pages.ts';
import { openYard } from './support/yard.ts';

const yard = openYard();
const sizes = Object.keys(SIZES) as Size[];

async function expectSound(page: Page, size: Size): Promise<void> {
  expect(await layoutFaults(page, size === 'tablet')).toEqual([]);
  expect(await axeFindings(page)).toEqual([]);
}

const goTo = async (page: Page, name: string): Promise<void> => {
  await page.getByRole('navigation', { name: 'Pages' }).getByRole('link', { name, exact: true }).click();
  await page.getByRole('main').getByRole('heading').first().waitFor();
};

it('the list of pages is the navigation', async () => {
  const { page } = await yard.console();
  const links = page.getByRole('navigation', { name: 'Pages' }).getByRole('link');
  await links.first().waitFor();
  expect(await links.allTextContents()).toEqual(PAGES.map(({ name }) => name));
});

describe.each(sizes)('at %s size', (size) => {
  it.each(PAGES)('$name is sound at rest', async ({ name }) => {
    const { page, complaints } = await yard.console(size);
    await closeGuide(page);
    await goTo(page, name);
    await expectSound(page, size);
    expect(complaints).toEqual([]);
  });

  it('the guide, the list of people, the plant tools, help and alarms are sound', async () => {
    const { page } = await yard.console(size);
    await page.getByRole('complementary', { name: 'Guide to the first batch' }).waitFor();
    expect(await axeFindings(page)).toEqual([]);
    await closeGuide(page);
    for (const [opener, title] of [
      ['Who are you?', 'Who are you?'],
      ['Plant', 'Plant'],
      ['Help', 'Help'],
    ] as const) {
      await button(page, opener).click();
      const dialog = page.getByRole('dialog', { name: title });
      await dialog.waitFor();
      await expectSound(page, size);
      await page.keyboard.press('Escape');
      await dialog.waitFor({ state: 'detached' });
    }
    await button(page, /alarm/i).first().click();
    await page.getByRole('complementary', { name: 'Alarms' }).waitFor();
    await expectSound(page, size);
  });
});

describe('while a batch runs', () => {
  it.each(sizes)('every page is sound at %s size', async (size) => {
    const { page, complaints } = await yard.console(size);
    await closeGuide(page);
    await sayWho(page, 'operator');
    const taken = page.getByText('You have the controls', { exact: true });
    if (!(await taken.isVisible())) await takeControls(page);
    if (await page.locator('[data-do="start"]').first().isVisible()) {
      await chooseOrder(page, 'emulsion');
      await page.locator('[data-do="start"]').first().click();
    }
    await setSpeed(page, 10);
    await page.locator('[data-do="hold"]').first().waitFor();
    await eventually(async () => expect(await page.getByRole('list', { name: 'Steps' }).count()).toBe(1));
    for (const { name } of PAGES) {
      await goTo(page, name);
      await expectSound(page, size);
    }
    await button(page, 'Release').click();
    expect(complaints).toEqual([]);
  });
});
