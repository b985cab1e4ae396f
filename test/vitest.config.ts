import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    globalSetup: ['browser/unpack.ts', 'papers/made.ts'],
    // Events are waited for as long as a busy machine takes: only the limit of the whole test, which a hang alone meets, ends it.
    expect: { poll: { timeout: 1_800_000 } },
    // They wait for those programs: on two cores, two files at once end sooner than one after the other.
    maxWorkers: Math.max(2, availableParallelism() - 1),
  },
});
