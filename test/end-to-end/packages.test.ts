import { execFileSync, spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ROOT } from './command.ts';

/** Packages for other people's programs, installed from their tarballs into a folder that has nothing of this repository. */
const PACKAGES = ['units', 'core', 'statistics', 'casefile', 'simulation', 'drawing', 'kit'];
const here = mkdtempSync(join(tmpdir(), 'tubgap-packages-'));
const modules = join(here, 'node_modules', '@tubgap');
afterAll(() => rmSync(here, { recursive: true, force: true }));

/** The program in a package's README. */
function example(name: string): string {
  const readme = readFileSync(join(modules, name, 'README.md'), 'utf8');
  const programs = [...readme.matchAll(/^```js\n([\s\S]*?)^```/gm)].map(([, code]) => code!);
  expect(programs, name).toHaveLength(1);
  return programs[0]!;
}

const node = (...words: string[]) => spawnSync(process.execPath, words, { cwd: here, encoding: 'utf8' });

beforeAll(() => {
  const tarballs = PACKAGES.map((name) => {
    const words = [
      'pack',
      '--ignore-scripts',
      '--silent',
      '--pack-destination',
      here,
      '-w',
      `@tubgap/${name}`,
    ];
    return join(here, execFileSync('npm', words, { cwd: ROOT, encoding: 'utf8' }).trim());
  });
  writeFileSync(join(here, 'package.json'), '{ "name": "elsewhere", "private": true, "type": "module" }\n');
  execFileSync('npm', ['install', '--prefer-offline', '--no-audit', ...tarballs], {
    cwd: here,
    stdio: 'pipe',
  });
});

describe.each(PACKAGES)('@tubgap/%s, packed and installed elsewhere', (name) => {
  it('holds what was built, its types and its README, and no source', () => {
    const files = readdirSync(join(modules, name));
    expect(files).toEqual(expect.arrayContaining(['README.md', 'dist', 'package.json']));
    expect(files).not.toContain('src');
    expect(readFileSync(join(modules, name, 'dist', 'index.d.ts'), 'utf8')).toContain('export');
    expect(readFileSync(join(modules, name, 'README.md'), 'utf8').split('\n').length).toBeLessThanOrEqual(65);
  });

  it('runs the example of its README under Node, and bundled for a browser says the same', () => {
    const code = example(name);
    mkdirSync(join(here, name), { recursive: true });
    const own = join(here, `${name}.mjs`);
    writeFileSync(own, code);
    const plain = node(own);
    expect([plain.status, plain.stderr]).toEqual([0, '']);
    expect(plain.stdout.trim()).not.toBe('');

    const bundle = join(here, name, 'bundle.mjs');
    const rolldown = join(ROOT, 'node_modules', 'rolldown', 'bin', 'cli.mjs');
    const words = [own, '--file', bundle, '--platform', 'browser', '--log-level', 'silent'];
    const bundled = node(rolldown, ...words);
    expect([bundled.status, bundled.stderr]).toEqual([0, '']);
    const text = readFileSync(bundle, 'utf8');
    // A browser has none of Node's own modules, and nothing to fetch others from.
    expect(text.match(/^import .*|require\(["']node:.*|from ["'](?:node:|@).*/gm)).toBeNull();
    expect(node(bundle).stdout).toBe(plain.stdout);
  });
});
