import { z } from 'zod';
import { existing } from './existing-schema.ts';
import {
  angle,
  bestPlaceSearch,
  change,
  count,
  driver,
  envelope,
  gap,
  hardPoint,
  hardPointFigures,
  input,
  interval,
  metres,
  outlines,
  pick,
  risk,
  share,
  shareRow,
  tally,
  tolerances,
} from './schema-parts.ts';

/**
 * Version of the folder's layout; a reader refuses another.
 * 2: what each hard point does (`hardPointFigures`), and the tub that is nearest where none can be built (`nearest`).
 * 3: the file begins with the digest of all that follows; a change that leaves no height is told (`changes`), and the
 *   height that the shop sets out (`tolerances.setOut`).
 * 4: the risks at that height (`asSetOut`).
 * 5: what to measure next speaks of what is new every run too (`measureNext`), and what the shop's list says of a tub or
 *   tyre in columns of its own is carried along (`listed`, `inStock`); where else along the car a tub fits (`bestPlaces`).
 * 6: what a run of the accepted risk leaves at a hard point (`hardPointFigures[][].rare`).
 */
export const RESULT_VERSION = 6;

/** What the shop's list says in columns of its own, by their heads; left out where it has none. */
const listed = z.record(z.string(), z.string()).optional();

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
    /** In which its papers speak; left out: inches. */
    units: z.literal('mm').optional(),
    /** Values of the command line in place of the file's. */
    settings: z.array(z.strictObject({ path: z.string(), value: z.string() })),
  }),
  /** The shop's priors that the case starts from; left out: the program's own. */
  book: z
    .strictObject({
      file: z.string(),
      name: z.string(),
      date: z.string(),
      cars: count,
      unmarkedRuns: count,
      marks: count,
      tyres: z.array(z.string()),
      inputs: count,
      own: z.array(z.string()),
    })
    .optional(),
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
      /** From the rim's inner edge to the mounting face; left out where the case is silent. */
      backspacing: metres.optional(),
      listed,
    }),
  ),
  /** Inner panel inward and body side outward of the wheels' mounting face; left out where the case is silent. */
  across: z.strictObject({ innerPanel: metres, bodySide: metres }).optional(),
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
      listed,
      /** False where the shop's list says that it is not there. */
      inStock: z.boolean().optional(),
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
  /** [tyre or, last, all][tub][height]; null where nobody looked: gaps are told at the heights of the case, else at whole inches. */
  gaps: z.array(z.array(z.array(gap.nullable()))),
  picks: z.array(pick),
  /** One a tub: the place at which it asks for the least height; null where nobody looked, or has looked yet. */
  bestPlaces: z.array(bestPlaceSearch.nullable()),
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
  /** The run risk at the pick, split into that of the worst cars and of the rest; null where too few draws tell. */
  carSpread: z
    .strictObject({ worstShare: share, worst: share, rest: share, worstTouches: share })
    .nullable()
    .optional(),
  changes: z.array(change).optional(),
  /** Share of the spread of the required height that an input makes alone, fixed for the car or new every run. */
  measureNext: z.array(z.strictObject({ label: z.string(), each: z.enum(['car', 'run']), share })).optional(),
  tolerances: tolerances.nullable(),
  /** The tub to build at the height that the shop sets out; null where there is none. */
  asSetOut: z
    .strictObject({ limitingTyre: z.string(), runRisk: risk, contactRisk: risk, seasonRisk: risk })
    .nullable(),
  /** Left out where the case has none. */
  existing: existing.optional(),
  bounds: z.array(z.strictObject({ tyre: z.string(), label: z.string(), end: z.enum(['low', 'high']) })),
  cautions: z.array(z.strictObject({ code: z.string(), text: z.string() })),
  warnings: z.array(z.string()),
});

export type Result = z.infer<typeof resultSchema>;

/** What stands of a result as soon as the decision is settled; of `pickGaps` those of the tub to build alone. */
export type DecidedResult = Omit<
  Result,
  | 'hardPointFigures'
  | 'gaps'
  | 'shares'
  | 'outlines'
  | 'drivers'
  | 'driverGroups'
  | 'measureNext'
  | 'changes'
  | 'notches'
  | 'carSpread'
  | 'bounds'
>;
