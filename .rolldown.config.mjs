import { readFileSync } from 'node:fs';

/**
 * A package in one file for each way into it, beside the files that the compiler made: loading them one by one takes longer
 * than most verbs work. The schema library comes along, without the languages that nobody asks for; all other packages stay
 * what they are. Run in a package's folder, from its build script.
 */
const { exports, dependencies = {} } = JSON.parse(readFileSync('package.json', 'utf8'));
const INLINED = ['zod', 'yaml'];
const outside = Object.keys(dependencies).filter((name) => !INLINED.includes(name));

export default {
  input: Object.fromEntries(
    Object.entries(exports).map(([way, { default: built }]) => [way === '.' ? 'index' : way.slice(2), built]),
  ),
  platform: 'node',
  external: (id) => outside.some((name) => id === name || id.startsWith(`${name}/`)),
  treeshake: { moduleSideEffects: (id) => !/node_modules\/(zod|yaml)\//.test(id) },
  output: { dir: 'dist/node', format: 'esm', sourcemap: true, chunkFileNames: '[name].js' },
};
