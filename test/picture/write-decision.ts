import { copyFileSync } from 'node:fs';
import { join } from 'node:path';
import { DEMO } from '../end-to-end/command.ts';

/**
 * Puts the picture of a decision beside the demo, for the README: `tsx test/picture/write-decision.ts FOLDER`, where
 * FOLDER is what `tubgap pick datasets/demo/case.yaml` has written.
 */
const [folder] = process.argv.slice(2);
if (folder === undefined) {
  console.error('Give the results folder of the demo, such as results/winged-door-car.');
  process.exit(2);
}
copyFileSync(join(folder, 'decision.svg'), join(DEMO, 'decision.svg'));
