/**
 * The demo as its apps run it, one core: draws, evaluates and counts blocks of runs with the built packages.
 * node demo.mjs TUBS TYRES: in the first TUBS tubs, with TYRES tyres, the demo's own over and over. For each line of
 * standard input, a number of blocks: processor seconds of drawing, evaluating, counting; then runs in all.
 */
import { readFileSync } from 'node:fs';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { parseCase } from '@tubgap/casefile';
import { caseSetup } from '@tubgap/simulation';
import { BLOCK } from '@tubgap/statistics';
import { readBlock } from '../../packages/simulation/dist/outcome.js';
import { createBlockRoom, drawBlock, evaluateBlock } from '../../packages/simulation/dist/run-risk.js';
import { countBlock, emptyRunTallies } from '../../packages/simulation/dist/run-tallies.js';

const folder = fileURLToPath(new URL('../../datasets/demo/', import.meta.url));
const read = parseCase({
  file: 'case.yaml',
  text: readFileSync(`${folder}case.yaml`, 'utf8'),
  load: (name) => readFileSync(folder + name, 'utf8'),
});
const [tubs, tyres] = process.argv.slice(2).map(Number);
const whole = caseSetup(read.value);
const setup = {
  ...whole,
  tyres: Array.from({ length: tyres }, (_, i) => ({
    ...whole.tyres[i % whole.tyres.length],
    name: `tyre ${i}`,
  })),
  lowestHeights: whole.lowestHeights.slice(0, tubs),
  clearance: { ...whole.clearance, tubs: whole.clearance.tubs.slice(0, tubs) },
};

const room = createBlockRoom(setup);
const tallies = emptyRunTallies(setup);
const seen = new Uint8Array(BLOCK);
let block = 0;

const seconds = (work) => {
  const before = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1e6;
};

for await (const line of createInterface({ input: process.stdin })) {
  const spent = [0, 0, 0];
  for (let end = block + Number(line); block < end; block++) {
    spent[0] += seconds(() => drawBlock(setup, 1, block, BLOCK, room));
    spent[1] += seconds(() => evaluateBlock(setup, room, BLOCK));
    spent[2] += seconds(() => countBlock(readBlock(setup, room, BLOCK), seen, tallies));
  }
  process.stdout.write(`${spent.map((s) => s.toFixed(6)).join(' ')} ${tallies.all.events}\n`);
}
