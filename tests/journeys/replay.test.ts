/**
 * A shift runs on the real server; at three moments the plant is paused and the live screen kept. The export of the
 * same shift is then replayed and taken to the same moments: words and pixels of the page must be the same.
 */
import { randomUUID } from 'node:crypto';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Page } from 'playwright-core';
import { expect, it, onTestFinished } from 'vitest';
import type { LineView } from '../../machines/line/view.types.ts';
import { BUILD } from '../../server/bin/support/places.mjs';
import { axeFindings } from './support/axe.ts';
import { SIZES } from './support/browser.ts';
import { button, closeGuide, eventually, sayWho, setSpeed, takeControls } from './support/hands.ts';
import { layoutFaults } from './support/layout.ts';
import { comparePictures } from './support/pixels.ts';
import { openYard } from './support/yard.ts';

const yard = openYard(['scenarios/shifts/emulsion-day.yaml']);
const PAIRS = join(BUILD, 'test-reports', 'replay-pairs');

type Kept = {
  readonly name: string;
  readonly atMs: number;
  readonly words: string;
  readonly picture: Buffer;
};

/** The page between band and bottom bar: everything that both frames share. */
const pageOf = (page: Page) => page.locator('main');

/** Height of the page when pictures of it are compared; what it has on the console at 900 px. */
const PAGE_PX = 786;

/** Nothing hovers, nothing blinks, and what is drawn late is there. */
async function still(page: Page): Promise<void> {
  await page.mouse.move(0, 0);
  await page.evaluate(async () => {
    if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
    await document.fonts.ready;
    await new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve)));
  });
}

const wordsOf = async (page: Page): Promise<string> => (await pageOf(page).textContent()) ?? '';

async function lineNow(url: string): Promise<LineView> {
  const response = await fetch(`${url}/api/state`);
  return ((await response.json()) as { view: LineView }).view;
}

async function give(url: string, page: Page, command: object): Promise<{ ok: boolean; because?: string[] }> {
  const console = await page.evaluate(() => localStorage.getItem('patchyard.console'));
  const response = await fetch(`${url}/api/commands`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ id: randomUUID(), by: { person: 'wrenna', console }, command }),
  });
  return (await response.json()) as { ok: boolean; because?: string[] };
}

const pauseKey = (page: Page) => button(page, 'Pause');

async function pause(page: Page, wanted: boolean): Promise<void> {
  await pauseKey(page).click();
  await eventually(async () =>
    expect(await pauseKey(page).getAttribute('aria-pressed')).toBe(String(wanted)),
  );
}

/** Keeps the screen of a console while the plant stands still. */
async function keep(name: string, page: Page, url: string): Promise<Kept> {
  const { shift } = await lineNow(url);
  const clock = page.locator('.header .clock');
  const seconds = Math.floor(shift.atMs / 1000) % 60;
  await eventually(async () =>
    expect(await clock.textContent()).toMatch(new RegExp(`:${String(seconds).padStart(2, '0')}$`)),
  );
  expect((await lineNow(url)).shift.atMs, 'the plant stands still').toBe(shift.atMs);
  return { name, atMs: shift.atMs, words: await wordsOf(page), picture: await pictureOf(page) };
}

const clockOf = (startsAt: string, atMs: number): string => {
  const [h = 0, m = 0] = startsAt.split(':').map(Number);
  const tenths = h * 36_000 + m * 600 + Math.round(atMs / 100);
  const two = (n: number) => String(Math.floor(n)).padStart(2, '0');
  return `${two(tenths / 36_000)}:${two((tenths / 600) % 60)}:${two((tenths / 10) % 60)}.${tenths % 10}`;
};

async function goTo(page: Page, clock: string): Promise<void> {
  const field = page.getByLabel('Time of day to go to');
  await field.fill(clock);
  await field.press('Enter');
  await eventually(async () =>
    expect(await page.locator('[data-clock]').textContent()).toBe(clock.slice(0, 8)),
  );
}

async function seenAs(page: Page, whom: 'holder' | 'onlooker'): Promise<void> {
  await button(page, 'Options').click();
  const dialog = page.getByRole('dialog', { name: 'How it is shown' });
  await dialog.getByLabel('Buttons as they were for').selectOption(whom);
  const without = dialog.getByRole('checkbox', { name: /Without hindsight/ });
  if (!(await without.isChecked())) await dialog.getByText(/Without hindsight/).click();
  await page.keyboard.press('Escape');
  await dialog.waitFor({ state: 'detached' });
}

/**
 * A picture of the page with everything around it taken away. Band and buttons of a replay push the page down, and
 * edges of letters are drawn otherwise at other heights: so both pages are lifted to the same place first.
 */
async function pictureOf(page: Page): Promise<Buffer> {
  await still(page);
  await page.evaluate((height) => {
    const main = document.querySelector('main');
    if (main === null) throw new Error('no page');
    Object.assign(main.style, {
      position: 'fixed',
      inset: '0 0 auto 0',
      height: `${height}px`,
      zIndex: '1000',
      background: 'var(--paper)',
    });
  }, PAGE_PX);
  await still(page);
  const { width } = SIZES.desk;
  const picture = await page.screenshot({ clip: { x: 0, y: 0, width, height: PAGE_PX } });
  await page.evaluate(() => document.querySelector('main')?.removeAttribute('style'));
  return picture;
}

it('a replay shows at three moments what the live screens showed, word for word and pixel for pixel', async () => {
  const { page: operator } = await yard.console();
  const { page: onlooker } = await yard.console();
  const { url } = yard.served();
  for (const page of [operator, onlooker]) await closeGuide(page);
  await sayWho(operator, 'operator');
  await takeControls(operator);
  expect(await give(url, operator, { do: 'standIn', skill: 'good' })).toEqual({ ok: true });

  // 1: the stand-in weighs out a batch. 2: it mixes the next one. Both seen by somebody who has named nobody.
  await setSpeed(operator, 60);
  await eventually(async () => expect((await lineNow(url)).shift.atMs).toBeGreaterThan(75_000));
  await pause(operator, true);
  const first = await keep('stand-in at work', onlooker, url);
  await pause(operator, false);
  await eventually(async () => expect((await lineNow(url)).batches.length).toBeGreaterThan(0));
  await eventually(async () => expect((await lineNow(url)).now.steps.length).toBeGreaterThan(0));
  await pause(operator, true);
  const second = await keep('a batch on its sheet', onlooker, url);
  await pause(operator, false);

  // 3: a person takes over, is refused something and holds the batch; seen at her own console.
  await setSpeed(operator, 10);
  await takeControls(operator);
  await operator.locator('[data-do="hold"]').first().click();
  await eventually(async () => expect((await lineNow(url)).now.procedure).toMatch(/^held$/));
  await pause(operator, true);
  // Readings are written by the second; a command, refused or not, brings the record up to this very moment.
  expect((await give(url, operator, { do: 'releaseEmergencyStop' })).ok).toBe(false);
  const third = await keep('held by a person', operator, url);

  const startsAt = (await lineNow(url)).shift.startsAt;
  const { page: replay, context, complaints } = await yard.console('desk', '/replay?shift=1');
  await replay.locator('.line-page').waitFor();
  await eventually(async () =>
    expect(await replay.locator('.check-pill').textContent()).toMatch(/^Intact, unsealed/),
  );
  mkdirSync(PAIRS, { recursive: true });
  for (const [i, kept] of [first, second, third].entries()) {
    await seenAs(replay, kept === third ? 'holder' : 'onlooker');
    await goTo(replay, clockOf(startsAt, kept.atMs));
    await eventually(async () => expect(await wordsOf(replay), kept.name).toBe(kept.words));
    const picture = await pictureOf(replay);
    writeFileSync(join(PAIRS, `${i + 1}-live.png`), kept.picture);
    writeFileSync(join(PAIRS, `${i + 1}-replay.png`), picture);
    writeFileSync(join(PAIRS, `${i + 1}-replay-whole.png`), await replay.screenshot());
    const compared = await comparePictures(context, kept.picture, picture);
    expect(compared, kept.name).toMatchObject({ differing: 0, box: null });
  }
  // Nothing can be commanded, and it says so beside the button that was pressed.
  await replay.locator('[data-do="restart"]').first().click();
  await replay.getByText('Replay: nothing can be commanded.', { exact: true }).waitFor();
  expect((await lineNow(url)).now.procedure).toBe('held');
  expect(complaints).toEqual([]);
});

it('a sealed export opens from a file, also offline; pages are sound, keys move it, a wrong file is refused', async () => {
  const { url } = yard.served();
  const { page: operator } = await yard.console();
  if ((await lineNow(url)).now.procedure === 'held') {
    await sayWho(operator, 'operator');
    const { seat } = await lineNow(url);
    const holder = seat.holder?.console ?? '';
    const as = (command: object) =>
      fetch(`${url}/api/commands`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ id: randomUUID(), by: { person: 'wrenna', console: holder }, command }),
      }).then((response) => response.json());
    expect(await as({ do: 'abort' })).toEqual({ ok: true });
    await pause(operator, false);
    await eventually(async () => expect((await lineNow(url)).now.procedure).toBe('aborted'));
    expect(await as({ do: 'dump', reason: 'end of the journey' })).toEqual({ ok: true });
    await setSpeed(operator, 60);
    await eventually(async () => expect(await as({ do: 'endShift' })).toEqual({ ok: true }));
  }
  await eventually(async () => {
    const shifts = (await (await fetch(`${url}/api/shifts`)).json()) as { sealed: boolean }[];
    expect(shifts[0]?.sealed).toBe(true);
  });
  const sealed = Buffer.from(await (await fetch(`${url}/api/shifts/1/export`)).arrayBuffer());
  const wrong = Buffer.from('not a zip at all');
  const altered = Buffer.from(sealed);
  altered.writeUInt8(altered.readUInt8(altered.length >> 1) ^ 1, altered.length >> 1);

  const { page, context, complaints } = await yard.console('tablet', '/replay');
  const choose = (name: string, buffer: Buffer) =>
    page.locator('input[type=file]').setInputFiles({ name, mimeType: 'application/zip', buffer });
  await choose('letter.zip', wrong);
  await page.getByRole('heading', { name: 'This is not an export of a shift' }).waitFor();
  expect(await axeFindings(page)).toEqual([]);
  expect(await layoutFaults(page, true)).toEqual([]);

  await choose('sealed.zip', sealed);
  const pill = page.locator('.check-pill');
  await eventually(async () => expect(await pill.textContent()).toMatch(/^Intact:/));
  const pages = page.getByRole('navigation', { name: 'Pages of the replay' });
  for (const name of ['Line', 'Lots', 'Interlock', 'Entries', 'Traces', 'Compare', 'Notes']) {
    await pages.getByRole('link', { name, exact: true }).click();
    await page.getByRole('main').getByRole('heading').first().waitFor();
    if (name === 'Traces') await page.locator('.u-over').first().waitFor();
    expect(await layoutFaults(page, true), name).toEqual([]);
    expect(await axeFindings(page), name).toEqual([]);
  }
  const clock = page.locator('[data-clock]');
  await page.keyboard.press('Home');
  const before = await clock.textContent();
  await page.keyboard.press('r');
  await eventually(async () => expect(await clock.textContent()).not.toBe(before));
  await pages.getByRole('link', { name: 'Entries', exact: true }).click();
  await page.locator('.replay-now .record-sort', { hasText: /refused|happened/ }).waitFor();
  await page
    .getByText(/Refused to release the emergency stop/)
    .first()
    .waitFor();
  await page.keyboard.press('b');
  await pages.getByRole('link', { name: 'Notes', exact: true }).click();
  await page.getByRole('list', { name: 'Notes' }).getByRole('listitem').first().waitFor();
  expect(complaints).toEqual([]);

  await page.getByRole('link', { name: 'Close file' }).click();
  await choose('altered.zip', altered);
  await page
    .getByRole('heading', { name: 'This file is damaged' })
    .or(page.locator('.banner.strong', { hasText: /altered|could not be checked/ }))
    .first()
    .waitFor();
  // Leaving while the charts may still run ends the workers.
  await page.goto(new URL('/replay?shift=1', url).href);
  await eventually(async () => expect(page.workers().length).toBeGreaterThan(0));
  await page
    .getByRole('link', { name: /Running line/ })
    .first()
    .click();
  await eventually(async () => expect(page.workers()).toHaveLength(0));

  // The same from a disk, with the page this server gives away and no server behind it.
  const folder = mkdtempSync(join(tmpdir(), 'patchyard-viewer-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  const viewer = join(folder, 'viewer.html');
  writeFileSync(viewer, Buffer.from(await (await fetch(`${url}/api/pages/viewer`)).arrayBuffer()));
  const offline = await context.newPage();
  await context.setOffline(true);
  const asked: string[] = [];
  offline.on('request', (request) => asked.push(request.url()));
  await offline.goto(pathToFileURL(viewer).href);
  await offline
    .locator('input[type=file]')
    .setInputFiles({ name: 'sealed.zip', mimeType: 'application/zip', buffer: sealed });
  await eventually(async () =>
    expect(await offline.locator('.check-pill').textContent()).toMatch(/^Intact:/),
  );
  await offline.keyboard.press('r');
  await offline
    .getByText(/Refused to release the emergency stop/)
    .first()
    .waitFor();
  expect(asked.filter((address) => !/^(file|blob|data):/.test(address))).toEqual([]);
});
