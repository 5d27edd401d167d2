/** The pages that stand alone, and where their built files lie. */
import { join } from 'node:path';
import { PACKAGE_ROOT } from './package-root.ts';

export const PAGES = ['viewer', 'interlock'] as const;
export type PageName = (typeof PAGES)[number];

export const pageFile = (name: PageName): string =>
  join(PACKAGE_ROOT, '.build', 'standalone', `${name}.html`);
