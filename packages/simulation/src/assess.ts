import type { Case } from '@tubgap/casefile';
import type { Caution } from './caution.ts';
import { caseCautions } from './cautions.ts';
import type { DecidingBound } from './deciding-bounds.ts';
import type { HardFigures } from './hard-points/hard-figures.ts';
import { gapHeights, stepAt, tableHeights } from './heights.ts';
import type { Centres } from './importance/mixture.ts';
import type { CarSpread } from './insight/car-spread.ts';
import { type Change, findChanges } from './insight/changes.ts';
import type { Drivers } from './insight/drivers.ts';
import { type NotchCost, notchCosts } from './insight/notches.ts';
import type { GapFigures } from './inspect-gaps.ts';
import type { Inspection } from './inspections.ts';
import { type KeptSample, keepSample } from './kept-sample.ts';
import type { OutlinePlace, Outlines } from './outlines.ts';
import { chosenTub, nearestTub, type Pick, passedOverTubs, pickHeights } from './pick.ts';
import { namedSteps } from './replay/named-runs.ts';
import { type ShownRun, shownRuns } from './replay/run-states.ts';
import type { Risk } from './risk.ts';
import type { RunTallies } from './run-tallies.ts';
import { TAIL_BLOCKS } from './runner.ts';
import { restCautions, type StandingPlace } from './sense-checks.ts';
import { type CaseSetup, caseSetup } from './setup.ts';
import type { ShareFigures } from './shares.ts';
import { type Perform, performHere, simulateUntilSettled } from './simulate.ts';
import { type BestPlaceSearch, findBestPlaces } from './study/best-place.ts';
import type { PerformStudy, StudySample } from './study/study-tasks.ts';
import type { Tally } from './tally.ts';
import {
  type Findings,
  findingRisks,
  hardPointTasks,
  insightTasks,
  type PickPlace,
  reportedFrom,
  type Task,
  type TaskResult,
  type Variants,
} from './tasks.ts';
import type { Tolerances } from './tolerances.ts';
import { type HeightRisks, heightRisks, tubVerdict } from './verdict.ts';

/** What follows from the tallies of a case alone. */
interface Counted {
  runs: RunTallies;
  seasons: Tally;
  /** Heights of the table of risk, a tub, m. */
  heights: number[][];
  /** Risk of a run at those heights: [tyre or, last, all tyres][tub][height]. */
  risks: Risk[][][];
  /** The same of real contact, reserve 0. */
  contactRisks: Risk[][][];
  picks: Pick[];
  /** Index of the tub to build. */
  chosen: number | undefined;
  /** Smaller tubs that would do but need more extra height than they save in diameter. */
  passedOver: number[];
  /** Where none can be built: the tub that fits the tyres and lacks least room on the car. */
  nearest: number | undefined;
  cautions: Caution[];
}

/** What a shop acts on, told before all else is looked at. */
export interface Decision extends Counted {
  /** [tyre or, last, all tyres][tub] at the pick; undefined for a tub without a height, or where nobody has looked yet. */
  pickGaps: (GapFigures | undefined)[][];
  /** Undefined when there is no tub to build. */
  tolerances: Tolerances | undefined;
  /** Risks of the tub to build at the height that is set out; undefined when there is none. */
  asSetOut: HeightRisks | undefined;
  /**
   * Where else along the car each tub may stand: looked at for the tub to build and for those that do not fit where they
   * stand, before the decision where there is none to build. Undefined where nobody has looked yet.
   */
  bestPlaces: (BestPlaceSearch | undefined)[];
}

/** What is looked at closely once the decision is known. */
interface Looked {
  /** [tyre or, last, all tyres][tub][height]; undefined where nobody looked, see `gapHeights`. */
  gaps: (GapFigures | undefined)[][][];
  /** What is known of every hard point: [point][tyre]. */
  hardPoints: HardFigures[][];
  /** [tub][tyre]; empty for a tub without a height. */
  shares: ShareFigures[][][];
  bounds: DecidingBound[];
  outlines: Outlines;
  /** [tyre], in the tub to build as it is set out; empty when there is none. */
  shownRuns: ShownRun[][];
  /** All that the risks follow from. */
  sample: KeptSample;
}

/** Of the pick, or of the nearest tub at its height; left out when there is neither. */
interface Insights {
  drivers?: Drivers;
  changes?: Change[];
  carSpread?: CarSpread;
  notches?: NotchCost[];
}

/** Everything that is found out about a case. */
export type Assessment = Decision & Looked & Insights;

/** Told as the work goes on: part done of a whole, 0 to 1. */
export type Progress = (stage: 'simulating' | 'looking closely', done: number) => void;

/**
 * Assesses a case: risk of a run and of a season in every tub at every height, gaps, picks and shares. The same case
 * and seed give the same answer to the last bit, however the tasks are shared out.
 * @param decided  told of the decision as soon as it is settled, while the rest is looked at
 * @throws ModelRangeError when a draw leaves what the model knows; RangeError when a tyre's deflection fits no sidewall
 */
export async function assessCase(
  source: Case,
  perform: Perform = performHere(source),
  progress: Progress = () => {},
  decided: (decision: Decision) => Promise<void> | void = () => {},
): Promise<Assessment> {
  const setup = caseSetup(source);
  const { found, centres } = await simulateUntilSettled(source, setup, perform, (done) =>
    progress('simulating', done),
  );
  const counted = countedPart(source, setup, found);
  const { heights, picks, chosen } = counted;
  progress('looking closely', 0);
  const settling = await perform(
    chosen === undefined
      ? []
      : [
          { kind: 'tolerances', picks, chosen },
          { kind: 'gaps', heights: picks.map((pick, t) => (t === chosen ? pickedHeights(pick) : [])) },
        ],
    (share) => progress('looking closely', 0.1 * share),
  );
  const { tolerances } = only(settling, 'tolerances') ?? {};
  const { setOut } = tolerances ?? {};
  const findPlaces = (tell: (done: number) => void) =>
    findBestPlaces(
      source,
      counted,
      pickSample(found),
      (tubs) => performVariants(perform, { of: 'tubs', tubs }, () => {}),
      tell,
    );
  const noTubPlaces =
    chosen === undefined ? await findPlaces((share) => progress('looking closely', 0.1 * share)) : undefined;
  const chosenGaps = only(settling, 'gaps')?.gaps ?? [];
  const decision: Decision = {
    ...counted,
    pickGaps: counted.risks.map((tubs, row) => tubs.map((_, t) => chosenGaps[row]?.[t]?.[0])),
    tolerances,
    asSetOut:
      setOut &&
      heightRisks(tubVerdict(source, setup, findingRisks(found), found.runs, chosen!, setOut.topHeight)),
    bestPlaces: noTubPlaces ?? picks.map(() => undefined),
  };
  const told = decided(decision);
  const place = pickPlace(setup, counted, centres);
  const built = placeSetOut(decision);
  const shares = [0, 0, 0];
  const tell = (part: 0 | 1 | 2) => (share: number) => {
    shares[part] = share;
    progress('looking closely', 0.1 + 0.3 * (shares[0]! + shares[1]! + shares[2]!));
  };
  const [results, variants, bestPlaces] = await Promise.all([
    perform(
      [
        ...(place === undefined ? [] : insightTasks(place)),
        { kind: 'named runs', centres, wanted: namedSteps(source, findingRisks(found)) },
        ...hardPointTasks(setup, found, place),
        ...inspectionTasks(decision, built),
        {
          kind: 'gaps',
          heights: heights.map((list, t) => [
            ...gapHeights(list, source.heights),
            ...(t === chosen ? [] : pickedHeights(picks[t]!)),
          ]),
        },
      ],
      tell(0),
    ),
    place === undefined ? {} : variantsAt(source, found, place, perform, tell(1)),
    noTubPlaces ?? findPlaces(tell(2)),
    told,
  ]);
  return {
    ...decision,
    bestPlaces,
    ...closeLooks(source, decision, setup, found, built, results),
    ...insights(results),
    ...variants,
  };
}

/** Makes the tasks of variants of the case. @param tell  told the share of them that is done */
const performVariants =
  (perform: Perform, variants: Variants, tell: (done: number) => void): PerformStudy =>
  async (parts) => {
    const results = await perform(
      parts.map((part): Task => ({ kind: 'variants', variants, part })),
      tell,
    );
    return results.flatMap((result) => (result.kind === 'variants' ? [result.part] : []));
  };

/** The draws of a pick. */
const pickSample = ({ runs, centres }: Findings): StudySample => ({
  draws: runs.all.events,
  weightedBlocks: TAIL_BLOCKS,
  centres,
});

/** What would change the pick, and what its notches cost: variants of the case on the pick's own draws. */
async function variantsAt(
  source: Case,
  found: Findings,
  place: PickPlace,
  perform: Perform,
  tell: (done: number) => void,
): Promise<Insights> {
  const { tyre, tub, topHeight } = place;
  const { tyres } = findingRisks(found);
  const { lowest } = found.runs.all.tubs[tub]!;
  const sample = pickSample(found);
  const riskOf = (row: number, height: number): Risk => tyres[row]![tub]!.touch(stepAt(lowest, height));
  const changes = await findChanges(
    source,
    place,
    sample,
    (height) => riskOf(tyre, height),
    performVariants(perform, { of: 'changes', tyre, tub }, tell),
  );
  const notches = await notchCosts(
    source,
    { tub, topHeight, risks: tyres.map((_, row) => riskOf(row, topHeight)) },
    sample,
    (tubs) => performVariants(perform, { of: 'tubs', tubs }, tell),
  );
  return { changes, ...(notches.length === 0 ? {} : { notches }) };
}

/** The tub to build as it is set out; undefined when there is none. */
function placeSetOut({ picks, chosen, tolerances }: Decision): OutlinePlace | undefined {
  const height = chosen === undefined ? undefined : picks[chosen]?.height;
  return chosen === undefined || height === undefined
    ? undefined
    : {
        tub: chosen,
        topHeight: tolerances?.setOut.topHeight ?? height.topHeight,
        limitingTyre: height.limitingTyre,
      };
}

/** What is looked at closely whatever the pick. @param place  of the tub to build */
function inspectionTasks({ picks, chosen }: Counted, place: OutlinePlace | undefined): Inspection[] {
  return [
    { kind: 'outlines', place },
    { kind: 'shares', picks },
    { kind: 'bounds', tub: chosen ?? 0 },
  ];
}

type ResultOf<Kind extends TaskResult['kind']> = Extract<TaskResult, { kind: Kind }>;

/** The result of the one task of a kind; undefined when there was none. */
const only = <Kind extends TaskResult['kind']>(
  results: readonly TaskResult[],
  kind: Kind,
): ResultOf<Kind> | undefined => results.find((result): result is ResultOf<Kind> => result.kind === kind);

function closeLooks(
  { heights: given }: Case,
  { heights, chosen, pickGaps }: Decision,
  setup: CaseSetup,
  found: Findings,
  place: OutlinePlace | undefined,
  results: readonly TaskResult[],
): Looked & { pickGaps: Decision['pickGaps'] } {
  const named = only(results, 'named runs')?.named ?? [];
  const { gaps } = only(results, 'gaps')!;
  const looked = heights.map((list) => gapHeights(list, given));
  return {
    gaps: gaps.map((tubs) =>
      tubs.map((list, t) => heights[t]!.map((height) => list[looked[t]!.indexOf(height)])),
    ),
    pickGaps: gaps.map((tubs, row) =>
      tubs.map((list, t) => (t === chosen ? pickGaps[row]![t] : list[looked[t]!.length])),
    ),
    shares: only(results, 'shares')?.shares ?? [],
    bounds: only(results, 'bounds')?.bounds ?? [],
    outlines: only(results, 'outlines')!.outlines,
    shownRuns: place === undefined ? [] : shownRuns(setup, place, named),
    hardPoints: only(results, 'hard points')?.figures ?? [],
    sample: keepSample(found, named),
  };
}

function insights(results: readonly TaskResult[]): Insights {
  const drivers = only(results, 'drivers')?.drivers;
  const carSpread = only(results, 'car spread')?.spread;
  return {
    ...(drivers === undefined ? {} : { drivers }),
    ...(carSpread === undefined ? {} : { carSpread }),
  };
}

/** The pick that insights are about: the tub to build, or else the nearest to it, with the tyre that decides it. */
function pickPlace(setup: CaseSetup, found: Counted, centres: Centres): PickPlace | undefined {
  const tub = found.chosen ?? found.nearest;
  const height = tub === undefined ? undefined : found.picks[tub]?.height;
  if (tub === undefined || height === undefined) return undefined;
  const tyre = setup.tyres.findIndex((one) => one.name === height.limitingTyre);
  return { centres, tyre, tub, topHeight: height.topHeight };
}

/** Everything that follows from the tallies of a case alone. */
function countedPart(source: Case, setup: CaseSetup, found: Findings): Counted {
  const { runs, seasons } = found;
  const risks = findingRisks(found);
  const heights = runs.all.tubs.map((tub, t) => tableHeights(tub, source.heights, reportedFrom(found, t)));
  const picks = pickHeights(source, setup, risks, runs);
  const chosen = chosenTub(source, picks);
  const risksAt = (event: 'touch' | 'contact'): Risk[][][] =>
    [...risks.tyres, risks.all].map((tubs) =>
      tubs.map((tub, t) => heights[t]!.map((height) => tub[event](stepAt(runs.all.tubs[t]!.lowest, height)))),
    );
  return {
    runs,
    seasons,
    heights,
    risks: risksAt('touch'),
    contactRisks: risksAt('contact'),
    picks,
    chosen,
    passedOver: passedOverTubs(source, picks, chosen),
    nearest: chosen === undefined ? nearestTub(source, picks) : undefined,
    cautions: [...caseCautions(setup), ...restCautions(setup, standingPlaces(source, picks, chosen))],
  };
}

/** Where the standing tyre is held against a tub: every tub at the lowest height asked for, and the tub to build. */
function standingPlaces(source: Case, picks: readonly Pick[], chosen: number | undefined): StandingPlace[] {
  const asked = source.heights?.[0];
  return source.tubs.flatMap(({ name }, tub) => {
    const picked = tub === chosen ? picks[tub]?.height?.topHeight : undefined;
    const heights = [asked, picked].filter((height) => height !== undefined);
    return heights.length === 0 ? [] : [{ tub, name, topHeight: Math.min(...heights) }];
  });
}

const pickedHeights = (pick: Pick): number[] => (pick.height === undefined ? [] : [pick.height.topHeight]);
