import type { CaseUnits } from '@tubgap/casefile';
import { printJson } from '@tubgap/casefile/command-line';
import { type DecidedResult, isStudy, type Result, readResults, readStudy } from '@tubgap/results';
import type { Block, SheetTable } from '@tubgap/wording';
import { printed, terminal } from '@tubgap/wording/terminal';
import { decisionRest, decisionRows, decisionText } from './decision.ts';
import { toldIn } from './figures-of.ts';
import { hardPointTable } from './hard-points/hard-tables.ts';
import { studyFiles, studyWords } from './study/study-report.ts';
import { changesTable, driversTable, measureTable, pickTable, riskTable, sharesTable } from './tables.ts';

const print = (blocks: readonly Block[]): void => void process.stdout.write(printed(blocks, terminal()));

const tablesOf = (result: Result): Record<string, SheetTable> => ({
  'risk.csv': riskTable(result),
  'pick.csv': pickTable(result),
  'shares.csv': sharesTable(result),
  'drivers.csv': driversTable(result),
  'hard-points.csv': hardPointTable(result),
  'changes.csv': changesTable(result),
  'measure-next.csv': measureTable(result),
});

/** The picks of a result as JSON gives them. */
const picksOf = ({ case: source, chosen, picks, tubs, bestPlaces }: Result) => ({
  case: source,
  chosen: chosen === null ? null : picks[chosen]!.tub,
  picks: picks.map((pick, t) => ({
    ...pick,
    bestPlace: bestPlaces[t] ?? null,
    ...(tubs[t]!.listed && { listed: tubs[t]!.listed }),
  })),
});

/** Prints the decision of a pick before the rest of it is worked out. */
export const printDecision = (decision: DecidedResult): void => print(decisionRows(decision));

/** Makes the tables and papers of results: name → text or bytes. */
type Papers = () => Promise<Record<string, string | Uint8Array>>;

/**
 * Prints what was found, of a pick or of a study, before anything is made of it.
 * @param told  whether the decision of the pick was told, see `printDecision`; units in place of the case's own
 * @returns makes the tables and papers
 * @throws ResultsError when there is nothing to read; nothing was printed then
 */
export function printResults(
  place: string,
  json: boolean,
  { isDecided = false, units }: { isDecided?: boolean; units?: CaseUnits | undefined } = {},
): Papers {
  if (isStudy(place)) {
    const study = toldIn(readStudy(place), units);
    if (json) printJson(study);
    else print(studyWords(study));
    return () => studyFiles(study);
  }
  const result = toldIn(readResults(place), units);
  if (json) printJson(picksOf(result));
  else print(isDecided ? decisionRest(result) : decisionText(result));
  return async () => {
    // Loaded here alone: its writers of PDF and DXF would hold up the decision.
    const { paperFiles } = await import('./papers.ts');
    return paperFiles(place, result, tablesOf(result));
  };
}
