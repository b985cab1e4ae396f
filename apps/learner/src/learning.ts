import { type Case, type LearnedFile, learnedText, withoutLearned } from '@tubgap/casefile';
import { carColumn } from '@tubgap/core';
import {
  type Belief,
  type Conflict,
  type Contributions,
  contributionsOf,
  type Evidence,
  type GrowthCurve,
  growthCurve,
  type LearnedSummary,
  type MarkReading,
  measurementWorths,
  mustStop,
  type Refusal,
  type Rub,
  rubRaise,
  runDepartures,
  sampleBelief,
  sharesAt,
  shortenBelief,
  type Worth,
  weighEvidence,
  wholeCars,
} from '@tubgap/evidence';
import { caseSetup } from '@tubgap/simulation';
import { drawsToSupport } from '@tubgap/statistics';
import { INCH } from '@tubgap/units';
import { type AssessedCase, assessElsewhere, type JudgedCase, pickedHeights } from './assessed-case.ts';
import { assessmentKey, beforeText, readBefore } from './before-file.ts';
import { type MeasuredFolder, readMeasuredFolder } from './measured-folder.ts';
import type { Outcome, StandingTub } from './outcome.ts';

/** Name under which a case knows the learned file unless the shop gives it another. */
export const LEARNED_FILE = 'learned.yaml';

/** What a case may be asked to use. */
export interface LearnOptions {
  draws: number;
  cars: number;
  seed: number;
  madeBy: string;
  /** Results folder that an earlier run may have left: what it keeps of just this case is not simulated again. */
  place: string;
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
  /** How the case stood before, for a later run. */
  keptBefore: string;
  /** At the pick before, and at the pick after, in the tub that all heights speak of; undefined without one. */
  shares: { before: Shares; after: Shares } | undefined;
}

/** A case with so many draws and cars, or as many as its accepted risks ask for. */
export function withEnough(
  source: Case,
  { draws, cars, seed }: Pick<LearnOptions, 'draws' | 'cars' | 'seed'>,
): Case {
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
interface Opened extends Evidence {
  measured: MeasuredFolder;
  before: Promise<JudgedCase>;
  /** Of the assessment before. */
  key: string;
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
  { source, setup, before }: Opened,
  rubs: readonly Conflict[],
  seed: number,
): Promise<Rub[]> {
  const { picks } = await before;
  const asked = (mark: MarkReading): number | undefined =>
    picks.find(({ tub }) => tub === mark.built.tub)?.height?.topHeight;
  return rubs
    .flatMap(({ mark }) => mark ?? [])
    .map((mark) => rubRaise(source, setup, mark, asked(mark), seed));
}

/** Learns from a folder of measurements what can be learned of a case's car and tyres, or says why nothing is. */
export async function learn(asked: Case, folder: string, options: LearnOptions): Promise<Outcome> {
  const { seed } = options;
  const source = withEnough(withoutLearned(asked), options);
  const setup = caseSetup(source);
  const measured = readMeasuredFolder(folder, source, setup);
  const evidence = weighEvidence(source, measured, setup);
  const assessed = { source, built: measured.built };
  const key = assessmentKey(assessed, options.madeBy);
  const kept = readBefore(options.place, key);
  const before = kept === undefined ? (await begun(assessElsewhere(assessed)))() : Promise.resolve(kept);
  const opened: Opened = { ...evidence, measured, before, key };
  const belief = sampleBelief(evidence, seed);
  if (!('refusal' in belief)) return learned(opened, belief, options);
  const { refusal } = belief;
  if (refusal.kind === 'impossible rub') opened.stops.rubs = await rubsOf(opened, refusal.conflicts, seed);
  return refused(opened, refusal);
}

/** By how much the quick height may miss the simulated one, m: a height that jumps to the ends of a tub's legs it misses by far. */
const QUICK_MISS = 0.5 * INCH;

/** Whether the quick estimate moves the height of the tub as the simulation does. */
const quickHolds = ({ all }: Contributions, was: number | undefined, is: number | undefined): boolean =>
  was !== undefined && is !== undefined && Math.abs(all.heightChange - (is - was)) <= QUICK_MISS;

/** Puts what is believed in short, and says what it changes. */
async function learned(opened: Opened, belief: Belief, { seed, madeBy }: LearnOptions): Promise<Outcome> {
  const { source, setup, measured, stops } = opened;
  const { believed, conflicts } = belief;
  const before = await opened.before;
  const { origins } = measured;
  const from = { origins, madeBy, file: LEARNED_FILE, seed };
  const { place, whole, heights, summary, file, updated } = shortenBelief(opened, belief, before, from);
  const { tub, tyre } = place;
  const heightsBefore = pickedHeights(before.picks);
  const assessingAfter = await begun(
    assessElsewhere({ source: updated, built: measured.built, heights: heightsBefore }),
  );
  const believedCars = wholeCars(whole, believed.space, believed.points, seed, 4000);
  const departures = runDepartures(heights, whole, believedCars, seed);
  const { accepted } = setup.tyres[tyre]!;
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
  const heightBefore = heightsBefore[tub];
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
    keptBefore: beforeText(opened.key, before),
    shares,
  };
  return { source, measured, stops, standing: standingOf(before, after), result: { learning } };
}
