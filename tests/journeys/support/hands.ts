/** What a person at a console does, in the words on the screen. */
import type { Locator, Page } from 'playwright-core';
import { expect } from 'vitest';

const PATIENCE_MS = 30_000;

/** Retries an assertion until it holds: the line answers in its own time. */
export async function eventually(check: () => Promise<void>, withinMs = PATIENCE_MS): Promise<void> {
  await expect
    .poll(async () => check().then(() => null, String), { timeout: withinMs, interval: 100 })
    .toBeNull();
}

export const button = (page: Page | Locator, name: string | RegExp): Locator =>
  page.getByRole('button', { name, ...(typeof name === 'string' ? { exact: true } : {}) });

/** Picks the first person with that role from the list of people. */
export async function sayWho(page: Page, role: string): Promise<string> {
  await button(page, 'Who are you?').click();
  const dialog = page.getByRole('dialog', { name: 'Who are you?' });
  const person = dialog
    .getByRole('listitem')
    .filter({ hasText: new RegExp(`${role}$`) })
    .first();
  const name = await person.locator('span').first().textContent();
  await person.getByRole('button').click();
  await dialog.waitFor({ state: 'detached' });
  return name ?? '';
}

export async function takeControls(page: Page): Promise<void> {
  await button(page, 'Take').click();
  await page.getByText('You have the controls', { exact: true }).waitFor();
}

export async function setSpeed(page: Page, speed: 1 | 10 | 60): Promise<void> {
  const key = button(page, `${speed}× speed`);
  await key.click();
  await eventually(async () => expect(await key.getAttribute('aria-pressed')).toBe('true'));
}

/** Presses a button that is marked as not usable now: people do, and are told why. */
export const pressAnyway = (target: Locator): Promise<void> => target.click({ force: true });

/** The buttons of the present moment. */
export const actions = (page: Page): Locator => page.getByRole('group', { name: 'What you can do now' });

export async function chooseOrder(page: Page, family: 'emulsion' | 'cutback'): Promise<void> {
  const order = button(page, new RegExp(`${family} · bay \\d`)).first();
  if ((await order.getAttribute('aria-pressed')) !== 'true') await order.click();
  await eventually(async () => expect(await order.getAttribute('aria-pressed')).toBe('true'));
}

export async function closeGuide(page: Page): Promise<void> {
  const guide = page.getByRole('complementary', { name: 'Guide to the first batch' });
  await guide.getByRole('button', { name: /^Close/ }).click();
  await guide.waitFor({ state: 'detached' });
}
