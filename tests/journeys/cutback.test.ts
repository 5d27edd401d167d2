/** Flame and solvent: the cautions come first, the burner is refused while cutback is about, and all of it is on record. */
import { randomUUID } from 'node:crypto';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import type { Answer } from '../../machines/live/protocol.ts';
import type { Person } from '../../machines/scenario/people.schema.ts';
import { axeFindings } from './support/axe.ts';
import { button, closeGuide, eventually, sayWho, setSpeed, takeControls } from './support/hands.ts';
import { layoutFaults } from './support/layout.ts';
import { openYard } from './support/yard.ts';

const yard = openYard([fileURLToPath(new URL('support/short-cutback.yaml', import.meta.url))]);

/** Asks for the flame past every button, as the console that has the controls. */
async function lightBurnerAnyway(page: Page, name: string): Promise<Answer> {
  const console = await page.evaluate(() => localStorage.getItem('patchyard.console'));
  const { url } = yard.served();
  const { people } = (await (await fetch(`${url}/api/people`)).json()) as { people: Person[] };
  const person = people.find((each) => each.name === name);
  const response = await fetch(`${url}/api/commands`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({
      id: randomUUID(),
      by: { person: person?.id, console },
      command: { do: 'lightBurner' },
    }),
  });
  return (await response.json()) as Answer;
}

it('a cutback campaign from the cautions to a batch, the burner refused meanwhile', async () => {
  const { page, complaints } = await yard.console();
  await closeGuide(page);
  const name = await sayWho(page, 'operator');
  await takeControls(page);
  await setSpeed(page, 60);

  await button(page, /^Dry aggregate for 2 batches/).click();
  const card = page.getByRole('alertdialog');
  await card.waitFor();
  for (const caution of [/flash point/i, /smok/i, /extinguisher/i, /water/i])
    expect(await card.textContent()).toMatch(caution);
  expect(await layoutFaults(page, false)).toEqual([]);
  expect(await axeFindings(page)).toEqual([]);
  const tooEarly = await lightBurnerAnyway(page, name);
  expect(tooEarly).toMatchObject({ ok: false });
  expect(JSON.stringify(tooEarly)).toContain('cautions have not been acknowledged');

  await button(card, /I have read these/).click();
  await card.waitFor({ state: 'detached' });
  await button(page, 'Light the burner').click();
  await button(page, 'Put the burner out').waitFor();

  // Dry, out, purged, cooled: then the aggregate may meet the binder.
  const start = button(page, /^Start one batch/);
  await start.waitFor({ timeout: 90_000 });
  await start.click();
  const confirm = button(page, 'Coated: discharge');
  await confirm.waitFor({ timeout: 90_000 });

  const refused = await lightBurnerAnyway(page, name);
  expect(refused.ok).toBe(false);
  const reasons = refused.ok ? [] : refused.because;
  expect(reasons.join(' ')).toMatch(/FI-11 The pug mill holds solvent-bearing binder/);
  const permissive = page.getByRole('listitem').filter({ hasText: 'FI-11' }).first();
  if (!(await permissive.isVisible())) await page.getByText('Burner may light').click();
  await permissive.waitFor();
  expect(await permissive.textContent()).toMatch(/not met.*Finish and discharge the batch/);

  await page.getByRole('link', { name: 'Records' }).click();
  await button(page, 'Refusals').click();
  const record = page.getByRole('region', { name: 'Newest entries' });
  await eventually(async () => {
    const text = (await record.textContent()) ?? '';
    for (const reason of reasons) expect(text).toContain(reason.replace(/\.$/, ''));
  });
  await button(page, 'Facts').click();
  await eventually(async () => expect(await record.textContent()).toMatch(/cautions/i));

  await page.getByRole('link', { name: 'Line' }).click();
  await confirm.click();
  await eventually(async () => expect(await page.getByText(/Batch 1\b/).count()).toBe(0), 60_000);
  expect(complaints).toEqual([]);
});
