import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

/** Files that ask for the demo's results, or for a browser: no others wait until those stand. */
const ON_RESULTS = ['papers/**/*.test.ts', 'browser/**/*.test.ts', 'end-to-end/{damaged,pick,show}.test.ts'];

export default defineConfig({
  test: {
    // Events are waited for as long as a busy machine takes: only the limit of the whole test, which a hang alone meets, ends it.
    testTimeout: 1_800_000,
    hookTimeout: 1_800_000,
    expect: { poll: { timeout: 1_800_000 } },
    // They wait for those programs: on two cores, two files at once end sooner than one after the other.
    maxWorkers: Math.max(2, availableParallelism() - 1),
    projects: [
      {
        extends: true,
        test: {
          name: 'on results',
          include: ON_RESULTS,
          globalSetup: ['browser/unpack.ts', 'papers/made.ts'],
        },
      },
      {
        extends: true,
        test: { name: 'alone', include: ['**/*.test.ts'], exclude: ['**/node_modules/**', ...ON_RESULTS] },
      },
    ],
  },
});
