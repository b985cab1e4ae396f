/**
 * The demo's rare touches on one core, with the built packages: node tail.mjs TYRES TUBS, the first of its tyres in
 * the tub of that place, or `all` in `all`. For each line of standard input, a seed: processor seconds of the search
 * for centres; of one block of weighted draws; blocks with which every tyre and tub knows one in a million to 10 %;
 * tyres and tubs that were judged.
 */
import { readFileSync } from 'node:fs';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { parseCase } from '@tubgap/casefile';
import { BLOCK } from '@tubgap/statistics';
import {
  addWeightedTallies,
  emptyWeightedTallies,
} from '../../packages/simulation/dist/importance/weighted-risk.js';
import { TAIL_BLOCKS } from '../../packages/simulation/dist/runner.js';
import { openWorkplace, performTask } from '../../packages/simulation/dist/tasks.js';

const RISK = 1e-6;
const folder = fileURLToPath(new URL('../../datasets/demo/', import.meta.url));
const { value } = parseCase({
  file: 'case.yaml',
  text: readFileSync(`${folder}case.yaml`, 'utf8'),
  load: (name) => readFileSync(folder + name, 'utf8'),
});
const [tyres, tub] = process.argv.slice(2);
const part = {
  ...value,
  tyres: tyres === 'all' ? value.tyres : value.tyres.slice(0, Number(tyres)),
  tubs: tub === 'all' ? value.tubs : [value.tubs[Number(tub)]],
};

const timed = (work) => {
  const before = process.cpuUsage();
  const result = work();
  const { user, system } = process.cpuUsage(before);
  return { result, seconds: (user + system) / 1e6 };
};

/** Blocks to 10 %, from the scatter of all; undefined where no height makes touches as rare as asked for. */
function blocksNeeded({ weight, square }) {
  const draws = TAIL_BLOCKS * BLOCK;
  let sum = 0;
  let squares = 0;
  for (let n = weight.length - 1; n > 0; n--) {
    sum += weight[n];
    squares += square[n];
    if (sum / draws < RISK) continue;
    if (sum / draws > 2 * RISK) return undefined;
    const variance = squares / sum ** 2 - 1 / draws;
    return (TAIL_BLOCKS * variance) / 0.1 ** 2;
  }
  return undefined;
}

for await (const line of createInterface({ input: process.stdin })) {
  const simulation = { ...part.simulation, seed: Number(line) };
  const place = openWorkplace({ ...part, simulation });
  const search = timed(() => performTask(place, { kind: 'centres' }).centres);
  const total = emptyWeightedTallies(place.setup);
  const weighted = timed(() => {
    for (let block = 0; block < TAIL_BLOCKS; block++) {
      const task = { kind: 'tail', firstBlock: block, endBlock: block + 1, centres: search.result };
      addWeightedTallies(total, performTask(place, task).tallies);
    }
  });
  const needed = total.tyres
    .flatMap((tally) => tally.tubs.map(({ steps }) => blocksNeeded(steps)))
    .filter((blocks) => blocks !== undefined);
  const answer = [search.seconds, weighted.seconds / TAIL_BLOCKS, Math.max(...needed), needed.length];
  process.stdout.write(`${answer.map((x) => x.toFixed(6)).join(' ')}\n`);
}
