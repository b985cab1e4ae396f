import { cpSync, mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { ROOT } from './command.ts';

/**
 * Another build of the program: a copy of the built packages and of the simulating app, in which one constant of the
 * model is another. Its version is the same.
 * @param folder  where it is to lie
 * @returns the file that it starts with
 */
export function otherBuild(folder: string): string {
  const built = (place: string): void => {
    for (const part of ['dist', 'package.json']) {
      cpSync(join(ROOT, place, part), join(folder, place, part), { recursive: true });
    }
  };
  const packages = readdirSync(join(ROOT, 'packages'));
  for (const place of [...packages.map((name) => `packages/${name}`), 'apps/montecarlo']) built(place);
  const modules = join(folder, 'node_modules');
  mkdirSync(join(modules, '@tubgap'), { recursive: true });
  for (const name of readdirSync(join(ROOT, 'node_modules'))) {
    if (name !== '@tubgap') symlinkSync(join(ROOT, 'node_modules', name), join(modules, name));
  }
  for (const name of packages) symlinkSync(join(folder, 'packages', name), join(modules, '@tubgap', name));
  const core = join(folder, 'packages/core/dist/core.js');
  const text = readFileSync(core, 'utf8');
  const changed = text.replace('STANDARD_GRAVITY = 9.80665', 'STANDARD_GRAVITY = 9.9');
  if (changed === text) throw new Error(`${core}: the constant that makes it another build is not there`);
  writeFileSync(core, changed);
  return join(folder, 'apps/montecarlo/dist/main.js');
}
