import { z } from 'zod';
import { existing } from './existing-schema.ts';
import { asked } from './schema-asked.ts';
import { outlines, tolerances } from './schema-outlines.ts';
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
  pick,
  risk,
  share,
  shareRow,
  tally,
} from './schema-parts.ts';

/** Everything that a run of the simulation leaves behind; SI, angles in rad. */
export const resultSchema = z.strictObject({
  ...asked,
  envelope: envelope.describe('Where on the car a tub may stand.'),
  hardPoints: z.array(hardPoint).describe('Fixed to the car, from the axle at rest.'),
  hardPointFigures: z.array(z.array(hardPointFigures)).describe('[hard point][tyre].'),
  track: z
    .strictObject({
      distance: z.number().positive().max(10_000).describe('From the start to the trap, m.'),
      gripLostChance: share.describe('Chance that a run loses grip in mid-track.'),
    })
    .describe('The track of the case.'),
  inputs: z.array(input).describe('Every uncertain number, with where it comes from.'),
  assumed: z
    .array(
      z.strictObject({
        path: z.string().describe('Place in the case file where it could stand.'),
        label: z.string().describe('What it is.'),
        shown: z.string().describe("Its value, in the shop's units."),
        basis: z.string().describe('Where it comes from.'),
      }),
    )
    .describe('Exact values that fill the case where it says nothing.'),
  runs: z
    .strictObject({
      tyres: z.array(tally).describe('One tally a tyre, in the order of the tyres.'),
      all: tally.describe('Draws in which at least one tyre touches.'),
    })
    .describe('Tallies in the order of the tyres; `all` counts draws in which at least one of them touches.'),
  seasons: tally.describe('Cars that touch in their season.'),
  heights: z.array(z.array(metres)).describe('Heights of the risk table, a tub.'),
  risks: z
    .array(z.array(z.array(risk)))
    .describe('Risk of a run at those heights: [tyre or, last, all][tub][height].'),
  contactRisks: z.array(z.array(z.array(risk))).describe('The same of real contact: nothing left at all.'),
  gaps: z
    .array(z.array(z.array(gap.nullable())))
    .describe(
      '[tyre or, last, all][tub][height]; null where nobody looked: gaps are told at the heights of the case, else at whole inches.',
    ),
  picks: z.array(pick).describe('One a tub: whether and at which height it fits.'),
  bestPlaces: z
    .array(bestPlaceSearch.nullable())
    .describe(
      'One a tub: the place at which it asks for the least height; null where nobody looked, or has looked yet.',
    ),
  pickGaps: z
    .array(z.array(gap.nullable()))
    .describe('[tyre or, last, all][tub] at the pick; null for a tub without a height.'),
  chosen: count.nullable().describe('Index of the tub to build; null when none can be named.'),
  passedOver: z
    .array(count)
    .default([])
    .describe('Smaller tubs that would do but need more extra height than they save in diameter.'),
  nearest: count
    .nullable()
    .describe(
      'Index of the tub that fits the tyres and lacks least room on the car, where none is chosen; null when none fits.',
    ),
  shares: z.array(z.array(z.array(shareRow))).describe('[tub][tyre].'),
  outlines: outlines.describe('How large the tyres become, by angle.'),
  drivers: z.array(driver).optional().describe('Which inputs decide the gap.'),
  driverGroups: z
    .array(
      z.strictObject({
        group: z.string().describe('Who decides them.'),
        first: interval.describe('Share of the variance that the group makes alone.'),
        total: interval.describe('Share of the variance with all in which the group takes part.'),
      }),
    )
    .optional()
    .describe('The same for all inputs that the tyre, the car, the builder or the day decides.'),
  notches: z
    .array(
      z.strictObject({
        angle: angle.describe('From the crown, forward positive, rad.'),
        depth: metres.describe('Depth of the flat inside the arc, m.'),
        deepest: metres.describe("Deepest flat that keeps the accepted run risk at the pick's height, m."),
        height: metres.describe('Top height that the notch costs, m.'),
      }),
    )
    .optional()
    .describe(
      "Notches of the tub to build: what each costs in height, and how deep it could be at the pick's height.",
    ),
  carSpread: z
    .strictObject({
      worstShare: share.describe('Share of the cars that counts as the worst.'),
      worst: share.describe('Run risk of the worst cars.'),
      rest: share.describe('Run risk of the rest.'),
      worstTouches: share.describe('Share of all touches that the worst cars make.'),
    })
    .nullable()
    .optional()
    .describe(
      'The run risk at the pick, split into that of the worst cars and of the rest; null where too few draws tell.',
    ),
  changes: z.array(change).optional().describe('What could be done, and what it would ask for or give.'),
  measureNext: z
    .array(
      z.strictObject({
        label: z.string().describe('What to measure.'),
        each: z.enum(['car', 'run']).describe('Fixed for the car, or new every run.'),
        share: share.describe('Share of the spread of the required height that it makes alone.'),
      }),
    )
    .optional()
    .describe(
      'Share of the spread of the required height that an input makes alone, fixed for the car or new every run.',
    ),
  tolerances: tolerances
    .nullable()
    .describe('What may come out otherwise than set out; null where no tub is to be built.'),
  asSetOut: z
    .strictObject({
      limitingTyre: z.string().describe('Tyre that asks for most.'),
      runRisk: risk.describe('Risk of a run on that tyre.'),
      contactRisk: risk.describe('Risk that nothing at all is left in a run.'),
      seasonRisk: risk.describe('Risk that a car touches in its season.'),
    })
    .nullable()
    .describe('The tub to build at the height that the shop sets out; null where there is none.'),
  existing: existing.optional().describe('Left out where the case has none.'),
  bounds: z
    .array(
      z.strictObject({
        tyre: z.string().describe('Tyre of the input, or empty for one of the car.'),
        label: z.string().describe('What the input is.'),
        end: z.enum(['low', 'high']).describe('Which end of its law.'),
      }),
    )
    .describe('Ends of laws at which the deciding runs lie.'),
  cautions: z
    .array(
      z.strictObject({
        code: z.string().describe('Which caution it is, for programs.'),
        text: z.string().describe('The caution in words.'),
      }),
    )
    .describe('What a reader must know to use it rightly.'),
  warnings: z.array(z.string()).describe('What was strange in the case, one line each.'),
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
