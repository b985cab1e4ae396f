import type { Case } from '@tubgap/casefile';
import { SIXTEENTH } from '@tubgap/units';
import { type CaseRisks, tubRisks } from '../case-risks.ts';
import { stepAt } from '../heights.ts';
import type { RiskByHeight } from '../risk.ts';
import type { CaseSetup } from '../setup.ts';
import { passingStep } from '../study/height-at-risk.ts';
import type { StudyPoint } from '../study/study-point.ts';
import type { PointTotals } from '../study/study-tasks.ts';
import type { Margins } from './grid-search.ts';

/** A risk and what is accepted of it. */
type Event = readonly [risk: RiskByHeight, accepted: number];

/** Heights of a tub, m: from which its steps count, and the lowest that clears at rest. */
interface Counted {
  lowest: number;
  atRest: number;
}

const countedIn = ({ setup, atRest }: StudyPoint): Counted => ({
  lowest: setup.lowestHeights[0]!,
  atRest: atRest[0]!,
});

const bothEnds = (counted: Counted, topHeight: number, events: readonly Event[]): Margins => ({
  upper: lacking(counted, topHeight, events, 'high'),
  lower: lacking(counted, topHeight, events, 'low'),
});

/**
 * How much more height some events ask for than there is, m, the greatest of theirs: none exactly where every one of
 * them is within at the sixteenth on which the top stands, and at every height above.
 */
function lacking(
  { lowest, atRest }: Counted,
  topHeight: number,
  events: readonly Event[],
  end: 'low' | 'estimate' | 'high',
): number {
  const stands = stepAt(lowest, topHeight);
  const steps = events.map(
    ([risk, accepted]) => passingStep((n) => risk(n)[end], accepted) ?? Number.POSITIVE_INFINITY,
  );
  const lacks = (Math.max(...steps) - stands) * SIXTEENTH;
  const atRestLacks = atRest - topHeight;
  return atRestLacks > 1e-9 ? Math.max(lacks, atRestLacks) : lacks;
}

/** Run risk of every tyre in a setup's one tub, as a pick has it. */
function runEvents(
  { plain, weighted }: PointTotals,
  { runRisk }: Case['accept'],
  { ownAccepted }: StudyPoint,
): Event[] {
  const { tyres, unseen } = plain.tallies;
  return tyres.map((tally, i): Event => {
    const beside = weighted.tallies.tyres[i]!;
    const [risks] = tubRisks(tally, unseen.tyres[i]!, beside.events > 0 ? beside : undefined);
    return [risks!.touch, ownAccepted[i] ?? runRisk];
  });
}

/** Season risk in it, as a pick has it. */
function seasonEvents({ seasons }: PointTotals, { seasonRisk }: Case['accept']): Event[] {
  if (seasons === undefined) throw new TypeError('seasons were not asked for');
  const { counted, unseen, weighted } = seasons;
  const [risks] = tubRisks(counted, unseen, weighted.events > 0 ? weighted : undefined);
  return [[risks!.touch, seasonRisk]];
}

/** What a setup with one tub lacks in height, by run risk or by season risk. */
export type ReadMargins = (
  point: StudyPoint,
  totals: PointTotals,
  accept: Case['accept'],
  topHeight: number,
) => Margins;

const marginsOf =
  (eventsOf: (totals: PointTotals, accept: Case['accept'], point: StudyPoint) => Event[]): ReadMargins =>
  (point, totals, accept, topHeight) =>
    bothEnds(countedIn(point), topHeight, eventsOf(totals, accept, point));

/** By the run risk of every tyre. */
export const runMargins = marginsOf(runEvents);
/** By the season risk. */
export const seasonMargins = marginsOf(seasonEvents);

/** About how much it lacks, m: by the estimates of the run risks. */
export const roughMargin = (
  point: StudyPoint,
  totals: PointTotals,
  accept: Case['accept'],
  topHeight: number,
): number => lacking(countedIn(point), topHeight, runEvents(totals, accept, point), 'estimate');

/** What a tub lacks in height as the case stands, by run risk and by season risk. */
export interface Stands {
  runs: Margins;
  seasons: Margins;
}

/** The same, read off the risks of a pick. @param topHeight  m */
export function standsBy(
  { accept }: Case,
  { lowestHeights, tyres }: CaseSetup,
  risks: CaseRisks,
  tub: number,
  topHeight: number,
): Stands {
  const lowest = lowestHeights[tub]!;
  const ends = (events: readonly Event[]): Margins => bothEnds({ lowest, atRest: lowest }, topHeight, events);
  return {
    runs: ends(risks.tyres.map((tubs, i): Event => [tubs[tub]!.touch, tyres[i]!.accepted])),
    seasons: ends([[risks.seasons[tub]!, accept.seasonRisk]]),
  };
}
