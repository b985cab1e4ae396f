/**
 * Risk of a required height by the project's own estimator on the question of ../openturns/form.py, over the same
 * protocol: a seed a line, answered by probability, coefficient of variation, model calls, processor seconds, and method.
 * The estimator is the one behind every printed risk; the search is told the risk in question and how well it is to be
 * served, and draws are added until the coefficient of variation is 10 %.
 * node risk.mjs HEIGHT QUESTION, the question of `rareQuestion` in ../case.ts as JSON.
 */
import { readFileSync } from 'node:fs';
import { createInterface } from 'node:readline';
import {
  CAR_INPUTS,
  createMomentTable,
  createRunTable,
  evaluateRuns,
  fillAxleHeights,
  fillMomentTable,
} from '@tubgap/core';
import { BLOCK, fillFromNormals, fillStandardNormals, mixtureBlock, searchCentres } from '@tubgap/statistics';

/** Accepted risk that the search is to serve. */
const RISK = 1e-4;
/** Relative variance a draw that it serves to: a search for less takes more calls than it saves. */
const VARIANCE = 30;
const COV = 0.1;
const MOST_BLOCKS = 64;

const height = Number(process.argv[2]);
const { clearance, tyre, build, ends } = JSON.parse(readFileSync(process.argv[3], 'utf8'));
const laws = ends.map(([low, high]) =>
  low < high ? { kind: 'uniform', low, high } : { kind: 'constant', value: low },
);
const spread = laws.flatMap((law, i) => (law.kind === 'uniform' ? [i] : []));
const columns = laws.map((law) => new Float64Array(BLOCK).fill(law.kind === 'constant' ? law.value : 0));
const car = columns.slice(0, CAR_INPUTS.length);
const own = columns.slice(CAR_INPUTS.length);
const table = createRunTable(clearance, BLOCK);
const moments = createMomentTable(BLOCK);
const axleHeights = new Float64Array(BLOCK);
let calls = 0;

/** Required heights, m. */
const model = {
  directions: spread.map((column) => `${column}`),
  outputs: 1,
  evaluate: (normals, count, values) => {
    spread.forEach((column, k) => {
      fillFromNormals(laws[column], normals[k], columns[column], count);
    });
    fillMomentTable(clearance, car, count, moments);
    fillAxleHeights(build.tyre, build.pressure, car, own, count, axleHeights);
    evaluateRuns(clearance, tyre, car, own, moments, axleHeights, count, table);
    values[0].set(table.requiredHeight.subarray(0, count));
    calls += count;
  },
};
const values = [new Float64Array(BLOCK)];

/** Weighted draws about the centres that the search finds, block by block until 10 %. */
function weighted(seed) {
  const centres = searchCentres(model, {
    seed,
    risks: [RISK],
    variance: VARIANCE,
    pilotDraws: 512,
    roundDraws: 256,
  });
  const streams = model.directions.map((stream) => `tail/${stream}`);
  let sum = 0;
  let squares = 0;
  let draws = 0;
  let cov = Number.POSITIVE_INFINITY;
  for (let block = 0; block < MOST_BLOCKS && !(cov <= COV); block++) {
    const { normals, ratios } = mixtureBlock(streams, centres, () => true, seed, block);
    model.evaluate(normals, BLOCK, values);
    draws += BLOCK;
    for (let i = 0; i < BLOCK; i++) {
      if (!(values[0][i] > height)) continue;
      sum += 1 / ratios[i];
      squares += 1 / ratios[i] ** 2;
    }
    cov = sum > 0 ? Math.sqrt(squares / sum ** 2 - 1 / draws) : cov;
  }
  return { probability: sum / draws, cov, method: `${centres.points.length} centres` };
}

/** Share of touching ones among n plain draws. */
function plain(n) {
  let hits = 0;
  for (let block = 0; block * BLOCK < n; block++) {
    const count = Math.min(BLOCK, n - block * BLOCK);
    const normals = model.directions.map((stream) => {
      const numbers = new Float64Array(BLOCK);
      fillStandardNormals(1, stream, block, numbers, count);
      return numbers;
    });
    model.evaluate(normals, count, values);
    for (let i = 0; i < count; i++) if (values[0][i] > height) hits++;
  }
  return { probability: hits / n, cov: 0, method: 'plain' };
}

for await (const line of createInterface({ input: process.stdin })) {
  const before = process.cpuUsage();
  calls = 0;
  const found = line.startsWith('plain') ? plain(Number(line.split(' ')[1])) : weighted(Number(line));
  const { user, system } = process.cpuUsage(before);
  process.stdout.write(
    `${found.probability.toExponential(6)} ${found.cov.toFixed(4)} ${calls} ${((user + system) / 1e6).toFixed(6)} ${found.method}\n`,
  );
}
