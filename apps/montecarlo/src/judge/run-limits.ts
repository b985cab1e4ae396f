import { BAD_INPUT, stop } from '@tubgap/casefile/command-line';
import {
  findLimits,
  type JudgedTub,
  judgeTub,
  type Limit,
  type Limited,
  type Perform,
  type Progress,
  TAIL_BLOCKS,
} from '@tubgap/simulation';
import { limitLines, limitsHeading, subjectOf, verdictLines } from '@tubgap/wording';
import { openBench } from '../pool.ts';
import { progressBar } from '../progress.ts';
import { performBy } from '../tasks-by-bench.ts';
import { EXIT_CODES, openStanding, type StandingOptions } from './asked-case.ts';
import { printedLines } from './printed.ts';
import { SAY_WHICH, type StandingTub } from './standing-tub.ts';

/** The verdict on a tub, and how far each number may go for it. */
interface JudgedLimits {
  judged: JudgedTub;
  limits: Limit[];
}

/** Judges a tub and finds its limits with the same draws; undefined where no tub is asked about and none is picked. */
export async function limitsBy(
  { source, tub, topHeight }: StandingTub,
  perform: Perform,
  codes: readonly Limited[] | undefined,
  tell: Progress,
): Promise<JudgedLimits | undefined> {
  const judged = await judgeTub(source, { tub, topHeight }, perform, tell);
  if (judged === undefined) return undefined;
  const limits = await findLimits(
    source,
    { tub: judged.tub, tyre: judged.tyre, topHeight: judged.verdict.topHeight },
    { draws: judged.draws, weightedBlocks: TAIL_BLOCKS, centres: judged.centres },
    perform,
    codes,
    (done) => tell('looking closely', done),
  );
  return { judged, limits };
}

/** Finds the limits of the tub that stands in the car and prints them. @returns exit code @throws Stop, RangeError */
export async function runLimits(
  file: string,
  options: StandingOptions & { of?: Limited[] | undefined },
): Promise<number> {
  const { standing: asked, workers } = openStanding(file, options);
  const { source } = asked;
  const bar = progressBar();
  const bench = openBench(source, workers);
  try {
    const found = await limitsBy(asked, performBy(bench), options.of, bar.tell);
    if (found === undefined) {
      stop(
        `${file}: no tub was named, or no height, and the accepted risks leave none to set out. ${SAY_WHICH}`,
        BAD_INPUT,
      );
    }
    const { judged, limits } = found;
    const { verdict, least } = judged;
    bar.stop();
    const lines = verdictLines({ verdict, least }, subjectOf(source));
    process.stdout.write(
      options.json
        ? `${JSON.stringify({ verdict, least, limits }, undefined, 2)}\n`
        : printedLines(source, lines, [
            { label: 'LIMITS', text: limitsHeading(verdict.standing) },
            ...limitLines(limits),
          ]),
    );
    return EXIT_CODES[verdict.standing];
  } finally {
    bar.stop();
    await bench.close();
  }
}
