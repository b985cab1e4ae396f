import { rareHeight, riskPrograms } from '../peers/openturns/programs.ts';
import { bestAndMedian, ratioOf, rounds } from './rounds.ts';
import type { Row } from './table.ts';

const SEEDS = 20;
const PLAIN = 20_000;

/** Calls that a CoV of 10 % would take, from how the estimates of several seeds spread. */
function callsToTenPercent(answers: readonly number[][]): { calls: number; mean: number } {
  const estimates = answers.map(([probability]) => probability!);
  const mean = estimates.reduce((sum, p) => sum + p, 0) / estimates.length;
  const square = estimates.reduce((sum, p) => sum + (p - mean) ** 2, 0) / (estimates.length - 1);
  const calls = answers.reduce((sum, answer) => sum + answer[2]!, 0) / answers.length;
  return { calls: (calls * square) / (0.1 * mean) ** 2, mean };
}

/** The same rare question to the project and to OpenTURNS: time of plain calls, and calls to a CoV of 10 %. */
export async function riskRows(room: string): Promise<Row[]> {
  const plain = await rounds(riskPrograms(room), () => `plain ${PLAIN}`, 5, 1);
  const rare = await rounds(riskPrograms(room), (round) => String(round + 1), SEEDS, 0);
  const names = ['project', 'OpenTURNS over numpy'];
  if (plain.length < 2) console.warn('SKIPPED: OpenTURNS; to run it: apt-get install python3-openturns');
  const seconds = plain.map((answers) => answers.map((answer) => answer[3]!));
  const found = rare.map(callsToTenPercent);
  return [
    ...seconds.map(
      (values, i): Row => ({
        what: `plain draws and model: ${names[i]}`,
        unit: 'µs/call, 1 tub',
        ...bestAndMedian(values.map((value) => (1e6 * value) / PLAIN)),
        ratio: i === 0 ? undefined : ratioOf(values, seconds[0]!),
        against: i === 0 ? '' : 'project',
        note: `${PLAIN} calls`,
      }),
    ),
    ...found.map(
      ({ calls, mean }, i): Row => ({
        what: `P(H* > ${rareHeight} m) to 10 % CoV: ${names[i]}`,
        unit: 'model calls',
        best: calls,
        median: calls,
        ratio: i === 0 ? undefined : calls / found[0]!.calls,
        against: i === 0 ? '' : 'project',
        note: `mean ${mean.toExponential(2)} of ${SEEDS} seeds${i === 0 ? '' : ', FORM and importance sampling'}; calls from their spread`,
      }),
    ),
  ];
}
