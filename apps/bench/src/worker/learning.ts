import { type Case, learnedCase, learnedText } from '@tubgap/casefile';
import {
  assessShort,
  BUILT_FILE,
  conflictText,
  countLeftOut,
  evidenceParts,
  findConflicts,
  HAND_TABLES,
  learnedFile,
  noReadings,
  type Origin,
  openCarHeights,
  placeText,
  type Readings,
  type Rejected,
  readAsBuilt,
  readHandTable,
  removeImplausible,
  settledBelief,
  spaceOf,
  summarise,
  wholeCarSpace,
} from '@tubgap/evidence';
import { type CaseSetup, caseSetup } from '@tubgap/simulation';

/** What to learn from: a case as it is before anything was learned, and tables that were typed in. */
export interface Lesson {
  source: Case;
  /** Index of the tub in the car, whose heights are told. */
  tub: number;
  tyre: number;
  /** Texts by file name. */
  tables: Readonly<Record<string, string>>;
  /** Name that the learned file will have. */
  file: string;
}

/** An input that came out otherwise than it was assumed. */
interface Moved {
  label: string;
  before: string;
  after: string;
}

/** What came of a lesson. */
export type Learnt =
  | {
      text: string;
      /** Lowest top heights for the accepted risks in the tub, m, or why there is none. */
      before: number | string;
      after: number | string;
      /** Those that moved most first. */
      moved: Moved[];
      /** Readings left out, and readings that are strained but not refused. */
      remarks: string[];
    }
  | { refused: string[] };

/** Runs and cars for the heights before and after: as many as the page counts. */
const MOST_RUNS = 100_000;
const MOST_CARS = 1000;

/** Said before all else when a tyre has been where the gap to be kept should be. @param reserve  m */
function touchLines({ marks }: Readings, reserve: number): string[] {
  const touched = marks.filter((mark) => mark.touched && mark.thickness <= reserve + 1e-9);
  if (touched.length === 0) return [];
  const places = touched.map(({ tyre, angle }) => `${tyre} at ${Math.round((angle * 180) / Math.PI)}°`);
  return [
    `STOP: the tyre has been inside the gap to be kept (${places.join(', ')}). Do not run until the cause is found and the gaps are measured again.`,
  ];
}

/** A reading by what stands on the page, not by the line of a file that nobody has saved yet. */
const asTyped = (reading: string): string =>
  reading
    .replace(/^marks\.csv:(\d+), /, (_, line: string) => `Mark ${Number(line) - 1}, `)
    .replace(/^check-sheet\.csv:\d+, /, 'Gap of ');

const leftOutLine = (one: Rejected): string => `${placeText(one)} left out: ${one.reason}`;

/** Readings of the typed tables, and where they come from. */
function readTables({ source, tables }: Lesson, setup: CaseSetup) {
  const readings = noReadings();
  const rejected: Rejected[] = [];
  const read = readAsBuilt(
    tables[BUILT_FILE] ?? '',
    source.tubs.map(({ name }) => name),
  );
  rejected.push(...read.rejected);
  const context = { tyres: source.tyres.map(({ name }) => name), built: read.built };
  for (const table of HAND_TABLES) {
    const text = tables[table.file];
    if (text !== undefined) rejected.push(...readHandTable(table, text, context, readings));
  }
  rejected.push(...removeImplausible(setup, readings));
  const rows = Object.values(readings).flat() as { file: string }[];
  const origins = Object.keys(tables).map(
    (file): Origin => ({
      file,
      kind: 'typed in at the car',
      sha256: 'typed in',
      rows: file === BUILT_FILE ? 1 : rows.filter((row) => row.file === file).length,
      leftOut: countLeftOut(rejected.filter((row) => row.file === file)),
      dates: [],
    }),
  );
  return { readings, rejected, origins };
}

/** Lowest height of one tub for the accepted risks, m, or why there is none. */
function lowestHeight(source: Case, tub: number): number | string {
  const { draws, cars, seed } = source.simulation;
  const { picks } = assessShort({
    ...source,
    tubs: [source.tubs[tub]!],
    simulation: { draws: Math.min(MOST_RUNS, draws), cars: Math.min(MOST_CARS, cars), seed },
  });
  const { height, reason } = picks[0]!;
  return height?.topHeight ?? reason;
}

/**
 * Learns from tables that were typed in, as `tubgap learn` does from a folder, or says why not.
 * @param tell  hears what is being done, in words
 */
export function learnFromTables(lesson: Lesson, tell: (doing: string) => void): Learnt {
  const { source, tub, tyre, file } = lesson;
  const { seed } = source.simulation;
  const setup = caseSetup(source);
  const { readings, rejected, origins } = readTables(lesson, setup);
  const remarks = [...touchLines(readings, setup.clearance.reserve), ...rejected.map(leftOutLine)];
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
  const whole = wholeCarSpace(setup, seed);
  const summary = summarise(believed, whole, openCarHeights(setup, tyre, tub), seed);
  const learned = learnedFile(source, believed, summary, agreement, origins, 'tubgap, at the car', seed);
  const updated = learnedCase(source, learned, file);
  if ('problem' in updated) return { refused: [updated.problem.reason] };
  if (learned.inputs.length === 0) {
    return {
      refused: [
        ...remarks,
        'These measures agree with the case: they change nothing, so nothing was learned.',
      ],
    };
  }
  tell('Working out the lowest height before');
  const before = lowestHeight(source, tub);
  tell('Working out the lowest height after');
  const after = lowestHeight(updated, tub);
  const moved = [...learned.inputs]
    .sort((a, b) => Math.abs(b.middle) - Math.abs(a.middle))
    .map(({ tyre: of, label, before: was, after: is }) => ({
      label: of === undefined ? label : `${of}, ${label}`,
      before: was,
      after: is,
    }));
  return { text: learnedText(learned), before, after, moved, remarks: [...remarks, ...lines(false)] };
}
