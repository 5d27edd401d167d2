/** The lab through the browser: a lot sampled, tested by keyboard and accepted; one that fails, is held and goes by concession. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, it } from 'vitest';
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
import { openYard } from './support/yard.ts';

const dataDir = mkdtempSync(join(tmpdir(), 'patchyard-lab-'));
const support = (name: string): string => new URL(`./support/${name}`, import.meta.url).pathname;

// The first day makes two lots whose samples are taken; the second is late enough for tests that take a day.
beforeAll(() => {
  const first = spawnSync(
    process.execPath,
    [inject('serverEntry'), 'run', support('lab-first-day.yaml'), '--data', dataDir],
    { encoding: 'utf8' },
  );
  expect(first.stderr).toBe('');
  expect(first.status).toBe(0);
});
const yard = openYard([support('lab-second-day.yaml'), '--new-shift', '--data', dataDir]);
afterAll(() => rmSync(dataDir, { recursive: true, force: true }));

const PHOTO = new URL('../../client/public/line-page.png', import.meta.url).pathname;
const GOOD = '260512-1';
const LEAN = '260512-2';

/** What a bench might read, typed as an officer types it: letters choose, n is now. */
const READINGS: { readonly [sheet: string]: { readonly [field: string]: string } } = {
  sieve: {
    of: 'E',
    dryG: '1500',
    washedG: '1485',
    sieveMm: '3',
    portions: '3',
    'retainedG:12.5': '0',
    'retainedG:9.5': '150',
    'retainedG:4.75': '700',
    'retainedG:2.36': '400',
    'retainedG:0.6': '195',
    'retainedG:0.075': '35',
    panG: '5',
    furtherPct: '0.2',
    endedAt: 'n',
  },
  extraction: {
    portionG: '1500',
    waterPct: '1',
    solventPct: '0',
    aggregateG: '1400',
    filterBeforeG: '12',
    filterAfterG: '12.4',
    washes: '6',
    colour: 'S',
    finesBy: 'S',
    finesG: '8',
    endedAt: 'n',
  },
  bond: {
    diameterMm: '101.6',
    blowsLower: '50',
    blowsUpper: '50',
    tackG: '',
    stoodH: '24',
    testC: '25',
    parted: 'A',
    loadUnit: 'k',
    load: '210',
    endedAt: 'n',
  },
  workability: {
    portionG: '2500',
    coldH: '4',
    cabinetC: '-7',
    middleC: '-7',
    spatula: 'S',
    broke: 'r',
    breakUpS: '20',
    endedAt: 'n',
  },
  'water-resistance': {
    portionG: '50',
    ovenC: '120',
    ovenH: '4',
    cooledC: '95',
    waterMl: '400',
    waterC: '100',
    stirredS: '180',
    turns: '180',
    firstPct: '95',
    secondPct: '94',
    endedAt: 'n',
  },
};

/** Every key an officer presses is counted. */
const keyboard = (page: Page) => {
  let pressed = 0;
  let filled = 0;
  return {
    pressed: () => pressed,
    fields: () => filled,
    filled: () => {
      filled += 1;
    },
    press: async (key: string) => {
      pressed += 1;
      await page.keyboard.press(key);
    },
    type: async (text: string) => {
      pressed += text.length;
      await page.keyboard.type(text);
    },
  };
};
type Keyboard = ReturnType<typeof keyboard>;

const focused = (page: Page): Promise<{ field: string | null; value: string; words: string }> =>
  page.evaluate(() => ({
    field:
      document.activeElement instanceof HTMLElement ? (document.activeElement.dataset.field ?? null) : null,
    value: (document.activeElement as HTMLInputElement | null)?.value ?? '',
    words: document.activeElement?.textContent ?? '',
  }));
const untilFocused = (page: Page, words: RegExp): Promise<void> =>
  eventually(async () => expect((await focused(page)).words).toMatch(words));

const open = async (
  size: Size,
  role: string,
  path: string,
): Promise<{ page: Page; complaints: string[] }> => {
  // The guide is led on the Line page only.
  const { page, complaints } = await yard.console(size, path === '/' ? '/' : '/lots');
  if (path === '/') await closeGuide(page);
  const name = await sayWho(page, role);
  if (path !== '/') await page.goto(new URL(path, page.url()).href);
  await page.locator('.who-name').getByText(name).waitFor();
  await page.getByRole('main').getByRole('heading').first().waitFor();
  return { page, complaints };
};

const logAll = async (page: Page, keys: Keyboard): Promise<void> => {
  for (let n = 1; n <= 7; n += 1) {
    await eventually(async () => expect(page.url()).toContain(`/${n}`));
    await page.getByRole('button', { name: 'Log the sample' }).waitFor();
    await keys.press('Enter');
    await untilFocused(page, n < 7 ? /^Log the next/ : /^Worksheet: sample 1/);
    await keys.press('Enter');
  }
};

/** Fills in the sheet that is open, field after field, with Enter. */
const fillIn = async (page: Page, keys: Keyboard, other: { readonly [field: string]: string } = {}) => {
  await page.locator('[data-field]').first().waitFor();
  const sheet = new URL(page.url()).searchParams.get('sheet') ?? '';
  for (let i = 0; i < 30; i += 1) {
    const { field, value } = await focused(page);
    if (field === null) throw new Error(`no field has the focus on ${sheet}`);
    const text = other[field] ?? READINGS[sheet]?.[field] ?? (field === 'balance' ? '' : undefined);
    if (text === undefined) throw new Error(`nothing to type into ${field} of ${sheet}`);
    // What stays from the sheet before, the sieves say, is there already.
    if (value === '') {
      await keys.type(text);
      if (text !== '') keys.filled();
    }
    const isLast = (await page.locator('[data-field]').last().getAttribute('data-field')) === field;
    await keys.press('Enter');
    if (isLast) return;
  }
};

const decide = async (page: Page, name: string, reason?: string): Promise<void> => {
  await page.getByRole('region', { name: 'Decision' }).getByRole('button', { name, exact: true }).click();
  const dialog = page.locator('dialog[open]');
  if (reason !== undefined) await dialog.getByRole('textbox').fill(reason);
  await dialog.getByRole('button', { name, exact: true }).click();
  await dialog.waitFor({ state: 'detached' });
};

it('a lot goes from its samples to accepted, entered by keyboard in less than three minutes of keys', async () => {
  const { page, complaints } = await open('desk', 'quality officer', `/lab/samples/${GOOD}/1`);
  const keys = keyboard(page);
  await logAll(page, keys);

  // What cannot be is refused at the field, in words, and nothing is lost by a reload.
  await page.locator('[data-field="dryG"]').fill('-4');
  await page.getByText('a mass cannot be negative').waitFor();
  await page.locator('[data-field="dryG"]').fill('4.2 kg');
  await page.getByText('enter 4200').waitFor();
  await page.reload();
  await page.getByText('Draft on this console only, from an earlier visit').waitFor();
  expect(await page.locator('[data-field="dryG"]').inputValue()).toBe('4.2 kg');
  await button(page, 'Drop the draft').click();
  await page.locator('[data-field="of"]').focus();

  for (let sheet = 1; sheet <= 7; sheet += 1) {
    await fillIn(page, keys);
    await untilFocused(page, sheet < 7 ? /^Next sheet of this lot/ : /open the lot$/);
    await keys.press('Enter');
    if (sheet < 7) await page.locator('[data-field]').first().waitFor();
  }
  // Keystroke-level model (Card, Moran and Newell 1980, from memory): 0.28 s a key for an average typist who is no
  // typist by trade, and 1.35 s of thought before each field that is filled in.
  expect(keys.fields()).toBeGreaterThan(60);
  expect(keys.pressed() * 0.28 + keys.fields() * 1.35).toBeLessThan(180);

  await page.getByRole('heading', { name: `Lot ${GOOD}` }).waitFor();
  await page.getByText('Nothing: it meets its specification.').waitFor();
  await decide(page, 'Accept the lot');
  await page.getByText('It meets its specification and may leave the yard.').waitFor();
  expect(complaints).toEqual([]);
});

it('a lot that fails is held, and a second person releases it by concession', async () => {
  const { page, complaints } = await open('tablet', 'quality officer', `/lab/samples/${LEAN}/1`);
  const keys = keyboard(page);
  await logAll(page, keys);
  await page.goto(new URL(`/lab/worksheets/new?sheet=extraction&lot=${LEAN}&sample=3`, page.url()).href);
  await page.locator('[data-field]').first().focus();
  await fillIn(page, keys, { aggregateG: '1425' });
  await untilFocused(page, /^Next sheet of this lot/);

  // A reading is put right with a reason; the old value stays to be seen. A photograph goes with the sheet.
  await page.getByRole('link', { name: /^Open the sheet/ }).click();
  await button(page, 'Correct a reading').click();
  await page.locator('[data-field="solventPct"]').fill('0.1');
  await page.getByLabel('Reason, kept in the record').fill('Solvent was not dry yet when weighed');
  await button(page, 'Correct it').click();
  await page.locator('.kept-readings del').waitFor();
  expect(await page.locator('.kept-readings del').allTextContents()).toEqual(['0 ']);
  await page.locator('input[type="file"]').setInputFiles(PHOTO);
  await page.getByLabel('What it shows').fill('Extract after six washes');
  await button(page, 'Attach it').click();
  const kept = page
    .getByRole('list', { name: 'Photographs' })
    .getByRole('img', { name: 'Extract after six washes' });
  await kept.waitFor();
  await eventually(async () =>
    expect(await kept.evaluate((img) => (img as HTMLImageElement).naturalWidth)).toBeGreaterThan(0),
  );

  await page.goto(new URL(`/lab/lots/${LEAN}`, page.url()).href);
  await page.getByText('on hold', { exact: true }).first().waitFor();
  const decision = page.getByRole('region', { name: 'Decision' });
  expect(await decision.getByRole('listitem').allTextContents()).toEqual(
    expect.arrayContaining([expect.stringMatching(/retest/), expect.stringMatching(/concession/)]),
  );
  await decision.getByRole('button', { name: 'Accept the lot' }).click({ force: true });
  await page
    .locator('[data-refusal]')
    .getByText(/residual binder/i)
    .first()
    .waitFor();
  await decide(page, 'Ask for a concession', 'Two road crews stand waiting and the mix is workable');
  await decision
    .getByText(/asks for a concession/)
    .first()
    .waitFor();
  // Who asks cannot grant it: not by role, and not by person.
  await decision.getByRole('button', { name: 'Grant the concession' }).click({ force: true });
  await page
    .locator('[data-refusal]')
    .getByText(/a second person grants or refuses it/)
    .waitFor();

  const second = await open('desk', 'supervisor', `/lab/lots/${LEAN}`);
  await decide(second.page, 'Grant the concession', 'For temporary patches only, to be replaced in spring');
  await second.page.getByText('released by concession', { exact: true }).first().waitFor();
  await eventually(async () =>
    expect(await page.getByText('released by concession', { exact: true }).count()).toBeGreaterThan(0),
  );
  expect([...complaints, ...second.complaints]).toEqual([]);
});

it('samples that fall due stand on every page until each is taken, several at once', async () => {
  const line = await open('desk', 'operator', '/');
  await takeControls(line.page);
  await chooseOrder(line.page, 'emulsion');
  await line.page.locator('[data-do="start"]').first().click();
  await setSpeed(line.page, 60);
  await line.page.locator('[data-do="confirmLook"]').waitFor({ timeout: 60_000 });
  await setSpeed(line.page, 1);

  // The first half of a lot of two batches holds one gradation and one binder sample at least.
  const officer = await open('desk', 'quality officer', '/records');
  const prompts = officer.page.getByRole('region', { name: 'Samples to be taken' });
  await prompts.getByText(/^Take samples 1\b.*\b3\b.* from the next discharge/).waitFor();
  const taken = (n: number) => prompts.getByRole('button', { name: new RegExp(`^Sample ${n} is taken`) });
  await taken(1).waitFor();
  const online = line.page.getByRole('region', { name: 'Samples to be taken' });
  await online.getByRole('button', { name: /^Sample 1 is taken/ }).waitFor();
  expect(await layoutFaults(line.page, false)).toEqual([]);
  expect(await axeFindings(line.page)).toEqual([]);
  // Nothing can be taken of what is still in the mixer; once it falls, any of them may be taken first.
  await taken(1).click({ force: true });
  await prompts.getByText(/still in the mixer/).waitFor();
  await line.page.locator('[data-do="confirmLook"]').click();
  await prompts.getByText(/^Take samples 1\b.*\b3\b.* now: batch 1 is being discharged/).waitFor();
  await taken(3).click();
  await taken(3).waitFor({ state: 'detached' });
  expect(await taken(1).count()).toBe(1);
  await taken(1).click();
  await taken(1).waitFor({ state: 'detached' });
  await officer.page.goto(new URL('/lab/samples/260513-1/3', officer.page.url()).href);
  await button(officer.page, 'Log the sample').click();
  await button(officer.page, /^Log the next/).waitFor();
  await officer.page.goto(
    new URL('/lab/worksheets/new?sheet=extraction&lot=260513-1&sample=3', officer.page.url()).href,
  );
  await button(officer.page, 'Read the simulated bench').click();
  await officer.page.getByText('readings are simulated').waitFor();
  expect(Number(await officer.page.locator('[data-field="portionG"]').inputValue())).toBeGreaterThan(500);
  await button(line.page, 'Release').click();
  expect([...line.complaints, ...officer.complaints]).toEqual([]);
});

it('every part of the lab is sound at both sizes', async () => {
  const { page, complaints } = await open('tablet', 'quality officer', '/lots');
  const found: string[] = [];
  for (const path of [
    '/lots',
    '/lab/lots',
    `/lab/lots/${GOOD}`,
    '/lab/samples',
    `/lab/samples/${GOOD}/3`,
    '/lab/worksheets',
    '/lab/worksheets/T-260513-1',
    `/lab/worksheets/new?sheet=water-resistance&lot=${LEAN}&sample=7`,
    '/lab/trends',
    '/lab/specifications',
    `/lab/specifications/seal/${GOOD}`,
  ]) {
    await page.goto(new URL(path, page.url()).href);
    await page.getByRole('navigation', { name: 'Parts of the lab page' }).waitFor();
    await eventually(async () => expect(await page.getByText('Opening the lab’s book…').count()).toBe(0));
    for (const [size, box] of Object.entries(SIZES)) {
      await page.setViewportSize(box);
      for (const fault of [...(await layoutFaults(page, size === 'tablet')), ...(await axeFindings(page))])
        found.push(`${path} at ${size} size: ${fault}`);
    }
  }
  expect(found).toEqual([]);
  expect(complaints).toEqual([]);
});
