import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { DEMO, ROOT, tubgap } from './command.ts';

/** Every line of the README's blocks of code that is a command of this program. */
const COMMANDS = Array.from(
  readFileSync(join(ROOT, 'README.md'), 'utf8').matchAll(/^```\n([\s\S]*?)^```$/gm),
  ([, block]) => block!.split('\n').filter((line) => line.startsWith('tubgap ')),
).flat();

/** Blanks part words, but for those within quotes. */
const wordsOf = (command: string): string[] =>
  Array.from(command.matchAll(/"([^"]*)"|(\S+)/g), ([, quoted, plain]) => quoted ?? plain!).slice(1);

let folder: string;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'tubgap-readme-'));
  cpSync(DEMO, join(folder, 'datasets/demo'), { recursive: true });
  cpSync(join(DEMO, '../demo-measurements'), join(folder, 'datasets/demo-measurements'), { recursive: true });
  const file = join(folder, 'datasets/demo/case.yaml');
  const few = readFileSync(file, 'utf8')
    .replace('tubs: all', 'tubs: [street-42]')
    .replace(/draws: .*/, 'draws: 8192')
    .replace(/cars: .*/, 'cars: 128')
    .replace(/runRisk: .*/, 'runRisk: 1 in 100');
  writeFileSync(file, few);
  cpSync(join(folder, 'datasets/demo'), folder, { recursive: true });
  writeFileSync(join(folder, 'mycar.yaml'), few.replace(/^name: .*/m, 'name: mycar'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it('has its commands', () => expect(COMMANDS.length).toBeGreaterThan(8));

it.each(COMMANDS)('%s', (command) => {
  const words = wordsOf(command);
  // No browser is opened where nobody looks.
  const done = tubgap(folder, ...words, ...(words[0] === 'show' ? ['--no-open'] : []));
  // With few runs not all is known (3), and a tub may not be within (4); the words are understood.
  expect([0, 3, 4], done.err).toContain(done.code);
  expect(done.out).not.toBe('');
});
