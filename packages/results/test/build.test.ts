import { appendFileSync, cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { buildDigest } from '../src/build.ts';

let parent: string;
let here: string;

const write = (...[place, text]: [place: string, text: string]): void => {
  const file = join(here, place);
  mkdirSync(join(file, '..'), { recursive: true });
  writeFileSync(file, text);
};

beforeEach(() => {
  parent = mkdtempSync(join(tmpdir(), 'tubgap-build-'));
  here = join(parent, 'one');
  write(
    'app/main.js',
    "import { b } from './b.js';\nimport { c } from '@tubgap/c';\nimport seed from 'seeds/alea.js';\n",
  );
  write('app/b.js', "new Pool({ file: new URL('./thread.js', import.meta.url) });\n");
  write('app/thread.js', "const d = await import('./d.js');\n");
  write('app/d.js', 'export const d = 1;\n');
  write('node_modules/@tubgap/c/package.json', '{ "exports": { ".": { "default": "./dist/c.js" } } }');
  write('node_modules/@tubgap/c/dist/c.js', "export * from './deep.js';\n");
  write('node_modules/@tubgap/c/dist/deep.js', 'export const prior = 0.036;\n');
  write('node_modules/seeds/package.json', '{ "version": "3.0.5" }');
});
afterEach(() => rmSync(parent, { recursive: true, force: true }));

const digest = (of = here): string => buildDigest(join(of, 'app', 'main.js'));

describe('the digest of a build', () => {
  it('is the same wherever it lies, and whatever an earlier build has left beside it', () => {
    const other = join(parent, 'two', 'further');
    cpSync(here, other, { recursive: true });
    const own = digest();
    expect(own).toMatch(/^[0-9a-f]{64}$/);
    expect(digest(other)).toBe(own);
    write('app/left-over.js', 'export const old = 1;\n');
    write('node_modules/@tubgap/c/dist/c.js.map', '{}');
    expect(digest()).toBe(own);
  });

  it.each([
    'app/main.js',
    'app/b.js',
    'app/thread.js',
    'app/d.js',
    'node_modules/@tubgap/c/dist/c.js',
    'node_modules/@tubgap/c/dist/deep.js',
  ])('is another when %s is', (file) => {
    const own = digest();
    appendFileSync(join(here, file), '// another\n');
    expect(digest()).not.toBe(own);
  });

  it('is another with another version of a package from outside', () => {
    const own = digest();
    write('node_modules/seeds/package.json', '{ "version": "3.0.6" }');
    expect(digest()).not.toBe(own);
  });
});
