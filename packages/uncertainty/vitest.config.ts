import { defineConfig } from 'vitest/config';

// Coverage over hundreds of seeds takes seconds; on a busy machine several times as long.
export default defineConfig({ test: { testTimeout: 120_000 } });
