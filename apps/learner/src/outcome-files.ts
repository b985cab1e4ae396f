import { mustStop } from '@tubgap/evidence';
import { type SheetTable, tableFiles } from '@tubgap/wording';
import { BEFORE_FILE } from './before-file.ts';
import { growthPictures, learnPage } from './learn-page.ts';
import {
  beforeAfterSheet,
  checkedSheet,
  contributionSheet,
  growthSheet,
  rejectedSheet,
  worthSheet,
} from './learn-tables.ts';
import { LEARNED_FILE, type Learning } from './learning.ts';
import type { Outcome } from './outcome.ts';
import { refusedPage } from './seen-page.ts';

const GUIDE = `What measurements of one car taught.

learned.yaml        copy it into the case's folder and write into the case: learned: learned.yaml
learn.html          the tub in the car, before and after, on one page
check-verdict.csv   every value of a filled check sheet against its limits, PASS or FAIL
before-after.csv    picks, risks, inputs and shares side by side
contributions.csv   what each measurement taught alone
measure-next.csv    what each further measurement is worth in height
growth.csv, .svg    growth by speed with its band, and the points of the run logs
rejected-rows.csv   rows and files that were left out, with the reason
columns.csv         what every column of these tables means, with its unit
before.json         how the case stood before: not simulated again when more is measured of the same case
written.json        what this program wrote here; what you change of it is kept

The same case, measurements and seed give the same files. Heights here come from few draws: they compare. Build by
tubgap pick with the learned file, never by this folder.

Tyre contact at speed can kill. The sanctioning body's rules, the tyre maker's limits and a qualified chassis builder
come first.
`;

const REFUSED_GUIDE = `What a folder of measurements says of the car. Nothing was learned from it: learn.html says why.

learn.html          what stops the car, the tub in it, and why nothing was learned
check-verdict.csv   every value of a filled check sheet against its limits, PASS or FAIL
rejected-rows.csv   rows and files that were left out, with the reason
columns.csv         what every column of these tables means, with its unit
written.json        what this program wrote here; what you change of it is kept

Tyre contact at speed can kill. The sanctioning body's rules, the tyre maker's limits and a qualified chassis builder
come first.
`;

function learnedFiles(outcome: Outcome, learning: Learning): Record<string, string> {
  const svgs = growthPictures(learning).map(({ tyre, svg }, i) => [
    i === 0 ? 'growth.svg' : `growth-${tyre}.svg`,
    `${svg}\n`,
  ]);
  return {
    [LEARNED_FILE]: learning.text,
    'learn.html': learnPage(outcome, learning),
    ...Object.fromEntries(svgs),
    [BEFORE_FILE]: learning.keptBefore,
    'READ-ME.txt': GUIDE,
  };
}

const learnedTables = (learning: Learning): Record<string, SheetTable> => ({
  'before-after.csv': beforeAfterSheet(learning),
  'contributions.csv': contributionSheet(learning),
  'measure-next.csv': worthSheet(learning),
  'growth.csv': growthSheet(learning),
});

/** The files of what came of a folder of measurements, by name; undefined where there is nothing to keep. */
export async function outcomeFiles(
  outcome: Outcome,
  madeBy: string,
): Promise<Record<string, string> | undefined> {
  const { result, stops, measured } = outcome;
  const isSeen = mustStop(stops) || stops.checks !== undefined;
  if (!('learning' in result) && !isSeen) return undefined;
  const tables = await tableFiles({
    ...('learning' in result ? learnedTables(result.learning) : {}),
    'check-verdict.csv': stops.checks && checkedSheet(stops.checks.values, outcome.source.units),
    'rejected-rows.csv': rejectedSheet({ measured }),
  });
  return {
    ...tables,
    ...('learning' in result
      ? learnedFiles(outcome, result.learning)
      : { 'learn.html': refusedPage(outcome, result.refusal, madeBy), 'READ-ME.txt': REFUSED_GUIDE }),
  };
}
