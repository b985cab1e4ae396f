import { type Case, type LearnedFile, learnedCase, learnedText, withoutLearned } from '@tubgap/casefile';
import { carColumn } from '@tubgap/core';
import {
  type Agreement,
  type Believed,
  type Conflict,
  type Contributions,
  contributionsOf,
  evidenceParts,
  findConflicts,
  type GrowthCurve,
  growthCurve,
  impossibleRubs,
  isImpossibleRub,
  type LearnedSummary,
  learnedFile,
  type MarkReading,
  measurementWorths,
  openCarHeights,
  type Part,
  type Rub,
  rubRaise,
  runDepartures,
  settledBelief,
  sharesAt,
  spaceOf,
  summarise,
  type Worth,
  wholeCarSpace,
  wholeCars,
} from '@tubgap/evidence';
import { type CaseSetup, caseSetup } from '@tubgap/simulation';
import { drawsToSupport } from '@tubgap/statistics';
import { INCH } from '@tubgap/units';
import { type AssessedCase, assessElsewhere, type JudgedCase } from './assessed-case.ts';
import { type MeasuredFolder, readMeasuredFolder } from './measured-folder.ts';
import { findStops, mustStop, type Outcome, type Refusal, type StandingTub, type Stops } from './outcome.ts';

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
  /** Whether the quick heights of contributions and worths follow the simulated ones; where not, they are not told. */
  quickHolds: boolean;
  growth: GrowthCurve[];
  /** Tyre and tub that all heights speak of. */
  tyre: number;
  tub: number;
  finishSpeed: number;
  before: AssessedCase;
  after: AssessedCase;
  /** At the pick before, and at the pick after, in the tub that all heights speak of; undefined without one. */
  shares: { before: Shares; after: Shares } | undefined;
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

/** What a folder says of a case before anything is sampled, and how the case itself stands. */
interface Opened {
  source: Case;
  setup: CaseSetup;
  measured: MeasuredFolder;
  stops: Stops;
  parts: Part[];
  before: Promise<JudgedCase>;
}

/** An assessment that goes on while other work is done; its failure is told where it is waited for. */
async function begun(assessing: Promise<JudgedCase>): Promise<() => Promise<JudgedCase>> {
  assessing.catch(() => undefined);
  await new Promise((resolve) => setImmediate(resolve));
  return () => assessing;
}

const standingOf = (before: JudgedCase, after?: JudgedCase): StandingTub | undefined =>
  before.standing && { before: before.standing, after: after?.standing };

/** What is said where nothing was learned; with what the case itself says of the tub in the car. */
async function refused({ source, measured, stops, before }: Opened, refusal: Refusal): Promise<Outcome> {
  const isSeen = mustStop(stops) || stops.checks !== undefined;
  const standing = isSeen ? standingOf(await before) : undefined;
  return { source, measured, stops, standing, result: { refusal } };
}

/** Rubs that the case cannot explain, each with the raise that it asks for by itself. */
async function rubsOf(
  { source, setup, before }: Pick<Opened, 'source' | 'setup' | 'before'>,
  conflicts: readonly Conflict[],
  seed: number,
): Promise<Rub[]> {
  const marks = conflicts.filter(isImpossibleRub).flatMap(({ mark }) => mark ?? []);
  if (marks.length === 0) return [];
  const { picks } = await before;
  const asked = (mark: MarkReading): number | undefined =>
    picks.find(({ tub }) => tub === mark.built.tub)?.height?.topHeight;
  return marks.map((mark) => rubRaise(source, setup, mark, asked(mark), seed));
}

/** Learns from a folder of measurements what can be learned of a case's car and tyres, or says why nothing is. */
export async function learn(asked: Case, folder: string, options: LearnOptions): Promise<Outcome> {
  const { seed } = options;
  const source = withEnough(withoutLearned(asked), options);
  const setup = caseSetup(source);
  const measured = readMeasuredFolder(folder, source, setup);
  const stops = findStops(source, measured, setup.clearance.reserve);
  const parts = evidenceParts(source, setup, measured.readings);
  const before = (await begun(assessElsewhere(source, measured.built)))();
  const opened: Opened = { source, setup, measured, stops, parts, before };
  if (parts.length === 0) return refused(opened, { kind: 'nothing measured', folder });
  const space = spaceOf(setup, parts, seed);
  stops.rubs = await rubsOf(opened, impossibleRubs(space, parts, seed), seed);
  if (stops.rubs.length > 0) return refused(opened, { kind: 'impossible rub' });
  if (space.directions.length === 0) return refused(opened, { kind: 'nothing uncertain' });
  const { believed, agreement } = settledBelief(setup, parts, seed);
  const conflicts = findConflicts(believed, seed);
  stops.rubs = await rubsOf(opened, conflicts, seed);
  if (stops.rubs.length > 0) return refused(opened, { kind: 'impossible rub' });
  const odd = conflicts.filter((conflict) => conflict.refused);
  if (odd.length > 0) return refused(opened, { kind: 'at odds', conflicts: odd });
  if (!agreement.settled) return refused(opened, { kind: 'chains apart' });
  return learned(opened, believed, agreement, conflicts, options);
}

/** By how much the quick height may miss the simulated one, m: a height that jumps to the ends of a tub's legs it misses by far. */
const QUICK_MISS = 0.5 * INCH;

/** Whether the quick estimate moves the height of the tub as the simulation does. */
const quickHolds = ({ all }: Contributions, was: number | undefined, is: number | undefined): boolean =>
  was !== undefined && is !== undefined && Math.abs(all.heightChange - (is - was)) <= QUICK_MISS;

/** Puts what is believed in short, and says what it changes. */
async function learned(
  { source, setup, measured, stops, before: assessing }: Opened,
  believed: Believed,
  agreement: Agreement,
  conflicts: Conflict[],
  { seed, madeBy }: LearnOptions,
): Promise<Outcome> {
  const before = await assessing;
  const { tub, tyre } = placeOf(source, before);
  const whole = wholeCarSpace(setup, seed);
  const heights = openCarHeights(setup, tyre, tub);
  const summary = summarise(believed, whole, heights, seed);
  const file = learnedFile(source, believed, summary, agreement, measured.origins, madeBy, seed);
  const updated = learnedCase(source, file, LEARNED_FILE);
  if ('problem' in updated) throw new Error(updated.problem.reason);
  const assessingAfter = await begun(assessElsewhere(updated, measured.built));
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
  const after = await assessingAfter();
  const heightBefore = before.picks[tub]?.height?.topHeight;
  const heightAfter = after.picks[tub]?.height?.topHeight ?? heightBefore;
  const shares =
    heightBefore === undefined || heightAfter === undefined
      ? undefined
      : {
          before: sharesAt(source, setup, tyre, tub, heightBefore),
          after: sharesAt(updated, caseSetup(updated), tyre, tub, heightAfter),
        };
  const learning: Learning = {
    source,
    measured,
    learned: file,
    text: learnedText(file),
    summary,
    conflicts,
    contributions,
    worths,
    quickHolds: quickHolds(contributions, heightBefore, after.picks[tub]?.height?.topHeight),
    growth,
    tyre,
    tub,
    finishSpeed,
    before,
    after,
    shares,
  };
  return { source, measured, stops, standing: standingOf(before, after), result: { learning } };
}
