/** Chromium as the journeys use it: headless, quiet, one context a console. */
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';

/** The two screens the console is made for: an office display and a tablet held upright. */
export const SIZES = {
  desk: { width: 1440, height: 900 },
  tablet: { width: 820, height: 1180 },
} as const;
export type Size = keyof typeof SIZES;

const ARGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

export const launch = (executablePath: string): Promise<Browser> =>
  chromium.launch({ executablePath, args: ARGS });

export type Console = {
  readonly page: Page;
  readonly context: BrowserContext;
  /** Whatever the page complained about: uncaught errors and console errors. */
  readonly complaints: string[];
};

/** A console of its own: its own storage, so its own console id and person. Animations are stilled. */
export async function openConsole(browser: Browser, url: string, size: Size = 'desk'): Promise<Console> {
  const context = await browser.newContext({
    viewport: SIZES[size],
    hasTouch: size === 'tablet',
    reducedMotion: 'reduce',
  });
  context.setDefaultTimeout(15_000);
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on('pageerror', (error) => complaints.push(`uncaught: ${error.message}`));
  page.on('console', (message) => {
    // While the server is away the browser itself reports every failed try to reach it; that is no fault of the page.
    const isOffline = /ERR_CONNECTION|WebSocket connection|net::/.test(message.text());
    if (message.type() === 'error' && !isOffline) complaints.push(message.text());
  });
  await page.goto(url);
  return { page, context, complaints };
}
