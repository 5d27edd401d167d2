/** A stranger opens the page and is led by the guide to a first emulsion batch that lands in a lot. */
import { expect, it } from 'vitest';
import { button, closeGuide, eventually, sayWho, setSpeed, takeControls } from './support/hands.ts';
import { openYard } from './support/yard.ts';

const yard = openYard();

it('the guide leads a newcomer to a first batch in a lot', async () => {
  const { page, complaints } = await yard.console();
  const guide = page.getByRole('complementary', { name: 'Guide to the first batch' });
  const guideSays = (title: string): Promise<void> =>
    guide.getByRole('heading', { name: title, exact: true }).waitFor({ timeout: 60_000 });

  await guideSays('Say who you are');
  await sayWho(page, 'operator');
  await guideSays('Take the controls');
  await takeControls(page);

  const order = guide.getByRole('heading', { name: 'Choose an emulsion order' });
  const start = guide.getByRole('heading', { name: 'Start one batch' });
  await order.or(start).waitFor();
  if (await order.isVisible())
    await button(page, /emulsion · bay \d/)
      .first()
      .click();
  await guideSays('Start one batch');
  await page.locator('[data-do="start"]').first().click();
  await guideSays('Watch the weights');
  await setSpeed(page, 60);
  await guideSays('Look, then confirm');
  await page.locator('[data-do="confirmLook"]').click();
  await guideSays('Your first batch is in the lot');
  await closeGuide(page);

  await page.getByRole('link', { name: 'Lab', exact: true }).click();
  await page.getByRole('heading', { name: 'Lab', level: 1 }).waitFor();
  await eventually(async () => expect(await page.getByRole('main').textContent()).toMatch(/1 batch\b/));
  expect(complaints).toEqual([]);
});

it('a console that has finished or closed the guide is not led again', async () => {
  const { page } = await yard.console();
  await closeGuide(page);
  await page.reload();
  await page.getByRole('group', { name: 'What you can do now' }).waitFor();
  expect(await page.getByRole('complementary', { name: 'Guide to the first batch' }).count()).toBe(0);
});
