import { readFileSync } from 'node:fs';
import { INCH } from '@tubgap/units';
import { defineConfig, type Plugin } from 'vite';
import { viteSingleFile } from 'vite-plugin-singlefile';
import { stillOf } from './dist/still.js';
import { packScript } from './packed-page.ts';
import { type Carried, withCarried, withDemo } from './src/carried/carried.ts';

const demo = new URL('../../datasets/demo/', import.meta.url);
const demoFile = (name: string): string => readFileSync(new URL(name, demo), 'utf8');

const demoCase: Carried = {
  file: 'case.yaml',
  files: Object.fromEntries(['case.yaml', 'tubs.csv', 'tyres.csv'].map((name) => [name, demoFile(name)])),
  // Near what the demo's results pick; another place would do as well.
  start: { tub: 'street-42', tyre: 'tall-slick', topHeight: 39.3125 * INCH },
};

/** Draws the page's first look, its questions, where a command puts a case, and lays the demo beside. */
const firstLook = (): Plugin => ({
  name: 'first-look',
  transformIndexHtml: (html) => withDemo(withCarried(html, null, stillOf(null)), demoCase),
});

/**
 * Parts of libraries that no page needs: the schema library's JSON Schema writer, for the page writes none, and the
 * types of YAML 1.1 and edits of its tokens, for cases are read whole and are YAML 1.2; and the writer of tables for
 * files, for it needs Node. Their functions do nothing here.
 */
const LEFT_OUT =
  /zod\/v4\/core\/(to-json-schema|json-schema-processors)\.js$|yaml\/browser\/dist\/parse\/cst-\w+\.js$|yaml\/browser\/dist\/schema\/yaml-1\.1\/(binary|bool|float|int|omap|pairs|set|timestamp)\.js$/;

const TABLE_WRITER = 'fast-csv';

const leaveOut = (): Plugin => ({
  name: 'leave-out',
  enforce: 'pre',
  resolveId: (id) => (id === TABLE_WRITER ? `\0${TABLE_WRITER}` : undefined),
  load(id) {
    if (id === `\0${TABLE_WRITER}`) return 'export const writeToString = () => ({});';
    if (!LEFT_OUT.test(id)) return undefined;
    const text = readFileSync(id, 'utf8');
    const declared = Array.from(
      text.matchAll(/^export (?:const|function|class) (\w+)/gm),
      ([, name]) => name!,
    );
    const listed = (/^export \{([^}]*)\}/m.exec(text)?.[1] ?? '')
      .split(',')
      .map((name) => name.split(' as ').at(-1)!.trim());
    const names = new Set([...declared, ...listed].filter(Boolean));
    return [...names].map((name) => `export const ${name} = () => ({});`).join('\n');
  },
});

export default defineConfig({
  plugins: [firstLook(), leaveOut(), viteSingleFile({ removeViteModuleLoader: true }), packScript()],
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  build: {
    target: 'es2023',
    emptyOutDir: false,
    modulePreload: false,
    rolldownOptions: {
      input: 'bench.html',
      // None of the libraries here does anything by being imported.
      treeshake: { moduleSideEffects: (id) => !id.includes('node_modules'), propertyReadSideEffects: false },
    },
  },
});
