import { execFileSync, spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { DEMO, ROOT, tubgap } from './command.ts';

const here = mkdtempSync(join(tmpdir(), 'tubgap-installed-'));
afterAll(() => rmSync(here, { recursive: true, force: true }));

/** The command as npm puts it into a prefix of its own, which has nothing of this repository. */
function installed(): string {
  const tarball = execFileSync(process.execPath, ['apps/cli/scripts/pack.mjs', here], {
    cwd: ROOT,
    encoding: 'utf8',
  }).trim();
  const prefix = join(here, 'prefix');
  const words = ['install', '--global', '--prefix', prefix, '--prefer-offline', tarball];
  execFileSync('npm', words, { cwd: here, stdio: 'pipe' });
  return join(prefix, 'bin', 'tubgap');
}

it('the packed program is a command in any folder, with its threads, page and papers, and works out the same', () => {
  const command = installed();
  const run = (cwd: string, ...words: string[]) => spawnSync(command, words, { cwd, encoding: 'utf8' });
  const elsewhere = join(here, 'elsewhere');
  mkdirSync(elsewhere);
  expect(run(elsewhere, '--version').stdout).toBe(tubgap(elsewhere, '--version').out);
  expect(run(elsewhere, '--version').stdout).toMatch(/^tubgap \d+\.\d+\.\d+\n$/);

  const few = ['--draws', '4096', '--cars', '16', '--workers', '2', '--results'];
  const done = run(elsewhere, 'pick', join(DEMO, 'case.yaml'), ...few, 'packed');
  expect(done.stderr).toBe('');
  expect([0, 3]).toContain(done.status);
  const own = tubgap(elsewhere, 'pick', join(DEMO, 'case.yaml'), ...few, 'own');
  expect(done.status).toBe(own.code);
  const folder = (results: string) => join(elsewhere, results, 'winged-door-car');
  expect(readdirSync(folder('packed')).sort()).toEqual(readdirSync(folder('own')).sort());
  for (const file of ['result.json', 'at-the-car.html', 'report.html']) {
    const text = (results: string) => readFileSync(join(folder(results), file), 'utf8');
    expect(text('packed') === text('own'), file).toBe(true);
  }
});
