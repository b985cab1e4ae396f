import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { BLOCK } from '@tubgap/statistics';
import { createColumns, fillColumns } from '../../packages/simulation/src/draws.ts';
import { clearanceOf } from '../../packages/simulation/src/setup.ts';
import { ownAnswers } from '../peers/case.ts';
import { contestant } from '../peers/contestant.ts';
import { type Question, writeQuestion } from '../peers/draws-file.ts';
import { compiledPeer, numpyPeer } from '../peers/programs.ts';
import { demoSetup } from './demo-setup.ts';
import { bestAndMedian, ratioOf, rounds } from './rounds.ts';
import type { Row } from './table.ts';

const own = fileURLToPath(new URL('../peers/own/heights.mjs', import.meta.url));
const BLOCKS = 4;
const RUNS = BLOCKS * BLOCK;
const ROUNDS = 9;
const SEED = 1;

/** The demo's own draws of each of its tyres, without hard points. */
function demoQuestions(): { name: string; question: Question }[] {
  const setup = demoSetup();
  const build = setup.tyres[setup.buildIndex]!;
  const block = createColumns(setup.tyres);
  const whole = block.map(({ car, tyre }) => ({
    car: car.map(() => new Float64Array(RUNS)),
    tyre: tyre.map(() => new Float64Array(RUNS)),
  }));
  const counts = setup.tyres.map(() => BLOCK);
  for (let b = 0; b < BLOCKS; b++) {
    fillColumns(setup.tyres, SEED, '', b, counts, 'both', block);
    block.forEach((columns, i) => {
      columns.car.forEach((column, c) => {
        whole[i]!.car[c]!.set(column, b * BLOCK);
      });
      columns.tyre.forEach((column, c) => {
        whole[i]!.tyre[c]!.set(column, b * BLOCK);
      });
    });
  }
  return setup.tyres.map((tyre, i) => ({
    name: tyre.name,
    question: {
      clearance: { ...clearanceOf(setup, i), hardPoints: [] },
      tyre: tyre.setup,
      axle: setup.axleHeight ?? { pressure: setup.buildPressure, tyre: build.setup },
      runs: RUNS,
      carColumns: whole[i]!.car,
      tyreColumns: whole[i]!.tyre,
      buildColumns: whole[setup.buildIndex]!.tyre,
    },
  }));
}

/** Shares of the runs that need more than the floors of the sieve's rows. */
const ABOVE_FLOOR = [0.1, 0.02];

/** For each tub the height in m that this share of the question's runs needs more than, as the kernel's peer reads it. */
function floorList(question: Question, share: number): string {
  const { requiredHeight } = ownAnswers(question);
  const place = Math.floor((1 - share) * (RUNS - 1));
  return question.clearance.tubs
    .map((_, t) => requiredHeight.slice(t * RUNS, (t + 1) * RUNS).sort()[place]!)
    .join(',');
}

/**
 * The kernel alone on the demo's draws, beside the peers that are there. The peers answer every height, as the kernel
 * without floors does: it is the one that they are compared with. The sieve is written here only.
 */
export async function kernelRows(room: string): Promise<Row[]> {
  const c = compiledPeer(room);
  const numpy = numpyPeer();
  const rows: Row[] = [];
  for (const { name, question } of demoQuestions()) {
    const { setup, draws } = writeQuestion(question, join(room, name));
    const kernel = [process.execPath, own] as const;
    const programs = [
      {
        note: () => 'no hard points; every height',
        program: contestant('kernel', [...kernel], setup, draws),
      },
      ...ABOVE_FLOOR.map((share) => ({
        note: () => 'same bits above the floor; the peers have no such sieve',
        program: contestant(
          `kernel, floor at ${100 * share} % risk`,
          [...kernel],
          setup,
          draws,
          floorList(question, share),
        ),
      })),
      ...[...(c ? [{ peer: 'C -O3', run: c }] : []), ...(numpy ? [{ peer: 'numpy', run: numpy }] : [])].map(
        ({ peer, run }) => ({
          note: (difference: number) => `sum of heights differs by ${difference.toExponential(1)} m`,
          program: contestant(peer, run, setup, draws),
        }),
      ),
    ];
    const answers = await rounds(
      programs.map(({ program }) => program),
      () => 'go',
      ROUNDS,
      3,
    );
    const seconds = answers.map((rounds) => rounds.map((answer) => answer[0]!));
    const sums = answers.map((rounds) => rounds[0]![1]!);
    programs.forEach(({ program, note }, i) => {
      rows.push({
        what: `${name}: ${program.name}`,
        unit: `µs/run, ${question.clearance.tubs.length} tubs, 2 reserves`,
        ...bestAndMedian(seconds[i]!.map((value) => (1e6 * value) / RUNS)),
        ratio: i === 0 ? undefined : ratioOf(seconds[i]!, seconds[0]!),
        against: i === 0 ? '' : 'kernel',
        note: note(Math.abs(sums[i]! - sums[0]!)),
      });
    });
  }
  if (!c) console.warn('SKIPPED: the C peer; to run it: apt-get install gcc');
  if (!numpy) console.warn('SKIPPED: the numpy peer; to run it: apt-get install python3-numpy');
  return rows;
}
