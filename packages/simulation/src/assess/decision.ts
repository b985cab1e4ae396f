import type { Case } from '@tubgap/casefile';
import type { Caution } from '../caution.ts';
import { caseCautions } from '../cautions.ts';
import { stepAt, tableHeights } from '../heights.ts';
import type { GapFigures } from '../inspect-gaps.ts';
import type { OutlinePlace } from '../outlines.ts';
import { chosenTub, nearestTub, type Pick, passedOverTubs, pickHeights } from '../pick.ts';
import type { Risk } from '../risk.ts';
import type { RunTallies } from '../run-tallies.ts';
import { restCautions, type StandingPlace } from '../sense-checks.ts';
import type { CaseSetup } from '../setup.ts';
import type { BestPlaceSearch } from '../study/best-place.ts';
import type { Tally } from '../tally.ts';
import { type Findings, findingRisks, reportedFrom } from '../tasks.ts';
import type { Tolerances } from '../tolerances.ts';
import type { HeightRisks } from '../verdict.ts';

/** What follows from the tallies of a case alone. */
export interface Counted {
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

/** Everything that follows from the tallies of a case alone. */
export function countedPart(source: Case, setup: CaseSetup, found: Findings): Counted {
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

export const pickedHeights = (pick: Pick): number[] =>
  pick.height === undefined ? [] : [pick.height.topHeight];

/** The tub to build as it is set out; undefined when there is none. */
export function placeSetOut({ picks, chosen, tolerances }: Decision): OutlinePlace | undefined {
  const height = chosen === undefined ? undefined : picks[chosen]?.height;
  return chosen === undefined || height === undefined
    ? undefined
    : {
        tub: chosen,
        topHeight: tolerances?.setOut.topHeight ?? height.topHeight,
        limitingTyre: height.limitingTyre,
      };
}
