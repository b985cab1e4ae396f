import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    globalSetup: ['browser/unpack.ts', 'papers/made.ts'],
    // Most of these tests start programs, which takes its time on a busy machine.
    testTimeout: 60_000,
    // They wait for those programs: on two cores, two files at once end sooner than one after the other.
    maxWorkers: Math.max(2, availableParallelism() - 1),
  },
});
