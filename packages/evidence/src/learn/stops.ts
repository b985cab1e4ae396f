import { type Case, numbersIn } from '@tubgap/casefile';
import { type CheckVerdict, judgeChecks } from '../check-verdict.ts';
import { type MarkReading, type Readings, type Rejected, type RunsReading, sameBuilt } from '../readings.ts';
import type { Rub } from '../rub.ts';
import { insideReserve } from '../touched.ts';

/** What is seen of the measured car before anything is learned, and may stop it. */
export interface Stops {
  /** Undefined without a check sheet. */
  checks: CheckVerdict | undefined;
  /** Marks inside the gap to be kept. */
  touched: MarkReading[];
  /** Runs that left a mark on the tub where it stands now. */
  marked: RunsReading[];
  /** Marks that the case calls impossible, each with the raise that it asks for by itself. */
  rubs: Rub[];
}

/** What was read of a car, and what was left out. */
export interface ReadMeasures {
  readings: Readings;
  rejected: Rejected[];
}

/** Marks that no change of the tub's place has come after: the last runs tell where it stands. */
const markedAsItStands = (runs: readonly RunsReading[]): RunsReading[] =>
  runs.filter(({ marked, built }) => marked && sameBuilt(built, runs.at(-1)!.built));

/** What stops the car by sheet and marks alone. */
export function findStops(source: Case, { readings, rejected }: ReadMeasures): Stops {
  const hardPoints = source.hardPoints.map(({ name }) => name);
  return {
    checks: judgeChecks(readings.checks, rejected, hardPoints),
    touched: source.tyres.flatMap((own) =>
      insideReserve(
        readings.marks.filter(({ tyre }) => tyre === own.name),
        numbersIn(source, own).reserve,
      ),
    ),
    marked: markedAsItStands(readings.runs),
    rubs: [],
  };
}

/** Whether the measured car must not run. */
export const mustStop = ({ checks, touched, marked, rubs }: Stops): boolean =>
  checks?.whole === 'fail' || touched.length > 0 || marked.length > 0 || rubs.length > 0;
