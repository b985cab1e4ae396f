import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parseCase } from '@tubgap/casefile';
import { type CaseSetup, caseSetup } from '@tubgap/simulation';

const folder = fileURLToPath(new URL('../../datasets/demo/', import.meta.url));

/** The demo, ready for the kernel. */
export function demoSetup(): CaseSetup {
  const read = parseCase({
    file: 'case.yaml',
    text: readFileSync(`${folder}case.yaml`, 'utf8'),
    load: (name) => readFileSync(folder + name, 'utf8'),
  });
  if (!read.ok) throw new Error(read.issues.map((issue) => issue.message).join('\n'));
  return caseSetup(read.value);
}
