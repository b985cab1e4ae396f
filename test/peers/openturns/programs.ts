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

/** The project's own estimator and, where it is installed, OpenTURNS, on the same question. */
export function riskPrograms(room: string): Contestant[] {
  const question = join(room, 'rare.json');
  writeFileSync(question, JSON.stringify(rareQuestion()));
  const python = pythonWith('numpy', 'openturns');
  const height = String(rareHeight);
  return [
    contestant('project', [process.execPath, own], height, question),
    ...(python ? [contestant('OpenTURNS', [python, '-B', form], height)] : []),
  ];
}
