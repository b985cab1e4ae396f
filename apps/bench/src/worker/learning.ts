import { type Case, learnedText } from '@tubgap/casefile';
import {
  assessShort,
  BUILT_FILE,
  type Conflict,
  type Refusal,
  type Rejected,
  readAsBuilt,
  type ShortAssessment,
  type Stops,
  sampleBelief,
  shortenBelief,
  weighEvidence,
} from '@tubgap/evidence';
import { caseSetup } from '@tubgap/simulation';
import { AT_THE_CAR } from '../carried/lesson-apart.ts';
import { type Lesson, readLesson } from './lesson.ts';
import { type Moved, movedInputs } from './moved-inputs.ts';

/** Lowest top height of a tub within what is accepted, with what was assumed and with what was learned; m. */
export interface TubHeights {
  tub: string;
  /** Undefined where there is none. */
  before: number | undefined;
  after: number | undefined;
}

/** What was learned. */
export interface Taught {
  /** The learned file. */
  text: string;
  /** Of every tub that takes the tyres, before or after. */
  heights: TubHeights[];
  /** The tub to take, by name; undefined where none will do. */
  chosen: { before: string | undefined; after: string | undefined };
  /** Those that moved most first; empty when nothing moved that matters. */
  moved: Moved[];
  /** Readings that are strained but not refused. */
  conflicts: Conflict[];
}

/** What came of a lesson. */
export interface Learnt {
  /** What stops the car, whatever was learned. */
  stops: Stops;
  /** Readings left out. */
  rejected: Rejected[];
  result: { taught: Taught } | { refusal: Refusal };
}

/** Runs and cars for the heights before and after: as many as the page counts. */
const MOST_RUNS = 100_000;
const MOST_CARS = 1000;

/** @param asked  heights that will be asked about, m; those not known are left out */
function assessed(source: Case, asked: readonly (number | undefined)[]): ShortAssessment {
  const { draws, cars, seed } = source.simulation;
  const simulation = { draws: Math.min(MOST_RUNS, draws), cars: Math.min(MOST_CARS, cars), seed };
  return assessShort(
    { ...source, simulation },
    asked.filter((height) => height !== undefined),
  );
}

/** The height of the tub in the car, m; undefined where it was not typed in. */
function builtHeight({ source, tables }: Lesson): number | undefined {
  const text = tables[BUILT_FILE];
  const tubs = source.tubs.map(({ name }) => name);
  return text === undefined ? undefined : readAsBuilt(text, tubs).built?.topHeight;
}

/**
 * Learns from tables that were typed in, as `tubgap learn` does from a folder, or says why not.
 * @param tell  hears what is being done, in words
 * @throws Error when the case cannot take what was learned of it
 */
export function learnFromTables(lesson: Lesson, tell: (doing: string) => void): Learnt {
  const { source } = lesson;
  const { seed } = source.simulation;
  const setup = caseSetup(source);
  const read = readLesson(lesson, setup);
  const evidence = weighEvidence(source, read, setup);
  const came = (result: Learnt['result']): Learnt => ({
    stops: evidence.stops,
    rejected: read.rejected,
    result,
  });
  tell('Looking for cars that agree with what was measured');
  const belief = sampleBelief(evidence, seed);
  if ('refusal' in belief) return came(belief);
  tell('Working out the lowest heights before');
  const built = builtHeight(lesson);
  const before = assessed(source, [built]);
  const { file, updated, whole } = shortenBelief(evidence, belief, before, {
    origins: read.origins,
    madeBy: AT_THE_CAR,
    file: source.file,
    seed,
  });
  if (file.inputs.length === 0) return came({ refusal: { kind: 'nothing moved' } });
  tell('Working out the lowest heights after');
  const after = assessed(updated, [built, ...before.picks.map(({ height }) => height?.topHeight)]);
  const chosenOf = ({ chosen, picks }: ShortAssessment): string | undefined =>
    chosen === undefined ? undefined : picks[chosen]!.tub;
  return came({
    taught: {
      text: learnedText(file),
      heights: before.picks.flatMap((was, t) => {
        const is = after.picks[t]!;
        if (was.verdict !== 'fits' && is.verdict !== 'fits') return [];
        const of = ({ verdict, height }: typeof was) => (verdict === 'fits' ? height?.topHeight : undefined);
        return [{ tub: was.tub, before: of(was), after: of(is) }];
      }),
      chosen: { before: chosenOf(before), after: chosenOf(after) },
      moved: movedInputs(source, updated, file, setup, belief.believed, whole, seed),
      conflicts: belief.conflicts,
    },
  });
}
