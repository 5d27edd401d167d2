/** The checks the journeys lean on do catch what they are for. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { axeFindings } from './support/axe.ts';
import { launch } from './support/browser.ts';
import { layoutFaults } from './support/layout.ts';

let browser: Browser;
let page: Page;

beforeAll(async () => {
  browser = await launch(inject('chromiumPath'));
  page = await browser.newPage({ viewport: { width: 820, height: 1180 } });
});
afterAll(() => browser?.close());

const show = (body: string): Promise<void> =>
  page.setContent(
    `<!doctype html><html lang="en"><title>Check</title><body><main>${body}</main></body></html>`,
  );

const SOUND = `<h1>Line</h1><p>Weighing the aggregates</p>
  <button style="width:120px;height:48px">Hold</button>
  <div style="overflow:auto;width:200px"><p style="width:400px">a wide table that scrolls by itself</p></div>
  <svg width="200" height="60" role="img" aria-label="tank"><text x="10" y="20">Tank</text><text x="10" y="45">60 °C</text></svg>`;

describe('the layout check', () => {
  it('finds nothing wrong with a sound page', async () => {
    await show(SOUND);
    expect(await layoutFaults(page, true)).toEqual([]);
  });

  it('lets an opaque drawer lie over the page', async () => {
    await show(
      `${SOUND}<aside style="position:fixed;top:0;left:0;width:300px;height:400px;background:#fff"><p>Alarms</p></aside>`,
    );
    expect(await layoutFaults(page, true)).toEqual([]);
  });

  it.each([
    ['scrolls sideways', '<div style="width:1200px">wide</div>'],
    ['cut by', '<p style="overflow:hidden;width:40px;white-space:nowrap">Weighing the aggregates</p>'],
    ['cut by', '<div style="overflow:hidden;height:20px"><p>one</p><p>two</p></div>'],
    [
      'ellipsis',
      '<p style="overflow:hidden;text-overflow:ellipsis;width:60px;white-space:nowrap">Weighing it</p>',
    ],
    [
      'text over text',
      '<p style="margin:0">Hold the batch</p><p style="margin:-18px 0 0">Stop the batch</p>',
    ],
    [
      'text over text',
      '<svg width="300" height="60"><text x="5" y="20">Emulsion</text><text x="30" y="22">61 °C</text></svg>',
    ],
    ['cut by', '<svg width="30" height="40"><text x="2" y="20">Emulsion tank</text></svg>'],
    ['too small to touch', '<button style="width:30px;height:30px;padding:0">x</button>'],
  ])('caught: %s', async (words, body) => {
    await show(body);
    expect((await layoutFaults(page, true)).join('\n')).toContain(words);
  });
});

describe('axe', () => {
  it('finds nothing wrong with a sound page', async () => {
    await show(SOUND.replace('overflow:auto', 'overflow:visible'));
    expect(await axeFindings(page)).toEqual([]);
  });

  it.each([
    ['button-name', '<h1>x</h1><button></button>'],
    ['color-contrast', '<h1>x</h1><p style="color:#bbb;background:#fff">faint</p>'],
    ['label', '<h1>x</h1><input type="text">'],
  ])('caught: %s', async (rule, body) => {
    await show(body);
    expect((await axeFindings(page)).join('\n')).toContain(rule);
  });
});
