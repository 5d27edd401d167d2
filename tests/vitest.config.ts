/** The tests in five projects, by folder, so that each part of `npm test` can be run alone. */
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const root = fileURLToPath(new URL('..', import.meta.url));

const OWN = {
  explore: 'tests/explore',
  integration: 'tests/server',
  faults: 'tests/faults',
  journeys: 'tests/journeys',
};
const under = (folder: string): string => `${folder}/**/*.test.{ts,tsx}`;

const project = (name: keyof typeof OWN, more: object = {}) => ({
  test: { name, root, include: [under(OWN[name])], environment: 'node' as const, ...more },
});

export default defineConfig({
  test: {
    root,
    maxWorkers: 2,
    // What was found wrong must be in the message whole, not as "[ Array(3) ]".
    chaiConfig: { truncateThreshold: 2000 },
    projects: [
      {
        test: {
          name: 'unit',
          root,
          include: [under('tests')],
          exclude: Object.values(OWN).map(under),
          environment: 'node',
          // These share no state worth a process each: charts and schemas are loaded once a worker, not once a file.
          isolate: false,
          testTimeout: 60_000,
        },
      },
      project('explore', { testTimeout: 180_000 }),
      project('integration', { testTimeout: 30_000, hookTimeout: 60_000 }),
      project('faults', { testTimeout: 120_000, hookTimeout: 60_000 }),
      project('journeys', {
        testTimeout: 120_000,
        hookTimeout: 60_000,
        globalSetup: ['tests/journeys/support/setup.ts'],
      }),
    ],
  },
});
