import { readFileSync } from 'node:fs';
import { defineConfig, type Plugin } from 'vite';
import { viteSingleFile } from 'vite-plugin-singlefile';
import { carriedText, withCarried } from './src/carried/carried.ts';

const demo = new URL('../../datasets/demo/', import.meta.url);
const demoFile = (name: string): string => readFileSync(new URL(name, demo), 'utf8');

/** Puts the demo case into the page, where a command puts another. */
const carryDemo = (): Plugin => ({
  name: 'carry-demo',
  transformIndexHtml: (html) =>
    withCarried(
      html,
      carriedText({
        file: 'case.yaml',
        files: {
          'case.yaml': demoFile('case.yaml'),
          'tubs.csv': demoFile('tubs.csv'),
          'tyres.csv': demoFile('tyres.csv'),
        },
      }),
    ),
});

export default defineConfig({
  plugins: [carryDemo(), viteSingleFile({ removeViteModuleLoader: true })],
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  // A module worker from a blob never answers on a page that was opened from a disk.
  worker: { format: 'iife' },
  build: {
    target: 'es2023',
    emptyOutDir: false,
    modulePreload: false,
    rolldownOptions: { input: 'bench.html' },
  },
});
