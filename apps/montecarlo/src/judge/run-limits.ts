import { BAD_INPUT, stop } from '@tubgap/casefile/command-line';
import { type Limited, standardTub } from '@tubgap/simulation';
import { limitLines, limitsHeading, standardLines, subjectOf, verdictLines } from '@tubgap/wording';
import { openBench } from '../pool.ts';
import { progressBar } from '../progress.ts';
import { performBy } from '../tasks-by-bench.ts';
import { EXIT_CODES, openStanding, type StandingOptions } from './asked-case.ts';
import { limitsBy } from './limits-by.ts';
import { printedLines } from './printed.ts';
import { SAY_WHICH } from './standing-tub.ts';

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
    const found = await limitsBy(asked, performBy(bench), () => options.of, bar.tell);
    if (found === undefined) {
      stop(
        `${file}: no tub was named, or no height, and the accepted risks leave none to set out. ${SAY_WHICH}`,
        BAD_INPUT,
      );
    }
    const { judged, limits } = found;
    const { verdict, least } = judged;
    const standard = standardTub(source, limits);
    bar.stop();
    const lines = verdictLines({ verdict, least }, subjectOf(source));
    process.stdout.write(
      options.json
        ? `${JSON.stringify({ verdict, least, limits, ...(standard && { standard: standard.name }) }, undefined, 2)}\n`
        : printedLines(source, lines, [
            { label: 'LIMITS', text: limitsHeading(verdict.standing) },
            ...limitLines(limits),
            ...standardLines(limits, standard),
          ]),
    );
    return EXIT_CODES[verdict.standing];
  } finally {
    bar.stop();
    await bench.close();
  }
}
