import type { Case } from '@tubgap/casefile';
import { BAD_INPUT, DONE, printRemarks, RESULTS_FOLDER, stop, TOO_FEW } from '@tubgap/casefile/command-line';
import {
  holdResults,
  RESULT_FILE,
  type ResultsHold,
  resultText,
  SAMPLE_FILE,
  sampleText,
} from '@tubgap/results';
import { assessCase, caseSetup, type Decision, type Perform } from '@tubgap/simulation';
import { caseCopy, type GivenOptions, repeatCommand } from './case-copy.ts';
import { type Checkpoint, openCheckpoint, runKey } from './checkpoint.ts';
import { MOST_DRAWS, pickTime, tooManyDraws } from './draw-count.ts';
import { folderGuide } from './folder-guide.ts';
import { judgeExisting } from './judge/judge-existing.ts';
import { MADE_BY, readCase } from './options.ts';
import { type Bench, defaultWorkers, openBench } from './pool.ts';
import { progressBar } from './progress.ts';
import { decidedResult, resultOf } from './result.ts';
import type { PickTeller } from './written.ts';

/** What a pick may be given. */
interface PickOptions extends GivenOptions {
  results?: string | undefined;
  workers?: number | undefined;
}

/** Opens the finished parts of a run, and tells of those of others that are there. */
function openParts(results: string, source: Case): Checkpoint {
  const checkpoint = openCheckpoint(results, source.name, runKey(source, MADE_BY));
  for (const { place, count, otherBuild } of checkpoint.others) {
    if (otherBuild !== undefined && count > 0) {
      printRemarks([
        `${count} finished parts of a run that was cut are of another build (${otherBuild}; this is ${MADE_BY}) and are not taken: everything is worked out anew.`,
      ]);
    }
    printRemarks([
      `Finished parts of another run of this case stay for it; remove them when it is not to go on: ${place}`,
    ]);
  }
  return checkpoint;
}

/**
 * Works tasks out at a bench, each kept as it comes; what is there is taken.
 * @param of  tells the tasks of another case from those of the run's own
 */
const keeping =
  (checkpoint: Checkpoint) =>
  (bench: Bench, of = ''): Perform =>
  (tasks, done) => {
    let finished = 0;
    return Promise.all(
      tasks.map(async (task) => {
        const kept = checkpoint.read(task, of);
        const result = kept ?? (await bench.work(task));
        if (kept === undefined) checkpoint.keep(task, result, of);
        finished++;
        done(finished / tasks.length);
        return result;
      }),
    );
  };

/**
 * Simulates the runs and seasons of a case and writes its results folder.
 * @param teller  how it is told; the results are held meanwhile
 * @returns exit code
 * @throws Stop, ResultsError, RangeError
 */
export async function runPick(file: string, options: PickOptions, teller: PickTeller): Promise<number> {
  const { set = [], results = RESULTS_FOLDER, workers = defaultWorkers() } = options;
  const { source, text, named } = readCase(file, set);
  const { simulation } = source;
  if (options.draws !== undefined) simulation.draws = options.draws;
  if (options.cars !== undefined) simulation.cars = options.cars;
  if (options.seed !== undefined) simulation.seed = options.seed;
  const tooMany = tooManyDraws(source, simulation.draws, MOST_DRAWS, workers);
  if (tooMany !== undefined) stop(`${tooMany}\nNothing was run.`, BAD_INPUT);
  const time = pickTime(source, workers);
  if (time !== undefined) printRemarks([time]);
  const bar = progressBar();
  let isTold = false;
  let hold: ResultsHold | undefined;
  try {
    const asked = repeatCommand(options);
    hold = holdResults(results, source.name, {
      kind: 'pick',
      asked,
      stopped: () =>
        isTold
          ? 'Stopped: the decision stands, its papers were not made. Finished parts are kept, and the same command goes on from there.'
          : 'Stopped: finished parts are kept. The same command goes on from there.',
    });
    printRemarks(hold.remarks);
    const checkpoint = openParts(results, source);
    // What is said of the tub that stands goes before what a new one would be.
    const bench = openBench(source, workers);
    const kept = keeping(checkpoint);
    const existing = await judgeExisting(source, bench, workers, kept, bar.tell);
    const decide = (decision: Decision) =>
      decidedResult(source, set, caseSetup(source), decision, existing, MADE_BY);
    const found = await assessCase(source, kept(bench), bar.tell, (decision) =>
      bar.aside(async () => {
        isTold = await teller.decided(decide(decision));
      }),
    );
    await bench.close();
    bar.stop();
    if (checkpoint.used() > 0) {
      printRemarks([`Went on from ${checkpoint.used()} finished parts of a run that was cut.`]);
    }
    const result = resultOf(decide(found), found);
    const files = {
      [RESULT_FILE]: resultText(result),
      [SAMPLE_FILE]: sampleText({ madeBy: MADE_BY, seed: result.seed, ...found.sample }),
      ...caseCopy(text, named),
      'READ-ME.txt': folderGuide(result, asked),
    };
    printRemarks(hold.write(files, asked));
    checkpoint.clear();
    const isKnown = result.picks.every(({ verdict }) => verdict !== 'not known');
    return (await teller.written(hold)) || (isKnown ? DONE : TOO_FEW);
  } finally {
    bar.stop();
    hold?.free();
  }
}
