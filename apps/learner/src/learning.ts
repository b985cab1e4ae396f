import { type Case, type LearnedFile, learnedCase, learnedText, withoutLearned } from '@tubgap/casefile';
import { carColumn } from '@tubgap/core';
import {
  type Conflict,
  type Contributions,
  conflictText,
  contributionsOf,
  countLeftOut,
  evidenceParts,
  findConflicts,
  type GrowthCurve,
  growthCurve,
  type LearnedSummary,
  learnedFile,
  measurementWorths,
  openCarHeights,
  placeText,
  runDepartures,
  settledBelief,
  sharesAt,
  spaceOf,
  summarise,
  type Worth,
  wholeCarSpace,
  wholeCars,
} from '@tubgap/evidence';
import { caseSetup } from '@tubgap/simulation';
import { drawsToSupport } from '@tubgap/uncertainty';
import { type AssessedCase, assessElsewhere } from './assessed-case.ts';
import { type MeasuredFolder, readMeasuredFolder } from './measured-folder.ts';
import { touchWords } from './touch-words.ts';

/** Name under which a case knows the learned file unless the shop gives it another. */
export const LEARNED_FILE = 'learned.yaml';

/** What a case may be asked to use. */
export interface LearnOptions {
  draws: number;
  cars: number;
  seed: number;
  madeBy: string;
}

type Shares = ReturnType<typeof sharesAt>;

/** Everything that was learned, and what it changes. */
export interface Learning {
  source: Case;
  measured: MeasuredFolder;
  learned: LearnedFile;
  text: string;
  summary: LearnedSummary;
  /** Not refused, but strained. */
  conflicts: Conflict[];
  contributions: Contributions;
  worths: Worth[];
  growth: GrowthCurve[];
  /** Tyre and tub that all heights speak of. */
  tyre: number;
  tub: number;
  finishSpeed: number;
  /** Gap to be kept, m. */
  reserve: number;
  before: AssessedCase;
  after: AssessedCase;
  /** At the pick before, and at the pick after, in the tub that all heights speak of; undefined without one. */
  shares: { before: Shares; after: Shares } | undefined;
}

/** Why nothing was learned, in lines. */
export class LearningRefused extends Error {
  readonly lines: string[];
  constructor(lines: string[]) {
    super(lines.join('\n'));
    this.lines = lines;
  }
}

/** Rows left out that are shown where nothing is written. */
const MOST_SHOWN = 20;

const rejectedLines = ({ rejected }: MeasuredFolder): string[] => {
  const more = countLeftOut(rejected.slice(MOST_SHOWN));
  return [
    ...rejected.slice(0, MOST_SHOWN).map((one) => `${placeText(one)}  left out: ${one.reason}`),
    ...(more === 0 ? [] : [`and ${more} more left out`]),
  ];
};

/** Refuses to learn where readings are at odds, or where the chains do not agree. */
function refuseDoubtful(
  conflicts: readonly Conflict[],
  settled: boolean,
  measured: MeasuredFolder,
  reserve: number,
): void {
  const refused = conflicts.filter((conflict) => conflict.refused);
  if (refused.length === 0 && settled) return;
  const touch = touchWords(measured, reserve);
  const lines = [...rejectedLines(measured), ...(touch === undefined ? [] : [`STOP: ${touch}.`])];
  if (refused.length > 0) {
    throw new LearningRefused([
      ...lines,
      'Evidence and assumptions disagree; nothing was learned:',
      ...refused.map(conflictText).map(({ reading, against }) => `  ${reading}\n    ${against}`),
      'Read these again: unit, pressure, tyre, which tub. If a reading is right, the case is not: widen or move the law that it speaks against.',
    ]);
  }
  throw new LearningRefused([
    ...lines,
    'The sampler\u2019s chains do not agree: these measurements leave several different cars possible. Nothing was learned.',
    'Leave out the files that say least and try again, or add a measurement: a run log with a long roll-out says most.',
  ]);
}

/** The tub and the tyre that heights speak of: the pick of the case before, or the largest tub and the tyre of the logs. */
function placeOf(source: Case, { picks, chosen }: AssessedCase): { tub: number; tyre: number } {
  const limiting = chosen === undefined ? undefined : picks[chosen]?.height?.limitingTyre;
  const named = limiting ?? source.runLog?.tyre ?? source.build.tyre;
  const diameters = source.tubs.map(({ diameter }) => diameter);
  return {
    tub: chosen ?? diameters.indexOf(Math.max(...diameters)),
    tyre: Math.max(
      0,
      source.tyres.findIndex(({ name }) => name === named),
    ),
  };
}

/** A case with so many draws and cars, or as many as its accepted risks ask for. */
export function withEnough(source: Case, { draws, cars, seed }: Omit<LearnOptions, 'madeBy'>): Case {
  const { runRisk, seasonRisk } = source.accept;
  return {
    ...source,
    simulation: {
      draws: Math.max(draws, Math.min(400_000, drawsToSupport(runRisk))),
      cars: Math.max(cars, Math.min(4000, drawsToSupport(seasonRisk))),
      seed,
    },
  };
}

/**
 * Learns from a folder of measurements what can be learned of a case's car and tyres.
 * @throws LearningRefused when there is nothing to learn from, readings are at odds, or chains do not agree
 */
export async function learn(opened: Case, folder: string, options: LearnOptions): Promise<Learning> {
  const { seed, madeBy } = options;
  const source = withEnough(withoutLearned(opened), options);
  const setup = caseSetup(source);
  const measured = readMeasuredFolder(folder, source, setup);
  const parts = evidenceParts(source, setup, measured.readings);
  if (parts.length === 0) {
    throw new LearningRefused([
      ...rejectedLines(measured),
      `${folder}: there is nothing to learn from. Files are known by their names: rollout.csv, tyre-mass.csv, loaded-radius.csv, travel.csv, check-sheet.csv, marks.csv with as-built.csv, and run-log-….csv.`,
    ]);
  }
  if (spaceOf(setup, parts, seed).directions.length === 0) {
    throw new LearningRefused([
      'The case takes everything as exact that these measurements speak of: there is nothing to learn. Give these inputs laws first.',
    ]);
  }
  const assessing = assessElsewhere(source);
  // Its failure is told where it is waited for, not when it happens.
  assessing.catch(() => undefined);
  await new Promise((resolve) => setImmediate(resolve));
  const { believed, agreement } = settledBelief(setup, parts, seed);
  const conflicts = findConflicts(believed, seed);
  refuseDoubtful(conflicts, agreement.settled, measured, setup.clearance.reserve);
  const before = await assessing;
  const { tub, tyre } = placeOf(source, before);
  const whole = wholeCarSpace(setup, seed);
  const heights = openCarHeights(setup, tyre, tub);
  const summary = summarise(believed, whole, heights, seed);
  const learned = learnedFile(source, believed, summary, agreement, measured.origins, madeBy, seed);
  const updated = learnedCase(source, learned, LEARNED_FILE);
  if ('problem' in updated) throw new Error(updated.problem.reason);
  const assessingAfter = assessElsewhere(updated);
  assessingAfter.catch(() => undefined);
  await new Promise((resolve) => setImmediate(resolve));
  const believedCars = wholeCars(whole, believed.space, believed.points, seed, 4000);
  const departures = runDepartures(heights, whole, believedCars, seed);
  const accepted = source.accept.runRisk;
  const contributions = contributionsOf(setup, believed, whole, heights, departures, accepted, seed);
  const finishSpeed = setup.tyres[tyre]!.centralCar[carColumn('trapSpeed')]!;
  const worths = measurementWorths(
    setup,
    whole,
    believedCars,
    heights.middling(whole, believedCars),
    departures,
    accepted,
    tyre,
    finishSpeed,
    seed,
  );
  const { logs } = measured.readings;
  const spoken = setup.tyres.flatMap(({ name }, i) =>
    i === tyre || logs.some((log) => log.tyre === name) ? [i] : [],
  );
  const growth = spoken.map((i) => {
    const own = logs.filter((log) => log.tyre === setup.tyres[i]!.name);
    const trap = setup.tyres[i]!.centralCar[carColumn('trapSpeed')]!;
    return growthCurve(setup, believed, whole, i, own, 1.08 * trap, seed);
  });
  const after = await assessingAfter;
  const heightBefore = before.picks[tub]?.height?.topHeight;
  const heightAfter = after.picks[tub]?.height?.topHeight ?? heightBefore;
  const shares =
    heightBefore === undefined || heightAfter === undefined
      ? undefined
      : {
          before: sharesAt(source, setup, tyre, tub, heightBefore),
          after: sharesAt(updated, caseSetup(updated), tyre, tub, heightAfter),
        };
  return {
    source,
    measured,
    learned,
    text: learnedText(learned),
    summary,
    conflicts,
    contributions,
    worths,
    growth,
    tyre,
    tub,
    finishSpeed,
    reserve: setup.clearance.reserve,
    before,
    after,
    shares,
  };
}
