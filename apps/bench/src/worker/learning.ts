import { type Case, learnedCase, learnedText } from '@tubgap/casefile';
import {
  assessShort,
  checkSummary,
  conflictText,
  evidenceParts,
  findConflicts,
  insideReserve,
  isImpossibleRub,
  judgeChecks,
  learnedFile,
  openCarHeights,
  placeText,
  type Rejected,
  type ShortAssessment,
  settledBelief,
  spaceOf,
  summarise,
  touchPlace,
  touchText,
  wholeCarSpace,
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

/** What came of a lesson. */
export type Learnt =
  | {
      /** The learned file. */
      text: string;
      /** Of every tub that takes the tyres, before or after. */
      heights: TubHeights[];
      /** The tub to take, by name; undefined where none will do. */
      chosen: { before: string | undefined; after: string | undefined };
      /** Those that moved most first; empty when nothing moved that matters. */
      moved: Moved[];
      /** Readings left out, and readings that are strained but not refused. */
      remarks: string[];
    }
  | { refused: string[] };

/** A rub that no car of the case makes is the most important reading there is. */
const IMPOSSIBLE_RUB =
  'STOP: the tyre has touched where nothing in this case lets it. Do not run. Look for what the model does not know: a mount that gave, a tub or body that flexed, tyre shake, a landing, another tyre or another case. Save what was measured and run tubgap learn: it says by how much the top must go up by that mark alone.';

/** Runs and cars for the heights before and after: as many as the page counts. */
const MOST_RUNS = 100_000;
const MOST_CARS = 1000;

/** A reading by what stands on the page, not by the line of a file that nobody has saved yet. */
const asTyped = (reading: string): string =>
  reading
    .replace(/^marks\.csv:(\d+), /, (_, line: string) => `Mark ${Number(line) - 1}, `)
    .replace(/^check-sheet\.csv:\d+, /, 'Gap of ');

/** Where on the page something stands that was left out. */
function typedPlace(one: Rejected, { tables }: Lesson): string {
  const cells = (tables[one.file] ?? '').split('\n')[one.line - 1]?.split(',') ?? [];
  if (one.line > 1 && one.file === 'marks.csv') return `Mark ${one.line - 1}`;
  if (one.line > 1 && one.file === 'check-sheet.csv') return `Gap at ${cells[1]}° ${cells[0]}`;
  return placeText(one);
}

function assessed(source: Case): ShortAssessment {
  const { draws, cars, seed } = source.simulation;
  const simulation = { draws: Math.min(MOST_RUNS, draws), cars: Math.min(MOST_CARS, cars), seed };
  return assessShort({ ...source, simulation });
}

/** Index of the tub whose height decides, and of the tyre that limits it; the first of the case where there is no pick. */
function decidingPlace(source: Case, { picks, chosen = 0 }: ShortAssessment): { tub: number; tyre: number } {
  const limiting = picks[chosen]?.height?.limitingTyre ?? source.build.tyre;
  return {
    tub: chosen,
    tyre: Math.max(
      0,
      source.tyres.findIndex(({ name }) => name === limiting),
    ),
  };
}

/**
 * Learns from tables that were typed in, as `tubgap learn` does from a folder, or says why not.
 * @param tell  hears what is being done, in words
 */
export function learnFromTables(lesson: Lesson, tell: (doing: string) => void): Learnt {
  const { source } = lesson;
  const { seed } = source.simulation;
  const setup = caseSetup(source);
  const { readings, rejected, origins } = readLesson(lesson, setup);
  const touched = insideReserve(readings.marks, setup.clearance.reserve);
  const checked = judgeChecks(
    readings.checks,
    rejected,
    source.hardPoints.map(({ name }) => name),
  );
  const remarks = [
    ...(checked?.whole === 'fail' ? [`STOP: the car does not run. ${checkSummary(checked)}.`] : []),
    ...(touched.length === 0 ? [] : [`STOP: ${touchText(touched.map(touchPlace))}.`]),
    ...rejected.map((one) => `${typedPlace(one, lesson)} left out: ${one.reason}`),
  ];
  const parts = evidenceParts(source, setup, readings);
  if (parts.length === 0) return { refused: [...remarks, 'No measure that was typed in can be used.'] };
  if (spaceOf(setup, parts, seed).directions.length === 0) {
    return { refused: ['The case takes everything as exact that these measures speak of.'] };
  }
  tell('Looking for cars that agree with what was measured');
  const { believed, agreement } = settledBelief(setup, parts, seed);
  const conflicts = findConflicts(believed, seed);
  const lines = (refused: boolean): string[] =>
    conflicts
      .filter((one) => one.refused === refused)
      .map(conflictText)
      .map(({ reading, against }) => `${asTyped(reading)}: ${against}.`);
  if (conflicts.some(({ refused }) => refused)) {
    return {
      refused: [
        ...remarks,
        ...(conflicts.some(isImpossibleRub) ? [IMPOSSIBLE_RUB] : []),
        'These measures do not go together with the case or with each other:',
        ...lines(true),
        'Measure these again: unit, side, pressure, tyre, and where the tub stands. If a measure is right, the case is not.',
      ],
    };
  }
  if (!agreement.settled) {
    return {
      refused: [
        ...remarks,
        'These measures leave several different cars possible: add another gap, or learn from a folder with tubgap learn.',
      ],
    };
  }
  tell('Working out the lowest heights before');
  const before = assessed(source);
  const { tub, tyre } = decidingPlace(source, before);
  const whole = wholeCarSpace(setup, seed);
  const summary = summarise(believed, whole, openCarHeights(setup, tyre, tub), seed);
  const learned = learnedFile(source, believed, summary, agreement, origins, AT_THE_CAR, seed);
  const updated = learnedCase(source, learned, source.file);
  if ('problem' in updated) return { refused: [updated.problem.reason] };
  if (learned.inputs.length === 0) {
    return {
      refused: [
        ...remarks,
        'These measures agree with the case: they change nothing, so nothing was learned.',
      ],
    };
  }
  tell('Working out the lowest heights after');
  const after = assessed(updated);
  return {
    text: learnedText(learned),
    heights: before.picks.flatMap((was, t) => {
      const is = after.picks[t]!;
      if (was.verdict !== 'fits' && is.verdict !== 'fits') return [];
      const of = ({ verdict, height }: typeof was) => (verdict === 'fits' ? height?.topHeight : undefined);
      return [{ tub: was.tub, before: of(was), after: of(is) }];
    }),
    chosen: {
      before: before.chosen === undefined ? undefined : before.picks[before.chosen]!.tub,
      after: after.chosen === undefined ? undefined : after.picks[after.chosen]!.tub,
    },
    moved: movedInputs(source, updated, learned, setup, believed, whole, seed),
    remarks: [...remarks, ...lines(false)],
  };
}
