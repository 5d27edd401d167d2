/** The whole way from the bare page to a running and a held batch without touching a pointer. */
import type { Locator, Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { actions } from './support/hands.ts';
import { openYard } from './support/yard.ts';

const yard = openYard();
const FAR = 120;

const isFocused = (target: Locator): Promise<boolean> =>
  target.evaluate((el) => el === document.activeElement);

/** Tabs until the target has the focus, and holds the focus to being seen on the way. */
async function tabTo(page: Page, target: Locator): Promise<void> {
  await target.waitFor();
  for (let i = 0; i < FAR; i++) {
    if (await isFocused(target)) return;
    await page.keyboard.press('Tab');
    const invisible = await page.evaluate(() => {
      const at = document.activeElement;
      if (at === null || at === document.body || at.matches('main, h1, h2, [tabindex="-1"]')) return null;
      const { outlineStyle, outlineWidth, boxShadow } = getComputedStyle(at);
      const seen = (outlineStyle !== 'none' && Number.parseFloat(outlineWidth) >= 2) || boxShadow !== 'none';
      return seen ? null : at.outerHTML.slice(0, 120);
    });
    expect(invisible, 'focus that cannot be seen').toBeNull();
  }
  throw new Error(`not reached with ${FAR} tabs: ${target}`);
}

async function press(page: Page, target: Locator): Promise<void> {
  await tabTo(page, target);
  await page.keyboard.press('Enter');
}

it('a batch is started and held by keyboard alone', async () => {
  const { page, complaints } = await yard.console();
  const skip = page.getByRole('link', { name: 'Skip to the page' });
  await skip.waitFor();
  await page.keyboard.press('Tab');
  expect(await isFocused(skip)).toBe(true);

  await press(page, page.getByRole('button', { name: 'Who are you?', exact: true }));
  const dialog = page.getByRole('dialog', { name: 'Who are you?' });
  await press(
    page,
    dialog
      .getByRole('listitem')
      .filter({ hasText: /operator$/ })
      .first()
      .getByRole('button'),
  );
  await dialog.waitFor({ state: 'detached' });
  await press(page, page.getByRole('button', { name: 'Take', exact: true }));
  await page.getByText('You have the controls', { exact: true }).waitFor();

  const order = page.getByRole('button', { name: /emulsion · bay \d/ }).first();
  if ((await order.getAttribute('aria-pressed')) !== 'true') await press(page, order);
  await press(page, actions(page).locator('[data-do="start"]').first());
  await actions(page).locator('[data-do="hold"]').waitFor();
  await page.keyboard.press('h');
  // Holding takes two seconds; until then the button's name says that it is for a held batch.
  const restart = actions(page).getByRole('button', { name: 'Restart', exact: true });
  await restart.waitFor();
  await press(page, restart);
  await actions(page).locator('[data-do="hold"]').waitFor();
  expect(complaints).toEqual([]);
});

it('Escape closes what is open and gives the focus back', async () => {
  const { page } = await yard.console();
  const help = page.getByRole('button', { name: 'Help', exact: true });
  await press(page, help);
  await page.getByRole('dialog', { name: 'Help' }).waitFor();
  await page.keyboard.press('Escape');
  await page.getByRole('dialog', { name: 'Help' }).waitFor({ state: 'detached' });
  expect(await isFocused(help)).toBe(true);
});
