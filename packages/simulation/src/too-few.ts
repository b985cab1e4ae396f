import { drawsToResolve } from '@tubgap/statistics';
import { wholeText } from '@tubgap/units';
import type { Risk, RiskByHeight } from './risk.ts';
import { HEIGHT_STEPS } from './tally.ts';

/** What a simulation says of a tub; not known: more runs, or cars, would tell. */
export type PickVerdict = 'fits' | 'does not fit' | 'not known';

/** Runs and cars are never asked for in larger numbers than a case may give. */
const MOST_ASKED = 100_000_000;

/** What is wanted before anything can be said for the accepted risks; 0 and empty when nothing is. */
export interface TooFew {
  drawsNeeded: number;
  carsNeeded: number;
  reason: string;
}

/**
 * Whether a height that keeps an accepted risk is there ('fits'), is surely none ('does not fit'), or cannot be told:
 * the risk at the highest one searched, which every other exceeds, has the accepted one inside its interval.
 */
export function heightVerdict(risk: RiskByHeight, accepted: number): PickVerdict {
  const least = risk(HEIGHT_STEPS - 1);
  if (least.high <= accepted) return 'fits';
  return least.low > accepted ? 'does not fit' : 'not known';
}

/** Events that would tell a risk from what is accepted, at least one more than there are. */
const eventsNeeded = ({ estimate, events }: Risk, accepted: number): number =>
  Math.max(events + 1, drawsToResolve(estimate, accepted, MOST_ASKED));

/**
 * Whether more draws or cars are wanted for one tub.
 * @param runs     risk of a run by height, of every tyre in it
 * @param seasons  risk of a season by height
 * @param accepted  of each tyre's runs, and of a season
 */
export function tooFew(
  runs: readonly RiskByHeight[],
  seasons: RiskByHeight,
  accepted: Readonly<{ runs: readonly number[]; season: number }>,
): TooFew {
  const wanted = (
    risks: readonly RiskByHeight[],
    most: readonly number[],
  ): { needed: number; events: number } => {
    const open = risks.flatMap((risk, i) =>
      heightVerdict(risk, most[i]!) === 'not known' ? [{ least: risk(HEIGHT_STEPS - 1), i }] : [],
    );
    return {
      needed: Math.max(0, ...open.map(({ least, i }) => eventsNeeded(least, most[i]!))),
      events: open[0]?.least.events ?? 0,
    };
  };
  const draws = wanted(runs, accepted.runs);
  const cars = wanted([seasons], [accepted.season]);
  const asks = (
    [
      [draws, 'draws'],
      [cars, 'cars'],
    ] as const
  )
    .filter(([{ needed }]) => needed > 0)
    .map(([{ needed, events }, what]) => `${wholeText(needed)} ${what} (this run has ${wholeText(events)})`);
  return {
    drawsNeeded: draws.needed,
    carsNeeded: cars.needed,
    reason:
      asks.length === 0
        ? ''
        : `not known: too few draws for the accepted risk, which needs about ${asks.join(' and ')}`,
  };
}
