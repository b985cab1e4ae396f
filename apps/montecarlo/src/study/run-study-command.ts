import type { Setting } from '@tubgap/casefile';
import { BAD_INPUT, DONE, printRemarks, RESULTS_FOLDER, stop, TOO_FEW } from '@tubgap/casefile/command-line';
import { holdResults, type ResultsHold, STUDY_FILE, type Study, studyText } from '@tubgap/results';
import { caseCopy } from '../case-copy.ts';
import { MOST_STUDY_DRAWS, tooManyDraws } from '../draw-count.ts';
import { coresText, durationText } from '../duration.ts';
import { type ReadCase, readCase } from '../options.ts';
import { defaultWorkers } from '../pool.ts';
import { progressBar } from '../progress.ts';
import type { OnWritten } from '../written.ts';
import type { Effort } from './compare-setups.ts';
import { StudyFault } from './fault.ts';
import { repeatStudy, studyGuide } from './study-guide.ts';

/** What every study may be given. */
export interface StudyOptions {
  results?: string | undefined;
  /** Of the results in that folder. */
  name?: string | undefined;
  draws?: number | undefined;
  /** Whether seasons are run as well. */
  seasons?: true | undefined;
  seed?: number | undefined;
  workers?: number | undefined;
}

/** What a study of a case leaves. */
export interface StudyDone {
  found: Study;
  /** Further files of its folder. */
  files?: Record<string, string>;
  /** What was asked for beside the case, as words of a command line that is given in the folder. */
  words: readonly string[];
}

type Work = (read: ReadCase, effort: Effort) => Promise<StudyDone>;

/** Name of a study's results: as asked, else the case's with the verb behind it. */
export const resultsName = ({ name }: StudyOptions, ofCase: string, verb: string): string =>
  name ?? `${ofCase}-${verb}`;

/** Lines of faults that are shown at most: the rest is mostly the same again. */
const MOST_LINES = 4;

const faultText = ({ lines }: StudyFault): string =>
  [
    ...lines.slice(0, MOST_LINES),
    ...(lines.length > MOST_LINES ? [`and ${lines.length - MOST_LINES} more of this kind`] : []),
    'Nothing was run.',
  ].join('\n');

/**
 * Runs a study of a case and writes its folder.
 * @param told  what is done with its results
 * @returns exit code
 * @throws Stop, ResultsError, RangeError
 */
export async function runStudyCommand(
  verb: 'sweep' | 'compare' | 'place' | 'optimise',
  file: string,
  options: StudyOptions,
  set: readonly Setting[],
  work: Work,
  onWritten: OnWritten,
): Promise<number> {
  const bar = progressBar();
  let hold: ResultsHold | undefined;
  try {
    const read = readCase(file, set);
    const { source, text, named } = read;
    if (options.seed !== undefined) source.simulation.seed = options.seed;
    const workers = options.workers ?? defaultWorkers();
    const tooMany = tooManyDraws(source, options.draws ?? 0, MOST_STUDY_DRAWS, workers);
    if (tooMany !== undefined) throw new StudyFault([tooMany]);
    hold = holdResults(options.results ?? RESULTS_FOLDER, resultsName(options, source.name, verb), {
      kind: verb,
    });
    printRemarks(hold.remarks);
    const {
      found,
      files = {},
      words,
    } = await work(read, {
      draws: options.draws,
      workers,
      seasons: options.seasons === true,
      tell: (done) => bar.tell('simulating', done),
      expect: (seconds) => {
        if (seconds >= 3) process.stderr.write(`About ${durationText(seconds)} on ${coresText(workers)}.\n`);
      },
    });
    bar.stop();
    const asked = [verb, ...words];
    const written = {
      [STUDY_FILE]: studyText(found),
      ...caseCopy(text, named),
      'READ-ME.txt': studyGuide(found, asked),
      ...files,
    };
    printRemarks(hold.write(written, repeatStudy(found, asked)));
    return (await onWritten(hold)) || codeOf(found);
  } catch (error) {
    bar.stop();
    return failStudy(error);
  } finally {
    hold?.free();
  }
}

/** Throws what went wrong in a study again, faults of what was asked for cut to a few lines. */
export function failStudy(error: unknown): never {
  if (error instanceof StudyFault) stop(faultText(error), BAD_INPUT);
  throw error;
}

/** Exit code of a study that was done. */
export const codeOf = (found: Study): number => (isTooFew(found) ? TOO_FEW : DONE);

/** Whether no tub has a height that the runs support, although there is one to be found. */
function isTooFew(found: Study): boolean {
  if (found.kind === 'classes')
    return (
      found.picks.every(({ topHeight }) => topHeight === null) &&
      found.picks.some(({ verdict }) => verdict === 'not known')
    );
  if (found.kind === 'optimum') return found.best.verdict === 'not known';
  const cells =
    found.kind === 'sweep'
      ? found.points[0]!.figures.at(-1)!
      : found.kind === 'setups'
        ? found.setups[0]!.figures.at(-1)!
        : found.places.flatMap(({ best }) => best?.cells.at(-1) ?? []);
  return (
    cells.every(({ topHeight }) => topHeight === null) &&
    cells.some(({ heightAtRisk }) => heightAtRisk !== null)
  );
}
