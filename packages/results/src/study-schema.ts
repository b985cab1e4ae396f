import { z } from 'zod';
import { optimumFields } from './optimum-schema.ts';
import { count, gap, metres, risk, share, sideFault } from './schema-parts.ts';

/**
 * Version of a study's layout; a reader refuses another. 2: a hard point that decides is named. 3: the file begins with
 * the digest of all that follows. 4: the base has the runs of the case's pick, or says that others were asked for. 5: what keeps a tyre out at the sides is data.
 * 6: the best place of a tub is the one that its pick names, by the rule of a pick, and a search has fewer draws.
 * 7: a point of a sweep may have other tyres, and points may be given one by one.
 * 8: contact, gaps and, where they were run, seasons beside the risk of a run.
 */
export const STUDY_VERSION = 8;

/** m; null where no height is supported. */
const height = metres.nullable();

/** A difference with its 95 % interval. */
const difference = z.strictObject({
  estimate: z.number().describe('Estimated difference.'),
  low: z.number().describe('Lower 95 % bound.'),
  high: z.number().describe('Upper 95 % bound.'),
});

/** What is found for one tyre, or for all, in one tub. */
const cell = z.strictObject({
  topHeight: height.describe(
    'Multiple of 1/16 in at which the upper 95 % bound of the run risk is within what is accepted.',
  ),
  seasonTopHeight: height
    .optional()
    .describe(
      'Of the whole car: the lowest that keeps the accepted season risk too, as a pick asks; left out where no seasons were run.',
    ),
  heightAtRisk: height.describe('Height at which the estimate itself is what is accepted.'),
  heightDifference: difference
    .nullable()
    .describe("Of the height at the accepted risk to the base's; null where either has none."),
  p50: height.describe('Median of the height that a run requires, m; null where no height helps.'),
  p99: height.describe('Height that 99 runs of 100 do not exceed, m; null where no height helps.'),
  decidedBy: z.enum(['arc', 'leg', 'hard point']).describe('Part of the tub, or of the car, that decides.'),
  hardPoint: z.string().describe('Name of the hard point where one decides, else empty.'),
  compared: z
    .array(
      z.strictObject({
        height: metres.describe('Top height, m.'),
        risk: risk.describe('Risk of a run there.'),
        contact: risk.describe('The same of real contact: nothing left at all.'),
        season: risk
          .optional()
          .describe('Risk of a season there, of the whole car; left out where no seasons were run.'),
        gaps: z
          .strictObject({
            atSpeed: gap.describe('Of the runs.'),
            standing: metres.describe(
              'Straight up from the axle, of the build tyre at build pressure, all at middle values, m.',
            ),
          })
          .describe('Gaps there, before the reserve is taken off.'),
        difference: difference
          .nullable()
          .describe("Of that risk to the base's; null where either is not known."),
      }),
    )
    .describe('Risk at the heights where setups are compared, and its difference to the base.'),
});

/** [tyre or, last, all tyres][tub] */
const figures = z.array(z.array(cell));

/** What every study says of where it comes from; SI throughout. */
const common = {
  format: z.literal('tubgap study').describe('Marks the file as a study of this program.'),
  version: z.literal(STUDY_VERSION).describe('Layout of the file; a reader refuses another.'),
  madeBy: z.string().describe('Program and version that wrote it.'),
  case: z
    .strictObject({
      name: z.string().describe('Short name of the case.'),
      title: z.string().describe('What the case is, for people.'),
      invented: z.boolean().describe('Whether the car is made up.'),
      file: z.string().describe('Name of the case file, without its folders.'),
      units: z.literal('mm').optional().describe('In which its tables and words speak; left out: inches.'),
    })
    .describe('The case that it was made of.'),
  settings: z
    .array(
      z.strictObject({
        path: z.string().describe('Place in the case.'),
        value: z.string().describe('As it was written.'),
      }),
    )
    .describe("Values given in place of the case file's, as they were written."),
  seed: z.number().min(0).max(Number.MAX_SAFE_INTEGER).describe('Seed of all draws.'),
  draws: count.describe('Plain simulated runs a setup.'),
  weighted: count.describe('Weighted runs a setup, moved to where touches are.'),
  drawsAsked: z
    .boolean()
    .describe("Whether that number was asked for; else they are the runs of the case's pick."),
  cars: count
    .nullable()
    .describe('Simulated cars a setup, each with a season of its own; null where no seasons were run.'),
  accept: z
    .strictObject({
      runRisk: share.describe('Risk of a run on any one tyre.'),
    })
    .describe('What the shop accepts.'),
  tyres: z.array(z.string()).describe('Names of the tyres.'),
  tubs: z
    .array(
      z.strictObject({
        name: z.string().describe('Name of the tub.'),
        diameter: metres.describe('Inside diameter of the bare skin, m.'),
        centreForward: metres.describe('Centre of the arc ahead of the axle at rest, m.'),
        sides: z
          .array(z.array(sideFault))
          .describe(
            'What keeps each tyre out at the sides, in the order of the tyres; none where it goes in.',
          ),
        inStock: z
          .boolean()
          .optional()
          .describe("What the shop's list says; left out where it says nothing."),
      }),
    )
    .describe('Tubs, in the order of the figures.'),
  chosen: count.nullable().describe('Index of the tub to build by this study; null when none can be named.'),
  notes: z.array(z.string()).describe('What a reader must know to read it right.'),
};

/** One input that a sweep varies. */
const varied = z.strictObject({
  path: z.string().describe('Place in the case file.'),
  label: z.string().describe('What the input is.'),
  texts: z.array(z.string()).describe('As they were written.'),
  values: z
    .array(z.number())
    .nullable()
    .describe('The same as numbers in `unit`; null for values that are no plain numbers.'),
  unit: z.string().describe('Unit of the numbers.'),
  own: z
    .number()
    .nullable()
    .describe("Middle of the case's own value in that unit; null where it is not known."),
});

const sweep = z.strictObject({
  ...common,
  kind: z.literal('sweep').describe('A sweep.'),
  mode: z
    .enum(['grid', 'one at a time', 'points'])
    .describe('All values with all others, each input alone, or points of a table as they were given.'),
  varied: z.array(varied).describe('Inputs that are varied.'),
  shown: z
    .strictObject({
      tyres: z.array(count).describe('Tyres asked for, by number from 0.'),
      heights: z
        .array(metres)
        .describe('Top heights asked for beside the one that the case itself asks for, m.'),
    })
    .describe(
      'Tyres asked for, as indices, and top heights asked for beside the one that the case itself asks for.',
    ),
  points: z
    .array(
      z.strictObject({
        at: z
          .array(count.nullable())
          .describe("Which value of each varied input, from 0; null for the case's own."),
        chosen: count
          .nullable()
          .describe('Number of the tub to build there, from 0; null when none can be named.'),
        tyres: z.array(z.string()).optional().describe("Names of its tyres, where they are not the case's."),
        figures: figures.describe('[tyre or, last, all tyres][tub].'),
      }),
    )
    .describe(
      "The first is the case as it stands. `at`: which value of each varied input, null for the case's own.",
    ),
});

const setups = z.strictObject({
  ...common,
  kind: z.literal('setups').describe('Setups side by side.'),
  setups: z
    .array(
      z.strictObject({
        label: z.string().describe('What the setup is.'),
        tyres: z.array(z.string()).describe('Names of its tyres.'),
        tubs: z.array(z.string()).describe('Names of its tubs.'),
        tyreOf: z
          .array(count.nullable())
          .describe('Which tyre of the first each stands beside, from 0; null where there is none.'),
        tubOf: z
          .array(count.nullable())
          .describe('Which tub of the first each stands beside, from 0; null where there is none.'),
        chosen: count
          .nullable()
          .describe('Number of its own tub to build, from 0; null when none can be named.'),
        figures: figures.describe('[tyre or, last, all tyres][tub].'),
      }),
    )
    .describe('The first is the case as it stands, which the others stand beside.'),
});

const classes = z.strictObject({
  ...common,
  kind: z.literal('classes').describe('Which tyre fits which tub.'),
  picks: z
    .array(
      z.strictObject({
        verdict: z
          .enum(['fits', 'does not fit', 'not known'])
          .describe('Whether the tub takes all tyres; not known: more runs would tell.'),
        reason: z.string().describe('Why it does not fit or is not known, else empty.'),
        alone: z.array(height).describe('Lowest top height of each tyre alone.'),
        topHeight: height.describe('Of the whole car, its season too.'),
        decidedBy: z
          .enum(['run risk', 'season risk', 'rest'])
          .nullable()
          .describe('What decides the height; null where there is none.'),
      }),
    )
    .describe('One a tub.'),
});

const place = z.strictObject({
  centreForward: metres.describe('Centre of the arc ahead of the axle, m.'),
  cells: z.array(cell).describe('One a tyre, and last of all tyres.'),
});

const places = z.strictObject({
  ...common,
  kind: z.literal('places').describe('Where along the car each tub fits best.'),
  searchDraws: count.describe('Plain simulated runs at each place that was looked at on the way.'),
  places: z
    .array(
      z.strictObject({
        searched: z
          .array(place)
          .describe(
            'By the draws of the search, along the car; among them the best, and an inch behind and ahead of it.',
          ),
        best: z
          .strictObject({
            ...place.shape,
            topHeight: metres.describe('Inside top above the track, m.'),
            limitedBy: z.enum(['run risk', 'season risk', 'rest']).describe('What decides the height.'),
          })
          .nullable()
          .describe(
            'By all draws, as `own` is; with the height and what decides it by the rule of a pick, seasons included.',
          ),
        atEnd: z.boolean().describe('The best lies at the end of what was searched.'),
        asGood: z
          .strictObject({
            from: metres.describe('Rearmost, m ahead of the axle.'),
            to: metres.describe('Foremost, m ahead of the axle.'),
          })
          .nullable()
          .describe('Ends of the range that costs no more than 1/16 in of height.'),
        inchBehind: place.nullable().describe('An inch behind the best.'),
        inchAhead: place.nullable().describe('An inch ahead of the best.'),
        own: place.describe('Where the case has it.'),
      }),
    )
    .describe('In the order of the tubs.'),
});

const optimum = z.strictObject({
  ...common,
  kind: z.literal('optimum').describe('The best values of some inputs under risk.'),
  ...optimumFields(cell, varied.shape),
});

/** What a sweep, a comparison or a search for the best place or values leaves behind; SI. */
export const studySchema = z.discriminatedUnion('kind', [sweep, setups, classes, places, optimum]);

export type Study = z.infer<typeof studySchema>;
export type StudyCell = z.infer<typeof cell>;
export type StudyOf<Kind extends Study['kind']> = Extract<Study, { kind: Kind }>;
