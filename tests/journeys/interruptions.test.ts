/** What interrupts a shift: the page reloaded, the server gone and back in the middle of a batch. */
import { expect, it } from 'vitest';
import { chooseOrder, closeGuide, eventually, sayWho, setSpeed, takeControls } from './support/hands.ts';
import { openYard } from './support/yard.ts';

const yard = openYard();

it('a reload and a power cut in mid-batch: the same person, the same controls, the same batch', async () => {
  const { page, complaints } = await yard.console();
  await closeGuide(page);
  const name = await sayWho(page, 'operator');
  await takeControls(page);
  await chooseOrder(page, 'emulsion');
  await page.locator('[data-do="start"]').first().click();
  const over = page
    .getByRole('region', { name: 'Now' })
    .getByText(/^Batch 1\b/)
    .first();
  await over.waitFor();

  await page.reload();
  await over.waitFor();
  await page.getByText('You have the controls', { exact: true }).waitFor();
  await page.getByText(name, { exact: true }).first().waitFor();

  await yard.served().cutPower();
  await page.getByText(/Connection lost, last seen \d\d:\d\d:\d\d/).waitFor();
  await page.locator('[data-do="hold"]').first().click();
  await page
    .getByText(/No connection to the line, so nothing was sent/)
    .first()
    .waitFor();

  await yard.served().startAgain();
  await page.getByText(/Connection lost/).waitFor({ state: 'detached' });
  await over.waitFor();
  await page.getByText('You have the controls', { exact: true }).waitFor();

  // Nothing may be left hanging: the batch is on its way or can be restarted, and comes to its end.
  await setSpeed(page, 60);
  const restart = page.locator('[data-do="restart"]');
  if (await restart.isVisible()) await restart.click();
  const confirm = page.locator('[data-do="confirmLook"]');
  await confirm.waitFor({ timeout: 60_000 });
  await confirm.click();
  await eventually(
    async () => expect(await page.locator('[data-do="start"]').count()).toBeGreaterThan(0),
    60_000,
  );
  expect(complaints).toEqual([]);
});
