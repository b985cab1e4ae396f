/**
 * The pick of the demo with everything that is looked at afterwards, one core. For each line of standard input: processor
 * seconds until the decision stands, and of the whole.
 */
import { readFileSync } from 'node:fs';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { parseCase } from '@tubgap/casefile';
import { assessCase, performHere } from '@tubgap/simulation';

const folder = fileURLToPath(new URL('../../datasets/demo/', import.meta.url));
const { value: source } = parseCase({
  file: 'case.yaml',
  text: readFileSync(`${folder}case.yaml`, 'utf8'),
  load: (name) => readFileSync(folder + name, 'utf8'),
});

for await (const _ of createInterface({ input: process.stdin })) {
  const before = process.cpuUsage();
  const spent = () => {
    const { user, system } = process.cpuUsage(before);
    return (user + system) / 1e6;
  };
  let decided;
  await assessCase(source, performHere(source), (stage) => {
    if (stage === 'looking closely') decided ??= spent();
  });
  process.stdout.write(`${decided.toFixed(3)} ${spent().toFixed(3)}\n`);
}
