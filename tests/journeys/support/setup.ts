/** Before all journeys: a browser is found, the console and the server are built as `npm start` builds them. */
import type { TestProject } from 'vitest/node';
import { prepare } from '../../../server/bin/support/prepare.mjs';
import { findOrInstallChromium } from '../../support/chromium.mjs';

declare module 'vitest' {
  export interface ProvidedContext {
    chromiumPath: string;
    serverEntry: string;
  }
}

export default async function setup(project: TestProject): Promise<void> {
  const browser = await findOrInstallChromium();
  if (!browser.ok) throw new Error(browser.why);
  project.provide('chromiumPath', browser.path);
  project.provide('serverEntry', await prepare({ client: true }));
}
