import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type Case, parseCase, type Setting } from '@tubgap/casefile';

const folder = fileURLToPath(new URL('../../../datasets/demo/', import.meta.url));

/** The demo case, as the apps read it, with fewer draws. @param set  values in place of the file's */
export function demoCase(draws: number, cars: number, set: readonly Setting[] = []): Case {
  const read = parseCase({
    file: 'case.yaml',
    text: readFileSync(`${folder}case.yaml`, 'utf8'),
    load: (name) => readFileSync(folder + name, 'utf8'),
    set,
  });
  if (!read.ok) throw new Error(read.issues.map((issue) => issue.message).join('\n'));
  return { ...read.value, simulation: { draws, cars, seed: 1 } };
}
