import { defineConfig } from 'vitest/config';

export default defineConfig({
  // Most of these tests start programs, which takes its time on a busy machine.
  test: { globalSetup: ['browser/unpack.ts', 'papers/made.ts'], testTimeout: 60_000 },
});
