/** A trainer leads a trainee through a drill in two browsers: begun, frozen, a fault, a message, turned back, finished, debriefed. */
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { axeFindings } from './support/axe.ts';
import { button, eventually, sayWho } from './support/hands.ts';
import { layoutFaults } from './support/layout.ts';
import { openYard } from './support/yard.ts';

const yard = openYard();

const sound = async (page: Page, touch: boolean): Promise<void> => {
  expect(await layoutFaults(page, touch)).toEqual([]);
  expect(await axeFindings(page)).toEqual([]);
};
const band = (page: Page) => page.getByRole('region', { name: 'Drill', exact: true });
const seated = (page: Page) => page.getByText('You have the controls', { exact: true }).waitFor();

it('a trainer leads a trainee through a drill', async () => {
  const trainer = await yard.console('desk', '/training');
  const trainee = await yard.console('tablet', '/training');
  await sayWho(trainer.page, 'trainer');
  const name = await sayWho(trainee.page, 'trainee');
  await trainee.page.getByRole('heading', { name: 'Start a drill by yourself' }).waitFor();

  await button(trainer.page, /^First cutback campaign/).click();
  await button(trainer.page, 'Start the drill').click();
  await trainer.page
    .getByText('Read the cautions for cutback and tick that you have.', { exact: true })
    .waitFor();
  await button(trainer.page, /^First emulsion batch/).click();
  await sound(trainer.page, false);
  await trainer.page.getByLabel('Trainee').selectOption({ label: `${name}, trainee` });
  await trainer.page.getByLabel('Seed').fill('21');
  await button(trainer.page, 'Start the drill').click();
  await trainer.page.getByRole('heading', { name: 'Moments' }).waitFor();
  const session = new URL(trainer.page.url()).pathname.split('/').at(-1) ?? '';

  // The trainee finds it, sits down at the line and starts the batch.
  await trainee.page.getByRole('link', { name: 'Sit down at the line' }).click();
  await seated(trainee.page);
  await sound(trainee.page, true);
  const started = trainee.page.locator('[data-do="start"]').first();
  await started.click();
  await trainer.page
    .getByText(/^Batch 1 ·/)
    .first()
    .waitFor();

  // Frozen: the trainee is told by whom, and nothing is carried out.
  await trainer.page.getByLabel('Keep this moment as').fill('before the freeze');
  await button(trainer.page, 'Keep').click();
  await trainer.page.getByRole('list', { name: 'Moments by name' }).getByText('before the freeze').waitFor();
  await button(trainer.page, 'Freeze').click();
  await band(trainee.page)
    .getByText(/Frozen by /)
    .waitFor();
  await trainee.page.locator('[data-do="hold"]').first().click();
  await trainee.page
    .getByText(/has frozen the drill: wait until it goes on/)
    .first()
    .waitFor();

  await trainer.page.getByLabel(`To ${name}`).fill('Look at the hood.');
  await button(trainer.page, 'Send').click();
  await band(trainee.page).getByText('Look at the hood.').waitFor();
  await trainer.page.getByLabel('What fails').selectOption('hoodFanStopped');
  await button(trainer.page, 'Put the fault in').click();
  await button(trainer.page, 'Take away: Hood fan stopped').waitFor();
  await sound(trainer.page, false);
  await button(trainer.page, 'Go on').click();
  await trainee.page.getByText('Hood extraction is not proven').first().waitFor();

  // Turned back to the kept moment: the fault has not come yet, and the drill stands.
  await button(trainer.page, /before the freeze/).click();
  await button(trainer.page, /^Return to/).click();
  await button(trainer.page.getByRole('dialog'), 'Return').click();
  await trainer.page
    .getByText(/turned back once/)
    .first()
    .waitFor();
  await trainer.page.getByText('No fault is on.').waitFor();
  await eventually(async () =>
    expect(await trainee.page.getByText('Hood extraction is not proven').count()).toBe(0),
  );

  await button(trainer.page, 'Finish the drill').click();
  await button(trainer.page.getByRole('dialog'), 'Finish').click();
  await trainer.page.waitForURL(`**/training/debrief/${session}`);
  await trainer.page.getByRole('heading', { name: 'Score by competency' }).waitFor();
  await trainer.page
    .getByText(/turned back once/)
    .first()
    .waitFor();
  await sound(trainer.page, false);

  await band(trainee.page).getByRole('link', { name: 'See the debrief' }).click();
  await trainee.page.getByRole('heading', { name: 'Expected, done, and what went wrong' }).waitFor();
  await sound(trainee.page, true);
  await button(trainee.page, 'Show the console then').click();
  await trainee.page.getByRole('region', { name: 'The plant' }).waitFor();

  // From a moment of it the trainee begins anew, alone this time, and finishes.
  await trainee.page.getByLabel(/^Moment/).fill('8000');
  await button(trainee.page, 'Try again from here').click();
  await seated(trainee.page);
  await band(trainee.page)
    .getByText(/Frozen by /)
    .waitFor();
  await band(trainee.page).getByRole('button', { name: 'Finish' }).click();
  await button(trainee.page.getByRole('dialog'), 'Finish').click();
  await band(trainee.page).getByRole('link', { name: 'See the debrief' }).click();
  await trainee.page.getByText(/begun from a moment of an earlier attempt/).waitFor();
  await trainee.page.getByRole('link', { name: `All attempts of ${name}` }).click();
  await trainee.page.getByRole('heading', { name: 'Scores over time' }).waitFor();
  await eventually(async () =>
    expect(await trainee.page.getByRole('link', { name: /^Debrief/ }).count()).toBe(2),
  );
  await sound(trainee.page, true);
  expect([...trainer.complaints, ...trainee.complaints]).toEqual([]);
});
