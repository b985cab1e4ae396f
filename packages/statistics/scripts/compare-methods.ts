/**
 * Prints how many calls of the margin each method needs for a CoV of 10 % on the problems of known answer, by the
 * scatter of repeats about the exact value (not by what a method says of itself). Searches count in full; draws are
 * scaled by (scatter/10 %)². Run with tsx.
 */
import { cpus } from 'node:os';
import {
  countedMargin,
  failureProbability,
  failureRegions,
  importanceSampling,
  lineSampling,
  PROBLEMS,
  type Problem,
  subsetRun,
  subsetSimulation,
} from '../src/index.ts';

const REPEATS = 40;
const TARGET = 0.1;

interface Score {
  readonly calls: number;
  readonly scatter: number;
  readonly untrusted: number;
}

interface Outcome {
  readonly probability: number;
  readonly search: number;
  readonly draws: number;
  readonly trusted: boolean;
}

function score(truth: number, run: (seed: number) => Outcome | undefined): Score | undefined {
  let squares = 0;
  let search = 0;
  let draws = 0;
  let untrusted = 0;
  for (let seed = 0; seed < REPEATS; seed++) {
    const outcome = run(seed);
    if (outcome === undefined) return undefined;
    squares += (outcome.probability / truth - 1) ** 2 / REPEATS;
    search += outcome.search / REPEATS;
    draws += outcome.draws / REPEATS;
    if (!outcome.trusted) untrusted += 1;
  }
  const scatter = Math.sqrt(squares);
  return { calls: search + draws * (scatter / TARGET) ** 2, scatter, untrusted };
}

type Estimator = 'weighted' | 'lines';

function aboutCentres(problem: Problem, seed: number, estimator: Estimator): Outcome | undefined {
  const counted = countedMargin(problem.margin, problem.dimension);
  const run = subsetRun(counted, { seed });
  const found = failureRegions(counted, {
    failing: run.failing,
    failingCount: run.failingCount,
    probability: run.estimate.probability,
    seed,
  });
  if (found.mixture.centres.length === 0) return undefined;
  const search = counted.calls();
  const estimate =
    estimator === 'weighted'
      ? importanceSampling(counted, found, { seed, cov: TARGET, mostDraws: 20_000 })
      : lineSampling(counted, found, { seed, lines: 60 });
  return {
    probability: estimate.probability,
    search,
    draws: counted.calls() - search,
    trusted: estimate.trusted,
  };
}

const shown = (one: Score | undefined): string => {
  if (one === undefined) return 'none';
  const doubt = one.untrusted > REPEATS / 10 ? '?' : '';
  return `${Math.round(one.calls)}${doubt}`;
};

console.log(
  `${new Date().toISOString().slice(0, 10)}, Node ${process.version}, ${cpus()[0]?.model ?? 'unknown processor'}`,
);
console.log(`calls for a CoV of 10 %, ${REPEATS} repeats; ? = not trusted in more than a tenth of them`);
console.log('whole = failureProbability at its default: calls, measured scatter, untrusted\n');
const row = (cells: readonly string[]): string =>
  cells.map((cell, i) => (i === 0 ? cell.padEnd(36) : cell.padStart(i === 7 ? 26 : 11))).join('');
console.log(row(['problem', 'inputs', 'P', 'plain', 'subset', 'weighted', 'lines', 'whole']));
for (const problem of PROBLEMS) {
  const { margin, dimension, probability } = problem;
  if (probability > 0.02) continue;
  const plain = (1 - probability) / (probability * TARGET * TARGET);
  const subset = score(probability, (seed) => {
    const found = subsetSimulation(margin, dimension, { seed });
    return { probability: found.probability, search: 0, draws: found.calls, trusted: found.trusted };
  });
  const weighted = score(probability, (seed) => aboutCentres(problem, seed, 'weighted'));
  const lines = score(probability, (seed) => aboutCentres(problem, seed, 'lines'));
  const whole = score(probability, (seed) => {
    const found = failureProbability(margin, dimension, { seed });
    return { probability: found.probability, search: found.calls, draws: 0, trusted: found.trusted };
  });
  const wholeText =
    whole === undefined
      ? 'none'
      : `${Math.round(whole.calls)}, ${(100 * whole.scatter).toFixed(1)} %, ${whole.untrusted}`;
  console.log(
    row([
      problem.name,
      String(dimension),
      probability.toExponential(1),
      plain.toExponential(1),
      shown(subset),
      shown(weighted),
      shown(lines),
      wholeText,
    ]),
  );
}
