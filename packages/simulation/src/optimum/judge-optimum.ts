import type { Case } from '@tubgap/casefile';
import { SIXTEENTH } from '@tubgap/units';
import { missingRoom } from '../envelope.ts';
import type { PerformSetups } from '../insight/assumed-costs.ts';
import { type Pick, pickHeights } from '../pick.ts';
import { caseSetup } from '../setup.ts';
import { type Perform, pickSample } from '../simulate.ts';
import { heightDifference } from '../study/height-at-risk.ts';
import { type CellFigures, studyFigures } from '../study/study-figures.ts';
import type { StudySetup } from '../study/study-point.ts';
import { openStudy, runStudy, type StudySample } from '../study/study-tasks.ts';
import { findingRisks } from '../tasks.ts';
import type { LookedPlace, SearchedOptimum } from './search-optimum.ts';

/** The pick of a case in one of its tubs, and what it was made of. */
export interface JudgedOptimum {
  pick: Pick;
  /** Lengths that the car lacks for the tub there, m. */
  roomMissing: number[];
  /** Moment of the tightest twentieth of the runs of the tyre that asks for the most; undefined without a height. */
  moment: string | undefined;
  sample: StudySample;
}

/** Whether a tub does: it fits the tyres and the car. */
export const isFit = ({ pick, roomMissing }: JudgedOptimum): boolean =>
  pick.verdict === 'fits' && pick.height !== undefined && roomMissing.length === 0;

/** Picks a case as `tubgap pick` does, by its own seed, and tells of one of its tubs. */
export async function judgeOptimum(
  source: Case,
  tub: number,
  perform: Perform,
  tell: (done: number) => void = () => {},
): Promise<JudgedOptimum> {
  const { found, heights: _, ...sample } = await pickSample(source, perform, false, tell);
  const setup = caseSetup(source);
  const pick = pickHeights(source, setup, findingRisks(found!), found!.runs)[tub]!;
  const { height } = pick;
  if (height === undefined) return { pick, roomMissing: [], moment: undefined, sample };
  const heights = source.tubs.map((_, t) => (t === tub ? [height.topHeight] : []));
  const [gaps] = await perform([{ kind: 'gaps', heights }], () => {});
  if (gaps?.kind !== 'gaps') throw new TypeError('gaps were asked for');
  const tyre = setup.tyres.findIndex(({ name }) => name === height.limitingTyre);
  return {
    pick,
    roomMissing: missingRoom(source, tub, height.topHeight),
    moment: gaps.gaps[tyre]![tub]![0]!.tightestMoment,
    sample,
  };
}

/** Plain draws of each setup beside the best; of the weighted ones all: what they leave open scatters most. */
const BESIDE_DRAWS = 32_768;

/**
 * Setups beside the best one, by draws of the case's own seed, which the search did not see: what each asks for in height
 * against the best, with its 95 % interval, and its risk at the best one's height.
 * @param setups  in that tub alone; the best first
 * @param sample  draws of the best one's pick
 * @param topHeight  m, at which risks are compared; undefined: at none
 * @returns of each setup, the best first: [tyre or, last, all tyres]
 */
export async function besideOptimum(
  setups: readonly StudySetup[],
  sample: StudySample,
  topHeight: number | undefined,
  perform: PerformSetups,
  tell: (done: number) => void = () => {},
): Promise<CellFigures[][]> {
  const study = openStudy(setups);
  const heights = [topHeight === undefined ? [] : [topHeight]];
  const { runRisk } = setups[0]!.source.accept;
  const plan = { ...sample, draws: Math.min(sample.draws, BESIDE_DRAWS), heights };
  const found: CellFigures[][][] = [];
  await runStudy(
    study,
    plan,
    perform(setups),
    (totals, p) => found.push(studyFigures(study.points[p]!, totals, runRisk, heights, found[0])),
    (done) => tell(done / setups.length),
  );
  return found.map((rows) => rows.map((row) => row[0]!));
}

/** Differences of height that nobody builds by, m: what the search's own draws put further off is not looked at again. */
const FAR = 2 * SIXTEENTH;
/** Places that are looked at again at most, the nearest to the best first. */
const MOST_AGAIN = 23;

/**
 * The places of a search that may be as good as its best: what keeps them out is no more, and neither is their height, by
 * the draws of the search, surely by FAR. The best is not among them.
 */
export function nearPlaces({ looked, best }: SearchedOptimum): { again: LookedPlace[]; open: LookedPlace[] } {
  const [bestEven] = [best.figures.at(-1)!.even];
  const near = looked
    .filter((one) => {
      if (one === best || one.lack[0] !== best.lack[0]) return false;
      const { even } = one.figures.at(-1)!;
      if (even === undefined || bestEven === undefined) return one.lack[1] === best.lack[1];
      const difference = heightDifference(even, bestEven);
      return !(one.lack[1] - best.lack[1] > FAR && difference !== undefined && difference.low > 0);
    })
    .toSorted((one, other) => one.lack[1] - other.lack[1]);
  return { again: near.slice(0, MOST_AGAIN), open: near.slice(MOST_AGAIN) };
}

/**
 * Whether a setup surely asks for more height than the best, by draws that the search did not see: by the height itself, or,
 * where a leg or a hard point lets that scatter by inches, by the risk at the best one's height. Each errs in one of 40 cases.
 */
export const isToldApart = ({ even, heightDifference, compared }: CellFigures): boolean =>
  even === undefined ||
  [heightDifference, compared[0]?.difference].some(
    (difference) => difference !== undefined && difference.low > 0,
  );
