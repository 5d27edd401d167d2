/** A yard for one file of journeys: its own server with its own data, its own browser, pictures of what fails. */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, onTestFinished } from 'vitest';
import { BUILD } from '../../../server/bin/support/places.mjs';
import { type Served, serve } from '../../support/served.ts';
import { type Console, launch, openConsole, type Size } from './browser.ts';

const PICTURES = join(BUILD, 'test-reports', 'journeys');

export type Yard = {
  readonly served: () => Served;
  /** A new console; closed at the end of the test, which fails when its page complained of anything. */
  readonly console: (size?: Size, path?: string) => Promise<Console>;
};

/** Call at the top of a file of journeys; `args` go to `serve`. */
export function openYard(args: readonly string[] = []): Yard {
  let served: Served | undefined;
  let browser: Browser | undefined;
  beforeAll(async () => {
    served = await serve(inject('serverEntry'), args);
    browser = await launch(inject('chromiumPath'));
  });
  afterAll(async () => {
    await browser?.close();
    await served?.remove();
  });
  const isUp = <T>(thing: T | undefined): T => {
    if (thing === undefined) throw new Error('the yard is not open yet: use it inside a test');
    return thing;
  };
  return {
    served: () => isUp(served),
    console: async (size = 'desk', path = '/') => {
      const opened = await openConsole(isUp(browser), new URL(path, isUp(served).url).href, size);
      const name = (expect.getState().currentTestName ?? 'journey').replace(/\W+/g, '-').slice(0, 80);
      onTestFinished(async ({ task }) => {
        if (task.result?.state === 'fail') {
          mkdirSync(PICTURES, { recursive: true });
          const picture = join(PICTURES, `${name}-${size}.png`);
          await opened.page.screenshot({ path: picture });
          process.stderr.write(`picture: ${picture}\n${isUp(served).log().slice(-2000)}\n`);
        }
        await opened.context.close();
      });
      return opened;
    },
  };
}
