/** The Interlock page: what holds now, proof tests, inhibits and their refusals, lessons, at both sizes. */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Page } from 'playwright-core';
import { describe, expect, it, onTestFinished } from 'vitest';
import { axeFindings } from './support/axe.ts';
import { SIZES, type Size } from './support/browser.ts';
import { button, closeGuide, eventually, sayWho, takeControls } from './support/hands.ts';
import { layoutFaults } from './support/layout.ts';
import { openYard } from './support/yard.ts';

const yard = openYard();
const sizes = Object.keys(SIZES) as Size[];

const part = (page: Page, name: string): Promise<void> =>
  page.getByRole('navigation', { name: 'Parts of the interlock page' }).getByRole('link', { name }).click();

const openInterlock = async (page: Page, name: string): Promise<void> => {
  await page.getByRole('navigation', { name: 'Pages' }).getByRole('link', { name: 'Interlock' }).click();
  await part(page, name);
};

async function inject(page: Page, fault: string): Promise<void> {
  await button(page, 'Plant').click();
  const dialog = page.getByRole('dialog', { name: 'Plant' });
  await dialog.getByLabel('What fails').selectOption({ label: fault });
  await button(dialog, 'Put the fault in').click();
  await button(dialog, `Clear ${fault}`).waitFor();
  await page.keyboard.press('Escape');
  await dialog.waitFor({ state: 'detached' });
}

describe('a supervisor', () => {
  it('sees a fault as a cause that holds, records a proof test, and is refused an inhibit of a flame cause', async () => {
    const { page, complaints } = await yard.console();
    await closeGuide(page);
    const name = await sayWho(page, 'supervisor');
    await takeControls(page);

    await inject(page, 'Hood fan stopped');
    await openInterlock(page, 'Cause and effect');
    const row = page.getByRole('row').filter({ has: page.getByRole('rowheader', { name: /^FI-03/ }) });
    await eventually(async () => expect(await row.textContent()).toContain('not met'));
    expect(await row.textContent()).toContain('shuts: Binder valve to the pug mill');
    const together = page.getByRole('row').filter({ hasText: 'All causes together, now' });
    expect(await together.textContent()).toContain('shuts');

    await part(page, 'Requirements');
    await button(page, 'Only what is not met').click();
    const requirement = page.getByRole('listitem').filter({ hasText: 'FI-03' });
    await requirement.getByText('Hood extraction is not proven', { exact: true }).click();
    await requirement.getByText('Start the hood fan and look for a closed damper.').waitFor();

    await part(page, 'Proof tests and permits');
    await button(page, 'Record a proof test of FI-03').click();
    const proof = page.getByRole('dialog', { name: 'Proof test of FI-03' });
    await button(proof, 'Record the test').click();
    await proof.getByText('Say whether it passed.').waitFor();
    await button(proof, 'Failed').click();
    await proof.getByLabel('Remark, kept in the record').fill('fan stopped, flow switch did not drop out');
    expect(await axeFindings(page)).toEqual([]);
    await button(proof, 'Record the test').click();
    await proof.waitFor({ state: 'detached' });
    const tested = page.getByRole('row').filter({ has: page.getByRole('rowheader', { name: /^FI-03/ }) });
    await eventually(async () => expect(await tested.textContent()).toMatch(/failed.*2026-\d\d-\d\d/));
    expect(await tested.textContent()).toContain(`${name}: fan stopped`);

    await button(page, 'Ask for an inhibit…').click();
    const ask = page.getByRole('dialog', { name: 'Ask for an inhibit' });
    await ask.getByLabel('Cause').selectOption('FI-01');
    await ask.getByLabel('Reason, kept in the record').fill('one batch to finish, just this once');
    await button(ask, 'Ask for it').click();
    await ask.getByText(/FI-01 .*can never be inhibited, by anyone, for any reason/).waitFor();
    expect(await axeFindings(page)).toEqual([]);

    await ask.getByLabel('Cause').selectOption('TE-01');
    await ask.getByLabel('Reason, kept in the record').fill('float tested by hand, fitter beside it');
    await button(ask, 'Ask for it').click();
    await ask.waitFor({ state: 'detached' });
    await button(page, 'Confirm as the second person').click();
    await page
      .getByText('You asked for it yourself: a second person must confirm it.', { exact: true })
      .waitFor();

    const second = await yard.console('tablet', '/interlock/upkeep');
    await sayWho(second.page, 'operator');
    await button(second.page, 'Confirm as the second person').click();
    const banner = page.getByText('is inhibited for testing: float tested by hand');
    await banner.waitFor();
    await page.getByRole('link', { name: 'Lab', exact: true }).click();
    await banner.waitFor();
    await openInterlock(page, 'Proof tests and permits');
    await button(page, 'End it now').click();
    await banner.waitFor({ state: 'detached' });

    await page.getByRole('link', { name: 'Records' }).click();
    await button(page, 'Refusals').click();
    const record = page.getByRole('region', { name: 'Newest entries' });
    await eventually(async () => expect(await record.textContent()).toContain('can never be inhibited'));
    expect([...complaints, ...second.complaints]).toEqual([]);
  });

  it('is told why cutback does not go into the emulsion tank, and has a second person confirm it in its own', async () => {
    const { page, complaints } = await yard.console('desk', '/interlock/tanks');
    await sayWho(page, 'supervisor');
    const tank = page.getByRole('region', { name: 'Emulsion tank' });
    await button(tank, 'Begin the delivery').click();
    await tank.getByText('Choose what the ticket says was loaded.').waitFor();
    await tank.getByLabel('What the ticket says').selectOption('cutback');
    await tank.getByLabel('Mass, kg').fill('2000');
    await tank.getByLabel('Ticket number').fill('T 4711');
    await button(tank, 'Begin the delivery').click();
    await tank.getByText(/The ticket says cutback and this tank is for emulsion/).waitFor();

    // The right tank: received by one, confirmed by another, ended when uncoupled.
    const right = page.getByRole('region', { name: 'Cutback tank' });
    await right.getByLabel('What the ticket says').selectOption('cutback');
    await right.getByLabel('Mass, kg').fill('500');
    await right.getByLabel('Ticket number').fill('T 4712');
    await button(right, 'Begin the delivery').click();
    await right.getByText(/^A delivery into the cutback tank is under way/).waitFor();
    await right.getByLabel('What ticket and sample show').selectOption('cutback');
    await button(right, 'Confirm as the second person').click();
    await right.getByText(/You received it yourself: a second person must look/).waitFor();
    expect(await layoutFaults(page, false)).toEqual([]);
    expect(await axeFindings(page)).toEqual([]);
    const second = await yard.console('tablet', '/interlock/tanks');
    const seconds = second.page.getByRole('region', { name: 'Cutback tank' });
    await sayWho(second.page, 'storekeeper');
    await seconds.getByLabel('What ticket and sample show').selectOption('cutback');
    await button(seconds, 'Confirm as the second person').click();
    await right.getByText(/Confirmed by Pell Oakhart/).waitFor();
    await button(right, 'Uncoupled: end the delivery').click();
    await right.getByText('Contents confirmed', { exact: true }).waitFor();
    expect([...complaints, ...second.complaints]).toEqual([]);
  });
});

describe('a lesson', () => {
  it('answers: 4 volumes leave 262 % LEL of a full drum, 6.35 leave 25 %', async () => {
    const { page, complaints } = await yard.console('desk', '/interlock/lessons/purge');
    await page.getByText(/^With the figures of Larkmoor Road Yard, Cutback patch mix/).waitFor();
    const readings = page.locator('.readings');
    const volumes = page.getByRole('slider', { name: 'Volumes changed' });
    expect(await readings.textContent()).toMatch(/After 4\.00 volumes262 % LEL/);
    await volumes.focus();
    for (let i = 0; i < 47; i += 1) await page.keyboard.press('ArrowRight');
    await eventually(async () =>
      expect(await readings.textContent()).toMatch(/After 6\.35 volumes25 % LELclear/),
    );
    await page.getByText('The figures as a table').click();
    await page.getByRole('rowheader', { name: '4', exact: true }).waitFor();
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      button(page, /^Save all \d+ rows as CSV$/).click(),
    ]);
    expect(download.suggestedFilename()).toBe('purge.csv');
    expect(complaints).toEqual([]);
  });
});

describe('the page that stands alone', () => {
  it('comes from the console, works from a disk, and answers as the gate does', async () => {
    const { page, context, complaints } = await yard.console('desk', '/interlock/matrix');
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('link', { name: 'Save the interlock as a page of its own' }).click(),
    ]);
    const folder = await mkdtemp(join(tmpdir(), 'patchyard-page-'));
    onTestFinished(() => rm(folder, { recursive: true, force: true }));
    const file = join(folder, 'interlock.html');
    await download.saveAs(file);

    const alone = await context.newPage();
    const asked: string[] = [];
    alone.on('request', (request) => asked.push(request.url()));
    alone.on('pageerror', (error) => complaints.push(error.message));
    await alone.goto(pathToFileURL(file).href);
    await button(alone, 'Light the burner').click();
    const state = alone.getByRole('region', { name: 'What the interlock does' });
    await state.getByText(/Burner: (low fire|flame seen|high fire)/).waitFor();
    await alone.getByText('Cutback mix in the pug mill', { exact: true }).click();
    await state.getByText('Tripped', { exact: true }).waitFor();
    await alone
      .getByRole('region', { name: 'What happened' })
      .getByText(/Tripped by FT-01/)
      .waitFor();
    await button(alone, 'Light the burner').click();
    await alone.getByText(/FI-11 The pug mill holds solvent-bearing binder/).waitFor();
    expect(await layoutFaults(alone, false)).toEqual([]);
    expect(await axeFindings(alone)).toEqual([]);
    expect(asked.filter((url) => !url.startsWith('file:') && !url.startsWith('data:'))).toEqual([]);
    expect(complaints).toEqual([]);
  });
});

const PARTS = [
  '/interlock',
  '/interlock/matrix',
  '/interlock/upkeep',
  '/interlock/tanks',
  '/interlock/lessons',
];
const LESSONS = ['binder', 'purge', 'hood', 'day', 'aggregate'].map((id) => `/interlock/lessons/${id}`);

describe.each(sizes)('at %s size', (size) => {
  it.each([
    ['part', PARTS],
    ['lesson', LESSONS],
  ])('every %s is sound', async (_what, paths) => {
    const { page, complaints } = await yard.console(size, '/interlock');
    for (const path of paths) {
      await page.goto(new URL(path, yard.served().url).href);
      await page.getByRole('main').getByRole('heading', { level: 2 }).first().waitFor();
      expect(await layoutFaults(page, size === 'tablet'), path).toEqual([]);
      expect(await axeFindings(page), path).toEqual([]);
    }
    expect(complaints).toEqual([]);
  });
});
