import type { Setting } from '@tubgap/casefile';
import {
  BAD_INPUT,
  DONE,
  NOT_WITHIN,
  printJson,
  printRemarks,
  RESULTS_FOLDER,
  stop,
} from '@tubgap/casefile/command-line';
import { readCase } from '@tubgap/casefile/node';
import { mustStop, type Refusal, refusalWords } from '@tubgap/evidence';
import { holdResults } from '@tubgap/results';
import { printed, terminal } from '@tubgap/wording/terminal';
import { elsewhere } from './elsewhere.ts';
import { learnWords } from './learn-words.ts';
import type { LearnTask } from './learn-worker.ts';
import { MADE_BY } from './made-by.ts';
import { isNotWithin, type Outcome } from './outcome.ts';
import { outcomeFiles } from './outcome-files.ts';
import { folderReader, rejectedLines } from './rejected-words.ts';

/** What the verb is given. */
interface LearnAsked {
  measured: string;
  results?: string | undefined;
  draws: number;
  cars: number;
  seed?: number | undefined;
  set?: Setting[] | undefined;
  json?: true | undefined;
}

/** What came of a folder of measurements as JSON gives it, SI: all but the readings and the texts of its files. */
function learnedJson({ source, stops, standing, result }: Outcome) {
  const of = { case: source.name, stops, standing };
  if ('refusal' in result) return { ...of, refusal: result.refusal };
  const { source: _, measured: __, text: ___, keptBefore: ____, ...learning } = result.learning;
  const names = { tyre: source.tyres[learning.tyre]!.name, tub: source.tubs[learning.tub]!.name };
  return { ...of, ...learning, ...names };
}

/** A car that starts from its shop's book would lend its readings to the book and to itself: what is read once counts once. */
const IN_BOOK = (file: string): string =>
  `${file}: this case starts from its shop's book. Add the car and its measurements to the book (tubgap book add) and run tubgap book learn: it writes this car's learned file too. Or leave out book to learn by this car alone. Nothing was run.`;

/** Learns from a folder of measurements, writes and prints what it changes. @returns exit code @throws Stop, ResultsError, RangeError */
export async function runLearn(file: string, options: LearnAsked): Promise<number> {
  const { source } = readCase(file, options.set);
  if (source.book !== undefined) return stop(IN_BOOK(file), BAD_INPUT);
  const { draws, cars, seed = source.simulation.seed, results = RESULTS_FOLDER } = options;
  const hold = holdResults(results, `${source.name}-learned`, { kind: 'learned' });
  try {
    printRemarks(hold.remarks);
    const task: LearnTask = {
      source,
      folder: options.measured,
      options: { draws, cars, seed, madeBy: MADE_BY, place: hold.place },
    };
    // What is believed is sampled in one go, in which this thread would hear no stop.
    const outcome = await elsewhere<Outcome>(new URL('./learn-worker.js', import.meta.url), task);
    const files = await outcomeFiles(outcome, MADE_BY);
    if (files === undefined) {
      const { refusal } = outcome.result as { refusal: Refusal };
      const { why } = refusalWords(refusal, folderReader(outcome.measured));
      stop([...rejectedLines(outcome.measured), ...why].join('\n'), BAD_INPUT);
    }
    printRemarks(hold.write(files, 'tubgap learn'));
    if (options.json) printJson(learnedJson(outcome));
    else process.stdout.write(printed(learnWords(outcome, hold.place), terminal()));
    if (mustStop(outcome.stops) || isNotWithin(outcome.standing)) return NOT_WITHIN;
    return 'learning' in outcome.result ? DONE : BAD_INPUT;
  } catch (error) {
    const { code, path } = error as NodeJS.ErrnoException;
    if (code !== 'ENOENT' && code !== 'ENOTDIR') throw error;
    return stop(`${path}: there is no such folder of measurements.`, BAD_INPUT);
  } finally {
    hold.free();
  }
}
