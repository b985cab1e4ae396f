import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { rareQuestion } from '../case.ts';
import { type Contestant, contestant } from '../contestant.ts';
import { pythonWith } from '../programs.ts';

/** Required height, m, that one run in about eight thousand of the case exceeds. */
export const rareHeight = 1.0135;

const own = fileURLToPath(new URL('../own/risk.mjs', import.meta.url));
const form = fileURLToPath(new URL('./form.py', import.meta.url));

/**
 * On the same question: the project's own estimator with the search for one smooth question, with the search of a pick,
 * and, where it is installed, OpenTURNS.
 */
export function riskPrograms(room: string): Contestant[] {
  const question = join(room, 'rare.json');
  writeFileSync(question, JSON.stringify(rareQuestion()));
  const python = pythonWith('numpy', 'openturns');
  const height = String(rareHeight);
  return [
    contestant('project', [process.execPath, own], height, question, 'design'),
    contestant('project, search of a pick', [process.execPath, own], height, question, 'pick'),
    ...(python ? [contestant('OpenTURNS', [python, '-B', form], height)] : []),
  ];
}
