import type { Case } from '@tubgap/casefile';
import { SIXTEENTH } from '@tubgap/units';
import { tubRisks } from '../case-risks.ts';
import { stepAt } from '../heights.ts';
import type { RiskByHeight } from '../risk.ts';
import { passingStep } from '../study/height-at-risk.ts';
import type { StudyPoint } from '../study/study-point.ts';
import type { PointTotals } from '../study/study-tasks.ts';
import type { Margins } from './grid-search.ts';

/** A risk and what is accepted of it. */
type Event = readonly [risk: RiskByHeight, accepted: number];

/**
 * How much more height some events ask for than there is, m, the greatest of theirs: none exactly where every one of
 * them is within at the sixteenth on which the top stands, and at every height above.
 */
function lacking(
  { setup, atRest }: StudyPoint,
  topHeight: number,
  events: readonly Event[],
  end: 'low' | 'estimate' | 'high',
): number {
  const stands = stepAt(setup.lowestHeights[0]!, topHeight);
  const steps = events.map(
    ([risk, accepted]) => passingStep((n) => risk(n)[end], accepted) ?? Number.POSITIVE_INFINITY,
  );
  const lacks = (Math.max(...steps) - stands) * SIXTEENTH;
  const atRestLacks = atRest[0]! - topHeight;
  return atRestLacks > 1e-9 ? Math.max(lacks, atRestLacks) : lacks;
}

/** Run risk of every tyre in a setup's one tub, as a pick has it. */
function runEvents({ plain, weighted }: PointTotals, { runRisk }: Case['accept']): Event[] {
  const { tyres, unseen } = plain.tallies;
  return tyres.map((tally, i): Event => {
    const beside = weighted.tallies.tyres[i]!;
    const [risks] = tubRisks(tally, unseen.tyres[i]!, beside.events > 0 ? beside : undefined);
    return [risks!.touch, runRisk];
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
  (eventsOf: (totals: PointTotals, accept: Case['accept']) => Event[]): ReadMargins =>
  (point, totals, accept, topHeight) => {
    const events = eventsOf(totals, accept);
    return {
      upper: lacking(point, topHeight, events, 'high'),
      lower: lacking(point, topHeight, events, 'low'),
    };
  };

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
): number => lacking(point, topHeight, runEvents(totals, accept), 'estimate');
