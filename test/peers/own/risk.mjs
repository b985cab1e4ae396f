/**
 * Risk of a required height by the project's own methods on the question of ../openturns/subset.py, over the same
 * protocol: a seed a line, answered by probability, coefficient of variation, model calls, processor seconds, and method.
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
import { BLOCK, failureProbability, fillFromNormals, fillUniforms, normalQuantile } from '@tubgap/statistics';

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
const normals = new Float64Array(BLOCK);

/** Height less what the run needs, m: below 0 where it touches. */
function margin(u, n, out) {
  const d = spread.length;
  for (let at = 0; at < n; at += BLOCK) {
    const count = Math.min(BLOCK, n - at);
    spread.forEach((column, k) => {
      for (let i = 0; i < count; i++) normals[i] = u[(at + i) * d + k];
      fillFromNormals(laws[column], normals, columns[column], count);
    });
    fillMomentTable(clearance, car, count, moments);
    fillAxleHeights(build.tyre, build.pressure, car, own, count, axleHeights);
    evaluateRuns(clearance, tyre, car, own, moments, axleHeights, count, table);
    for (let i = 0; i < count; i++) out[at + i] = height - Math.min(10, table.requiredHeight[i]);
  }
}

/** Share of failing ones among n plain draws. */
function plain(n) {
  const d = spread.length;
  const u = new Float64Array(n * d);
  const uniforms = new Float64Array(BLOCK);
  for (let at = 0; at < u.length; at += BLOCK) {
    const count = Math.min(BLOCK, u.length - at);
    fillUniforms(1, 'plain', at / BLOCK, uniforms, count);
    for (let i = 0; i < count; i++) u[at + i] = normalQuantile(uniforms[i]);
  }
  const out = new Float64Array(n);
  margin(u, n, out);
  return { probability: out.filter((m) => m < 0).length / n, cov: 0, calls: n, method: 'plain' };
}

for await (const line of createInterface({ input: process.stdin })) {
  const before = process.cpuUsage();
  const found = line.startsWith('plain')
    ? plain(Number(line.split(' ')[1]))
    : failureProbability(margin, spread.length, { seed: Number(line) });
  const { user, system } = process.cpuUsage(before);
  process.stdout.write(
    `${found.probability.toExponential(6)} ${found.cov.toFixed(4)} ${found.calls} ${((user + system) / 1e6).toFixed(6)} ${found.method}\n`,
  );
}
