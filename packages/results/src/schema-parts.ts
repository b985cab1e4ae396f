import { z } from 'zod';

export const count = z.number().int().nonnegative();
export const share = z.number().min(0).max(1);
/**
 * A length on or about the car. Far wider than any car: what lies outside is no figure of this program. JSON has no
 * infinity; a number that no height helps is null in the file.
 */
export const metres = z.number().min(-100).max(100);
/** rad, once round either way at most. */
export const angle = z.number().min(-7).max(7);

export const risk = z.strictObject({
  touches: count.describe('Plain simulated events that touch.'),
  events: count.describe('Plain simulated events in all.'),
  estimate: share.describe('Estimated probability.'),
  low: share.describe('Lower 95 % bound.'),
  high: share.describe('Upper 95 % bound.'),
  method: z
    .enum(['counted', 'weighted'])
    .describe('counted from plain events, or weighted: draws moved to where touches are rare.'),
  cov: z
    .number()
    .nonnegative()
    .nullable()
    .describe('Coefficient of variation of the estimate; null when nothing touches.'),
  effectiveDraws: z
    .number()
    .nonnegative()
    .describe('Touching events of equal weight that would say as much.'),
});

const tubTally = z.strictObject({
  lowest: metres.describe('Lowest height that is counted at, m.'),
  steps: z.array(count).describe('Events that touch at the lowest n heights, by n.'),
  contactSteps: z.array(count).describe('The same of real contact, reserve 0.'),
  legTouches: count.describe('Events in which a leg or its end is touched at the lowest height.'),
});

export const tally = z.strictObject({
  events: count.describe('Events counted.'),
  tubs: z.array(tubTally).describe('One a tub.'),
  hardTouches: z.array(count).describe('Events in which each hard point is touched.'),
});

export const input = z.strictObject({
  tyre: z.string().describe("The tyre's name, or empty for an input of the car."),
  path: z.string().describe('Place in the case file.'),
  label: z.string().describe('What it is.'),
  group: z.enum(['tyre', 'car', 'builder', 'day']).describe('Who decides it.'),
  each: z.enum(['car', 'run']).describe('Fixed for the car, or new every run.'),
  source: z.enum(['case', 'catalogue', 'assumed']).describe('Who says it: the case, a catalogue, or nobody.'),
  basis: z.string().describe('File and line, or where an assumed law comes from.'),
  shown: z.string().describe("Its law in words, in the file's units."),
  kind: z.string().describe("Kind of quantity, such as 'length'."),
  middle: z.number().describe('Middle of the law, SI.'),
});

export const gap = z.strictObject({
  p01: metres.describe('Smallest gap of a run that one run in 100 goes below, m.'),
  p05: metres.describe('Smallest gap of a run that one run in 20 goes below, m.'),
  p50: metres.describe('Median of the smallest gap of a run, m.'),
  angle: angle.describe('Hub angle of the smallest gap, from straight up, forward positive, rad.'),
  moment: z.string().describe('Moment of the run at which it is smallest.'),
  tightestAngle: angle.describe('The same angle among the tightest twentieth of the runs, rad.'),
  tightestMoment: z.string().describe('The same moment among them.'),
});

export const pick = z.strictObject({
  tub: z.string().describe('Name of the tub.'),
  verdict: z
    .enum(['fits', 'does not fit', 'not known'])
    .describe(
      'Whether the tub takes the tyres, at the sides and at some height; not known: more runs would tell.',
    ),
  reason: z.string().describe('Why it does not fit or is not known, else empty.'),
  drawsNeeded: count.describe('Runs that would tell, where it is not known.'),
  carsNeeded: count.describe('Cars that would tell, where it is not known.'),
  alone: z
    .array(metres.nullable())
    .describe(
      'Lowest top height of each tyre alone for the accepted risk of a run, m; null where there is none.',
    ),
  height: z
    .strictObject({
      topHeight: metres.describe('Inside top above the track, a multiple of 1/16 in, m.'),
      mayFall: metres.describe('How much lower it could come out with any number of draws, m.'),
      limitingTyre: z.string().describe('Tyre that asks for most.'),
      decidedBy: z.enum(['run risk', 'season risk', 'rest']).describe('What decides the height.'),
      runRisk: risk.describe('Risk of a run on the limiting tyre at that height.'),
      contactRisk: risk.describe('Risk that nothing at all is left in a run.'),
      seasonRisk: risk.describe('Risk that a car touches in its season.'),
      staticGaps: z.array(metres).describe('Gaps to see standing still, in the order of the angles, m.'),
    })
    .optional()
    .describe('The height at which it fits; left out where there is none.'),
});

/** Where the centre of a tub was looked at, m ahead of the axle, and the best place; null: none of them fits. */
export const bestPlaceSearch = z.strictObject({
  from: metres.describe('Rearmost place that was looked at, m ahead of the axle.'),
  to: metres.describe('Foremost place that was looked at, m ahead of the axle.'),
  best: z
    .strictObject({
      centreForward: metres.describe('Its place, m ahead of the axle.'),
      by: metres.describe('Further ahead than where the pick has it, m.'),
      topHeight: metres.describe('Inside top above the track there, m.'),
      limitingTyre: z.string().describe('Tyre that asks for most there.'),
      decidedBy: z.enum(['run risk', 'season risk', 'rest']).describe('What decides the height there.'),
      runRisk: risk.describe('Risk of a run on the limiting tyre there.'),
      seasonRisk: risk.describe('Risk that a car touches in its season there.'),
    })
    .nullable()
    .describe('The best of them; null where none fits.'),
});

export const shareRow = z.strictObject({
  moment: z.string().describe('Moment of the run.'),
  share: z.string().describe('What closes the gap.'),
  p50: metres.describe('Median of what it takes, m.'),
  p99: metres.describe('What it takes in one run of 100 or less, m.'),
});

export const hardPoint = z.discriminatedUnion('shape', [
  z.strictObject({
    name: z.string().describe('What it is.'),
    shape: z.literal('circle').describe('Circle or convex polygon.'),
    ahead: metres.describe('Of the axle at rest, m.'),
    above: metres.describe('The axle at rest, m.'),
    radius: metres.describe('Of the circle, m.'),
  }),
  z.strictObject({
    name: z.string().describe('What it is.'),
    shape: z.literal('polygon').describe('Circle or convex polygon.'),
    points: z
      .array(
        z.strictObject({
          ahead: metres.describe('Of the axle at rest, m.'),
          above: metres.describe('The axle at rest, m.'),
        }),
      )
      .describe('Corners in order.'),
  }),
]);

/** One tyre at one hard point. Gaps are before the reserve is taken off. */
export const hardPointFigures = z.strictObject({
  atRest: metres.describe('Gap standing on this tyre, all at middle values, m.'),
  atRestAngle: angle.describe("Hub angle of the tyre's nearest place at rest, rad."),
  p50: metres.describe('Median of the smallest gap of a run, m.'),
  p05: metres.describe('Smallest gap that one run in 20 goes below, m.'),
  rare: metres
    .nullable()
    .describe('As often as the case accepts a run leaves less than this, at most; null: not known.'),
  angle: angle.describe('Hub angle of the smallest gap, rad.'),
  moment: z.string().describe('Moment of the run at which it is smallest.'),
  tightestAngle: angle.describe('The same angle among the tightest twentieth of the runs, rad.'),
  tightestMoment: z.string().describe('The same moment among them.'),
  risk: risk.describe('Of leaving less than the reserve; no height of a tub changes it.'),
  contact: risk.describe('Of contact.'),
  spare: metres
    .nullable()
    .describe(
      'How much nearer it may stand until it takes more than a tenth of the accepted risk; null: not known.',
    ),
  moveBy: metres.describe(
    'How much further away it would have to stand to take no more than that; 0 when it does not.',
  ),
  atPick: z
    .strictObject({
      alone: share.describe('Of this point alone.'),
      together: share.describe('Of this point with something else.'),
    })
    .nullable()
    .describe("Shares of this tyre's touches at the pick; null where there are none."),
});

/** Where on the car a tub may stand, outside of its skin: above the track, and ahead of and behind the axle. */
export const envelope = z.strictObject({
  highestTop: metres.optional().describe('Of the outside of the skin above the track, m.'),
  lowestLeg: metres.optional().describe("Of a leg's end above the track, m."),
  furthestAhead: metres.optional().describe('Of the axle, m.'),
  furthestBehind: metres.optional().describe('Of the axle, m.'),
});

export const interval = z.strictObject({
  value: z.number().describe('Estimate.'),
  low: z.number().describe('Lower 95 % bound.'),
  high: z.number().describe('Upper 95 % bound.'),
});

/** What one input does to the smallest gap of a run: alone, with others, and among the tightest runs. */
export const driver = z.strictObject({
  tyre: z.string().describe('Tyre of the input, or empty for one of the car.'),
  label: z.string().describe('What the input is.'),
  group: z.string().describe('Who decides it.'),
  first: interval.describe('Share of the variance that it makes alone.'),
  total: interval.describe('Share of the variance with all in which it takes part.'),
  tail: interval.describe('How much it moves the tightest runs.'),
});

/** Something that could be done, and what it would ask for or give; what leaves no height stands first. */
export const change = z.strictObject({
  code: z
    .enum([
      'top higher',
      'pressure',
      'springs',
      'travel',
      'downforce',
      'speed',
      'tub forward',
      'tub back',
      'larger growth',
    ])
    .describe('Which change it is, for programs.'),
  label: z.string().describe('The change in words.'),
  asks: z
    .enum(['height', 'no height', 'not known'])
    .describe(
      'Another height; none, for no height keeps the accepted risk any more; not known: too few draws say so.',
    ),
  heightChange: metres
    .nullable()
    .describe('Top height asked for on top, m; negative: less; null where no height is told.'),
  runRisk: z
    .strictObject({
      before: share.describe('As the case stands.'),
      after: share.describe('With the change.'),
    })
    .describe("At the pick's height."),
});

/** The width or gap that a tub leaves a tyre at the sides, and the one that it needs. */
export const sideFault = z.strictObject({
  tyre: z.string().describe('Tyre that is kept out.'),
  at: z.enum(['inside width', 'inner panel', 'body side']).describe('Where room is missing.'),
  has: metres.describe('What the tub leaves, m.'),
  needs: metres.describe('What the tyre needs, m.'),
});
