/** Two people, two consoles, one line: one runs it, the other watches, asks and is given the controls. */
import { expect, it } from 'vitest';
import {
  button,
  chooseOrder,
  closeGuide,
  eventually,
  pressAnyway,
  sayWho,
  takeControls,
} from './support/hands.ts';
import { openYard } from './support/yard.ts';

const yard = openYard();

it('the second console watches, is refused, asks for the controls and gets them', async () => {
  const first = await yard.console();
  await closeGuide(first.page);
  const firstName = await sayWho(first.page, 'operator');
  await takeControls(first.page);
  await chooseOrder(first.page, 'emulsion');
  await first.page.locator('[data-do="start"]').first().click();
  const step = first.page.getByRole('region', { name: 'Now' }).getByRole('heading', { level: 1 });

  const second = await yard.console('tablet');
  await closeGuide(second.page);
  const secondName = await sayWho(second.page, 'supervisor');
  await second.page.getByText(`${firstName} has the controls`, { exact: true }).waitFor();
  const stepThere = second.page.getByRole('region', { name: 'Now' }).getByRole('heading', { level: 1 });
  await eventually(async () => expect(await stepThere.textContent()).toBe(await step.textContent()));

  await pressAnyway(second.page.locator('[data-do="hold"]').first());
  await second.page
    .getByText(`${firstName} has the controls. Ask for them`, { exact: false })
    .first()
    .waitFor();

  await button(second.page, 'Ask for the controls').click();
  const request = first.page.getByRole('alert').filter({ hasText: `${secondName} asks for the controls` });
  await button(request, 'Keep').click();
  await second.page.getByText(`${firstName} has the controls`, { exact: true }).waitFor();

  await button(second.page, /sk for the controls|ask again/).click();
  await button(request, 'Hand over').click();
  await second.page.getByText('You have the controls', { exact: true }).waitFor();
  await first.page.getByText(`${secondName} has the controls`, { exact: true }).waitFor();

  await second.page.locator('[data-do="hold"]').first().click();
  await first.page.locator('[data-do="restart"]').waitFor();
  expect([...first.complaints, ...second.complaints]).toEqual([]);
});

it('an auditor sees everything and may command nothing', async () => {
  const { page } = await yard.console();
  await closeGuide(page);
  await sayWho(page, 'auditor');
  const act = page.getByRole('group', { name: 'What you can do now' }).getByRole('button').first();
  await pressAnyway(act);
  await page
    .getByText(/is an auditor; this is for: operator/)
    .first()
    .waitFor();
});
