import { defineConfig } from 'vitest/config';

export default defineConfig({ test: { globalSetup: ['browser/unpack.ts'] } });
