import { BAD_INPUT, stop } from '@tubgap/casefile/command-line';
import { findLargestTyre, limitsBy, sampleOf, standardTub } from '@tubgap/simulation';
import {
  largestTyreLines,
  limitLines,
  limitsHeading,
  standardLines,
  subjectOf,
  verdictBlocks,
} from '@tubgap/wording';
import { openBench } from '../pool.ts';
import { progressBar } from '../progress.ts';
import { performBy } from '../tasks-by-bench.ts';
import { EXIT_CODES, openStanding, type StandingOptions } from './asked-case.ts';
import type { Asked } from './limited-option.ts';
import { printedVerdict } from './printed.ts';
import { SAY_WHICH } from './standing-tub.ts';

/** Why no tyre of the catalogue is told. */
const AXLE_FIRST =
  'not looked for: say in the case where the axle centre stands above the track (build.axleHeight), else the tub would go with the tyre';

/** Finds the limits of the tub that stands in the car and prints them. @returns exit code @throws Stop, RangeError */
export async function runLimits(
  file: string,
  options: StandingOptions & { of?: Asked[] | undefined },
): Promise<number> {
  const { standing: asked, workers, standIns } = openStanding(file, options);
  const { source } = asked;
  const numbers = options.of?.filter((code) => code !== 'tyre');
  const bar = progressBar();
  const bench = openBench(source, workers);
  try {
    const found = await limitsBy(asked, performBy(bench), () => numbers, bar.tell);
    if (found === undefined) {
      stop(
        `${file}: no tub was named, or no height, and the accepted risks leave none to set out. ${SAY_WHICH}`,
        BAD_INPUT,
      );
    }
    const { judged, limits } = found;
    const { verdict, least } = judged;
    const standard = standardTub(source, limits);
    // Where the axle was not measured the place of the tub would go with the tyre.
    const isPlaced = source.build.axleHeight !== undefined;
    const isTyreAsked = options.of?.includes('tyre') ?? isPlaced;
    const own = source.tyres[judged.tyre]!.name;
    const place = { tub: judged.tub, tyre: judged.tyre, topHeight: verdict.topHeight };
    const tyre =
      isTyreAsked && isPlaced
        ? await findLargestTyre(
            asked.source,
            place,
            sampleOf(asked.source, judged),
            performBy(bench),
            standIns(own),
          )
        : undefined;
    const tyreLines = tyre
      ? largestTyreLines(tyre, source.units)
      : isTyreAsked
        ? [{ label: 'Tyre', text: AXLE_FIRST }]
        : [];
    bar.stop();
    const lines = [...limitLines(limits), ...standardLines(limits, standard, source.units), ...tyreLines];
    // The first is the one to read out: how far it may go, or what it would have to be.
    const [first] = lines;
    const third = first && { label: 'LIMIT', text: first.text };
    process.stdout.write(
      options.json
        ? `${JSON.stringify({ verdict, least, limits, ...(standard && { standard: standard.name }), ...(tyre && { tyre }) }, undefined, 2)}\n`
        : printedVerdict(source, verdictBlocks({ verdict, least }, subjectOf(source), third), [
            { label: 'LIMITS', text: limitsHeading(verdict.standing) },
            ...lines,
          ]),
    );
    return EXIT_CODES[verdict.standing];
  } finally {
    bar.stop();
    await bench.close();
  }
}
