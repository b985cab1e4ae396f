import { z } from 'zod';
import { count, metres, risk, share, sideFault } from './schema-parts.ts';

/**
 * Version of a study's layout; a reader refuses another. 2: a hard point that decides is named. 3: the file begins with
 * the digest of all that follows. 4: the base has the runs of the case's pick, or says that others were asked for. 5: what keeps a tyre out at the sides is data.
 * 6: the best place of a tub is the one that its pick names, by the rule of a pick, and a search has fewer draws.
 * 7: a point of a sweep may have other tyres, and points may be given one by one.
 */
export const STUDY_VERSION = 7;

/** m; null where no height is supported. */
const height = metres.nullable();

/** A difference with its 95 % interval. */
const difference = z.strictObject({ estimate: z.number(), low: z.number(), high: z.number() });

/** What is found for one tyre, or for all, in one tub. */
const cell = z.strictObject({
  /** Multiple of 1/16 in at which the upper 95 % bound of the run risk is within what is accepted. */
  topHeight: height,
  /** Height at which the estimate itself is what is accepted. */
  heightAtRisk: height,
  /** Of the height at the accepted risk to the base's; null where either has none. */
  heightDifference: difference.nullable(),
  /** Percentiles of the height that a run requires. */
  p50: height,
  p99: height,
  decidedBy: z.enum(['arc', 'leg', 'hard point']),
  /** Name of the hard point where one decides, else empty. */
  hardPoint: z.string(),
  /** Risk at the heights where setups are compared, and its difference to the base. */
  compared: z.array(z.strictObject({ height: metres, risk, difference: difference.nullable() })),
});

/** [tyre or, last, all tyres][tub] */
const figures = z.array(z.array(cell));

/** What every study says of where it comes from; SI throughout. */
const common = {
  format: z.literal('tubgap study'),
  version: z.literal(STUDY_VERSION),
  madeBy: z.string(),
  case: z.strictObject({
    name: z.string(),
    title: z.string(),
    invented: z.boolean(),
    file: z.string(),
    /** In which its tables and words speak; left out: inches. */
    units: z.literal('mm').optional(),
  }),
  /** Values given in place of the case file's, as they were written. */
  settings: z.array(z.strictObject({ path: z.string(), value: z.string() })),
  seed: z.number().min(0).max(Number.MAX_SAFE_INTEGER),
  /** Plain simulated runs a setup, and weighted ones, moved to where touches are. */
  draws: count,
  weighted: count,
  /** Whether that number was asked for; else they are the runs of the case's pick. */
  drawsAsked: z.boolean(),
  accept: z.strictObject({ runRisk: share }),
  tyres: z.array(z.string()),
  tubs: z.array(
    z.strictObject({
      name: z.string(),
      diameter: metres,
      centreForward: metres,
      /** What keeps each tyre out at the sides, in the order of the tyres; none where it goes in. */
      sides: z.array(z.array(sideFault)),
      /** What the shop's list says; left out where it says nothing. */
      inStock: z.boolean().optional(),
    }),
  ),
  /** Index of the tub to build by this study; null when none can be named. */
  chosen: count.nullable(),
  /** What a reader must know to read it right. */
  notes: z.array(z.string()),
};

/** One input that a sweep varies. */
const varied = z.strictObject({
  path: z.string(),
  label: z.string(),
  /** As they were written. */
  texts: z.array(z.string()),
  /** The same as numbers in `unit`; null for values that are no plain numbers. */
  values: z.array(z.number()).nullable(),
  unit: z.string(),
  /** Middle of the case's own value in that unit; null where it is not known. */
  own: z.number().nullable(),
});

const sweep = z.strictObject({
  ...common,
  kind: z.literal('sweep'),
  mode: z.enum(['grid', 'one at a time', 'points']),
  varied: z.array(varied),
  /** Tyres asked for, as indices, and top heights asked for beside the one that the case itself asks for. */
  shown: z.strictObject({ tyres: z.array(count), heights: z.array(metres) }),
  /** The first is the case as it stands. `at`: which value of each varied input, null for the case's own. */
  points: z.array(
    z.strictObject({
      at: z.array(count.nullable()),
      chosen: count.nullable(),
      /** Names of its tyres, where they are not the case's. */
      tyres: z.array(z.string()).optional(),
      figures,
    }),
  ),
});

const setups = z.strictObject({
  ...common,
  kind: z.literal('setups'),
  /** The first is the case as it stands, which the others stand beside. */
  setups: z.array(
    z.strictObject({
      label: z.string(),
      tyres: z.array(z.string()),
      tubs: z.array(z.string()),
      /** Which tyre and tub of the first each stands beside; null where there is none. */
      tyreOf: z.array(count.nullable()),
      tubOf: z.array(count.nullable()),
      /** Index of its own tub to build. */
      chosen: count.nullable(),
      figures,
    }),
  ),
});

const classes = z.strictObject({
  ...common,
  kind: z.literal('classes'),
  picks: z.array(
    z.strictObject({
      verdict: z.enum(['fits', 'does not fit', 'not known']),
      reason: z.string(),
      /** Lowest top height of each tyre alone. */
      alone: z.array(height),
      /** Of the whole car, its season too. */
      topHeight: height,
      decidedBy: z.enum(['run risk', 'season risk', 'rest']).nullable(),
    }),
  ),
});

const place = z.strictObject({ centreForward: metres, cells: z.array(cell) });

const places = z.strictObject({
  ...common,
  kind: z.literal('places'),
  /** Plain simulated runs at each place that was looked at on the way. */
  searchDraws: count,
  /** In the order of the tubs. */
  places: z.array(
    z.strictObject({
      /** By the draws of the search, along the car; among them the best, and an inch behind and ahead of it. */
      searched: z.array(place),
      /** By all draws, as `own` is; with the height and what decides it by the rule of a pick, seasons included. */
      best: z
        .strictObject({
          ...place.shape,
          topHeight: metres,
          limitedBy: z.enum(['run risk', 'season risk', 'rest']),
        })
        .nullable(),
      /** The best lies at the end of what was searched. */
      atEnd: z.boolean(),
      /** Ends of the range that costs no more than 1/16 in of height. */
      asGood: z.strictObject({ from: metres, to: metres }).nullable(),
      inchBehind: place.nullable(),
      inchAhead: place.nullable(),
      /** Where the case has it. */
      own: place,
    }),
  ),
});

/** What a sweep, a comparison or a search for the best place leaves behind; SI. */
export const studySchema = z.discriminatedUnion('kind', [sweep, setups, classes, places]);

export type Study = z.infer<typeof studySchema>;
export type StudyCell = z.infer<typeof cell>;
export type StudyOf<Kind extends Study['kind']> = Extract<Study, { kind: Kind }>;
