import { z } from 'zod';

/**
 * Version of the folder's layout; a reader refuses another.
 * 2: what each hard point does (`hardPointFigures`), and the tub that is nearest where none can be built (`nearest`).
 * 3: the file begins with the digest of all that follows; a change that leaves no height is told (`changes`), and the
 *   height that the shop sets out (`tolerances.setOut`).
 * 4: the risks at that height (`asSetOut`).
 */
export const RESULT_VERSION = 4;

export const count = z.number().int().nonnegative();
export const share = z.number().min(0).max(1);
/**
 * A length on or about the car. Far wider than any car: what lies outside is no figure of this program. JSON has no
 * infinity; a number that no height helps is null in the file.
 */
export const metres = z.number().min(-100).max(100);
/** rad, once round either way at most. */
const angle = z.number().min(-7).max(7);

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

const tally = z.strictObject({ events: count, tubs: z.array(tubTally), hardTouches: z.array(count) });

const input = z.strictObject({
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

const gap = z.strictObject({
  p05: metres,
  p50: metres,
  angle,
  moment: z.string(),
  tightestAngle: angle,
  tightestMoment: z.string(),
});

const pick = z.strictObject({
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

const shareRow = z.strictObject({ moment: z.string(), share: z.string(), p50: metres, p99: metres });

const hardPoint = z.discriminatedUnion('shape', [
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
const hardPointFigures = z.strictObject({
  /** Standing on this tyre, all at middle values, and the hub angle of the tyre's nearest place. */
  atRest: metres,
  atRestAngle: angle,
  /** Smallest gap of a run: median; one run in 20, and in 1,000, leaves less. */
  p50: metres,
  p05: metres,
  p001: metres,
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

/** One simulated run at its deciding moment in the tub to build, as it is set out. */
const shownRun = z.strictObject({
  /** Share of runs that need less height. */
  rank: share,
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
  radii: z.array(metres),
});

/** Outlines in the axle frame: radii in the order of `angles`, from straight up, forward positive. */
const outlines = z.strictObject({
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
      /** [tyre], each by rank: a middling run and a rare one. */
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
const tolerances = z.strictObject({
  runs: count,
  cars: count,
  angles: z.array(angle),
  rows: z.array(toleranceRow),
  /** Where the shop sets the tub out: which row, its height, and what passes once it is built and measured. */
  setOut: z.strictObject({ row: count, topHeight: metres, passes: metres }),
});

/** Where on the car a tub may stand, outside of its skin: above the track, and ahead of and behind the axle. */
const envelope = z.strictObject({
  highestTop: metres.optional(),
  lowestLeg: metres.optional(),
  furthestAhead: metres.optional(),
  furthestBehind: metres.optional(),
});

const interval = z.strictObject({ value: z.number(), low: z.number(), high: z.number() });

/** What one input does to the smallest gap of a run: alone, with others, and among the tightest runs. */
const driver = z.strictObject({
  tyre: z.string(),
  label: z.string(),
  group: z.string(),
  first: interval,
  total: interval,
  tail: interval,
});

/** Something that could be done, and what it would ask for or give; what leaves no height stands first. */
const change = z.strictObject({
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

/** Everything that a run of the simulation leaves behind; SI, angles in rad. */
export const resultSchema = z.strictObject({
  format: z.literal('tubgap result'),
  version: z.literal(RESULT_VERSION),
  madeBy: z.string(),
  case: z.strictObject({
    name: z.string(),
    title: z.string(),
    invented: z.boolean(),
    file: z.string(),
    /** Values of the command line in place of the file's. */
    settings: z.array(z.strictObject({ path: z.string(), value: z.string() })),
  }),
  seed: z.number().min(0).max(Number.MAX_SAFE_INTEGER),
  /** Runs simulated, and how many the case would have allowed: it stops when more could not change a pick. */
  draws: count,
  drawsAllowed: count,
  cars: count,
  accept: z.strictObject({ runRisk: share, seasonRisk: share }),
  build: z.strictObject({
    tyre: z.string(),
    /** Gauge, Pa. */
    pressure: z.number().min(0).max(1e7),
    reserve: metres,
    axleHeight: metres,
    axleHeightMeasured: z.boolean(),
    staticGapAngles: z.array(angle),
  }),
  tyres: z.array(
    z.strictObject({
      name: z.string(),
      construction: z.enum(['bias', 'radial']),
      condition: z.string(),
      runsPerSeason: count,
      /** Inside width of a tub with its play and reserve; gaps to panel and body side, null where the case is silent. */
      widthNeeded: metres,
      innerGap: metres.nullable(),
      outerGap: metres.nullable(),
      sideReserve: metres,
    }),
  ),
  tubs: z.array(
    z.strictObject({
      name: z.string(),
      diameter: metres,
      radius: metres,
      insideWidth: metres,
      centreForward: metres,
      /** Half of the arc's extent, from its crown to where a leg begins, and the leg below it. */
      halfExtent: angle,
      legLength: metres,
      /** Flats of its notches: angle from the crown, forward positive, and how far inside the arc. */
      notches: z.array(z.strictObject({ angle, depth: metres })),
      /** Off each side of the bare skin; of the skin; kg/m². */
      liner: metres,
      skinThickness: metres,
      arealDensity: z.number().min(0).max(1000),
    }),
  ),
  envelope,
  /** Fixed to the car, from the axle at rest. */
  hardPoints: z.array(hardPoint),
  /** [hard point][tyre] */
  hardPointFigures: z.array(z.array(hardPointFigures)),
  track: z.strictObject({ distance: z.number().positive().max(10_000), gripLostChance: share }),
  inputs: z.array(input),
  /** Exact values that fill the case where it says nothing. */
  assumed: z.array(
    z.strictObject({ path: z.string(), label: z.string(), shown: z.string(), basis: z.string() }),
  ),
  /** Tallies in the order of the tyres; `all` counts draws in which at least one of them touches. */
  runs: z.strictObject({ tyres: z.array(tally), all: tally }),
  seasons: tally,
  /** Heights of the risk table, a tub. */
  heights: z.array(z.array(metres)),
  /** Risk of a run at those heights: [tyre or, last, all][tub][height]. */
  risks: z.array(z.array(z.array(risk))),
  /** The same of real contact: nothing left at all. */
  contactRisks: z.array(z.array(z.array(risk))),
  /** [tyre or, last, all][tub][height] */
  gaps: z.array(z.array(z.array(gap))),
  picks: z.array(pick),
  /** [tyre or, last, all][tub] at the pick; null for a tub without a height. */
  pickGaps: z.array(z.array(gap.nullable())),
  /** Index of the tub to build; null when none can be named. */
  chosen: count.nullable(),
  /** Smaller tubs that would do but need more extra height than they save in diameter. */
  passedOver: z.array(count).default([]),
  /** Index of the tub that fits the tyres and lacks least room on the car, where none is chosen; null when none fits. */
  nearest: count.nullable(),
  /** [tub][tyre] */
  shares: z.array(z.array(z.array(shareRow))),
  outlines,
  drivers: z.array(driver).optional(),
  /** The same for all inputs that the tyre, the car, the builder or the day decides. */
  driverGroups: z.array(z.strictObject({ group: z.string(), first: interval, total: interval })).optional(),
  /** Notches of the tub to build: what each costs in height, and how deep it could be at the pick's height. */
  notches: z.array(z.strictObject({ angle, depth: metres, deepest: metres, height: metres })).optional(),
  /** The run risk at the pick, split into that of the worst cars and of the rest. */
  carSpread: z.strictObject({ worstShare: share, worst: share, rest: share, worstTouches: share }).optional(),
  changes: z.array(change).optional(),
  /** Share of the spread of the smallest gap that measuring the input would take away. */
  measureNext: z.array(z.strictObject({ label: z.string(), share })).optional(),
  tolerances: tolerances.nullable(),
  /** The tub to build at the height that the shop sets out; null where there is none. */
  asSetOut: z
    .strictObject({ limitingTyre: z.string(), runRisk: risk, contactRisk: risk, seasonRisk: risk })
    .nullable(),
  bounds: z.array(z.strictObject({ tyre: z.string(), label: z.string(), end: z.enum(['low', 'high']) })),
  cautions: z.array(z.strictObject({ code: z.string(), text: z.string() })),
  warnings: z.array(z.string()),
});

export type Result = z.infer<typeof resultSchema>;
