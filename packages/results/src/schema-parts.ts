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
  /** Plain simulated events that touch, of all of them. */
  touches: count,
  events: count,
  estimate: share,
  low: share,
  high: share,
  /** counted from plain events, or weighted: draws moved to where touches are rare. */
  method: z.enum(['counted', 'weighted']),
  /** Coefficient of variation of the estimate; null when nothing touches. */
  cov: z.number().nonnegative().nullable(),
  effectiveDraws: z.number().nonnegative(),
});

const tubTally = z.strictObject({
  lowest: metres,
  steps: z.array(count),
  contactSteps: z.array(count),
  legTouches: count,
});

export const tally = z.strictObject({ events: count, tubs: z.array(tubTally), hardTouches: z.array(count) });

export const input = z.strictObject({
  /** The tyre's name, or empty for an input of the car. */
  tyre: z.string(),
  path: z.string(),
  label: z.string(),
  group: z.enum(['tyre', 'car', 'builder', 'day']),
  each: z.enum(['car', 'run']),
  source: z.enum(['case', 'catalogue', 'assumed']),
  basis: z.string(),
  shown: z.string(),
  /** Kind of quantity, such as 'length', and the middle of the law in SI: what two results are compared by. */
  kind: z.string(),
  middle: z.number(),
});

export const gap = z.strictObject({
  p05: metres,
  p50: metres,
  angle,
  moment: z.string(),
  tightestAngle: angle,
  tightestMoment: z.string(),
});

export const pick = z.strictObject({
  tub: z.string(),
  /** Whether the tub takes the tyres, at the sides and at some height; not known: more runs would tell. */
  verdict: z.enum(['fits', 'does not fit', 'not known']),
  reason: z.string(),
  drawsNeeded: count,
  carsNeeded: count,
  /** Lowest top height of each tyre alone for the accepted risk of a run. */
  alone: z.array(metres.nullable()),
  height: z
    .strictObject({
      topHeight: metres,
      mayFall: metres,
      limitingTyre: z.string(),
      decidedBy: z.enum(['run risk', 'season risk', 'rest']),
      runRisk: risk,
      contactRisk: risk,
      seasonRisk: risk,
      staticGaps: z.array(metres),
    })
    .optional(),
});

/** Where the centre of a tub was looked at, m ahead of the axle, and the best place; null: none of them fits. */
export const bestPlaceSearch = z.strictObject({
  from: metres,
  to: metres,
  best: z
    .strictObject({
      centreForward: metres,
      /** Further ahead than where the pick has it. */
      by: metres,
      topHeight: metres,
      limitingTyre: z.string(),
      decidedBy: z.enum(['run risk', 'season risk', 'rest']),
      runRisk: risk,
      seasonRisk: risk,
    })
    .nullable(),
});

export const shareRow = z.strictObject({ moment: z.string(), share: z.string(), p50: metres, p99: metres });

export const hardPoint = z.discriminatedUnion('shape', [
  z.strictObject({
    name: z.string(),
    shape: z.literal('circle'),
    ahead: metres,
    above: metres,
    radius: metres,
  }),
  z.strictObject({
    name: z.string(),
    shape: z.literal('polygon'),
    points: z.array(z.strictObject({ ahead: metres, above: metres })),
  }),
]);

/** One tyre at one hard point. Gaps are before the reserve is taken off. */
export const hardPointFigures = z.strictObject({
  /** Standing on this tyre, all at middle values, and the hub angle of the tyre's nearest place. */
  atRest: metres,
  atRestAngle: angle,
  /** Smallest gap of a run: median; one run in 20 leaves less. */
  p50: metres,
  p05: metres,
  /** As often as the case accepts a run leaves less than this, at most; null: not known. */
  rare: metres.nullable(),
  angle,
  moment: z.string(),
  tightestAngle: angle,
  tightestMoment: z.string(),
  /** Of leaving less than the reserve, and of contact. No height of a tub changes it. */
  risk,
  contact: risk,
  /** How much nearer it may stand until it takes more than a tenth of the accepted risk; null: not known. */
  spare: metres.nullable(),
  /** How much further away it would have to stand to take no more than that; 0 when it does not. */
  moveBy: metres,
  /** Shares of this tyre's touches at the pick: of this point alone, and with something else. */
  atPick: z.strictObject({ alone: share, together: share }).nullable(),
});

/** One simulated run in the tub to build, as it is set out, at the moment that leaves it least. */
const shownRun = z.strictObject({
  moment: z.string(),
  requiredHeight: metres,
  /** Smallest gap, before the reserve is taken off, and its hub angle. */
  gap: metres,
  tightAngle: angle,
  /** Body down and axle forward from how the car stands on this tyre. */
  drop: metres,
  forward: metres,
  /** Centre of the tub's arc from the axle at the moment. */
  centreAhead: metres,
  centreAbove: metres,
  /** Outline, and gap to the tub, by angle. */
  radii: z.array(metres),
  gaps: z.array(metres),
});

/** Outlines in the axle frame: radii in the order of `angles`, from straight up, forward positive. */
export const outlines = z.strictObject({
  runs: count,
  angles: z.array(angle),
  quantiles: z.array(share),
  /** In the order of the tyres. */
  tyres: z.array(
    z.strictObject({
      /** Axle above the track standing on this tyre, at middle values; body raised on the springs for it. */
      axleHeight: metres,
      rideHeightChange: metres,
      standing: z.array(metres),
      /** [quantile][angle] of the largest radius over the moments of a run, angle by angle. */
      quantiles: z.array(z.array(metres)),
    }),
  ),
  /** In the tub to build, as it is set out; null when there is none. */
  pick: z
    .strictObject({
      /** [tyre]: a middling run, and the one of the accepted risk; empty where they were not found. */
      shown: z.array(z.array(shownRun)),
      /** With the limiting tyre, [quantile][angle], hard points left out. */
      gaps: z.strictObject({
        tyre: z.string(),
        quantiles: z.array(share),
        atRest: z.array(z.array(metres)),
        inRun: z.array(z.array(metres)),
      }),
    })
    .nullable(),
});

/** What may come out otherwise than set out, one thing at a time, when the tub is set out that much higher. */
const toleranceRow = z.strictObject({
  higher: metres,
  lower: metres,
  ahead: metres,
  back: metres,
  gapLess: metres,
  /** To see standing still at that height, in the order of `angles`. */
  staticGaps: z.array(metres),
});

/** For the tub to build, from `runs` runs and `cars` seasons. */
export const tolerances = z.strictObject({
  runs: count,
  cars: count,
  angles: z.array(angle),
  rows: z.array(toleranceRow),
  /** Where the shop sets the tub out: which row, its height, and what passes once it is built and measured. */
  setOut: z.strictObject({ row: count, topHeight: metres, passes: metres }),
});

/** Where on the car a tub may stand, outside of its skin: above the track, and ahead of and behind the axle. */
export const envelope = z.strictObject({
  highestTop: metres.optional(),
  lowestLeg: metres.optional(),
  furthestAhead: metres.optional(),
  furthestBehind: metres.optional(),
});

export const interval = z.strictObject({ value: z.number(), low: z.number(), high: z.number() });

/** What one input does to the smallest gap of a run: alone, with others, and among the tightest runs. */
export const driver = z.strictObject({
  tyre: z.string(),
  label: z.string(),
  group: z.string(),
  first: interval,
  total: interval,
  tail: interval,
});

/** Something that could be done, and what it would ask for or give; what leaves no height stands first. */
export const change = z.strictObject({
  code: z.enum([
    'top higher',
    'pressure',
    'springs',
    'travel',
    'downforce',
    'speed',
    'tub forward',
    'tub back',
    'larger growth',
  ]),
  label: z.string(),
  /** Another height; none, for no height keeps the accepted risk any more; not known: too few draws say so. */
  asks: z.enum(['height', 'no height', 'not known']),
  /** Top height asked for on top, m; negative: less; null where no height is told. */
  heightChange: metres.nullable(),
  /** At the pick's height. */
  runRisk: z.strictObject({ before: share, after: share }),
});

/** The width or gap that a tub leaves a tyre at the sides, and the one that it needs. */
export const sideFault = z.strictObject({
  tyre: z.string(),
  at: z.enum(['inside width', 'inner panel', 'body side']),
  has: metres,
  needs: metres,
});
