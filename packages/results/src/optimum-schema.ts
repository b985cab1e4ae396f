import { z } from 'zod';
import { limit } from './existing-schema.ts';
import { count, metres, risk } from './schema-parts.ts';

/** m; null where no height is supported. */
const height = metres.nullable();

/**
 * What a study of the best values has beside what every study has.
 * @param cell    what is found for one tyre, or for all, in one tub
 * @param varied  fields of one input with its values
 */
export const optimumFields = <Cell extends z.ZodType, Varied extends z.ZodRawShape>(
  cell: Cell,
  varied: Varied,
) => ({
  goal: z
    .enum(['height', 'tub', 'speed'])
    .describe(
      'The least top height of a tub, the smallest tub that will do, or the highest speed in a tub at its height.',
    ),
  tub: count.describe('Number of the tub that the figures are of, from 0.'),
  does: z.boolean().describe('Whether that tub fits and asks for no more height than will do.'),
  mostHeight: height.describe(
    'Greatest top height that will do, or the one at which the tub stands, m; null where any does.',
  ),
  searchDraws: count.describe('Plain simulated runs at each place that was looked at on the way.'),
  besideDraws: count.describe('Plain simulated runs by which places are held against the best.'),
  ranges: z
    .array(
      z.strictObject({
        ...varied,
        best: count.describe('Which value is the best, from 0.'),
        heldBy: z
          .enum(['low end', 'high end', 'inside', 'not told', 'single value'])
          .describe(
            'End of the range that holds the best value; inside: none does; not told: no value is told apart from the best.',
          ),
        from: count.describe('Least value, from 0, that is not told apart from the best.'),
        to: count.describe('Greatest such value, from 0.'),
        beyond: z
          .strictObject({
            text: z.string().describe('A value beyond the end that holds it, as a case writes it.'),
            cells: z.array(cell).describe('One a tyre, and last of all tyres, against the best.'),
          })
          .nullable()
          .describe(
            'What a step further would give; null where no end holds it or the case takes no such value.',
          ),
      }),
    )
    .describe('Inputs that were looked over, with their values.'),
  places: z
    .array(
      z.strictObject({
        at: z.array(count).describe('Which value of each input, from 0.'),
        isAgain: z
          .boolean()
          .describe('Looked at by draws that the search did not see, and held against the best by them.'),
        isApart: z.boolean().describe('Surely asks for more height than the best.'),
        cells: z.array(cell).describe('One a tyre, and last of all tyres.'),
      }),
    )
    .describe('Every place that was looked at; the first is the best.'),
  best: z
    .strictObject({
      verdict: z
        .enum(['fits', 'does not fit', 'not known'])
        .describe('Whether the tub takes all tyres there.'),
      reason: z.string().describe('Why it does not fit or is not known, else empty.'),
      topHeight: height.describe('Lowest top height by the rule of a pick, seasons included.'),
      limitedBy: z
        .enum(['run risk', 'season risk', 'rest'])
        .nullable()
        .describe('What decides the height; null where there is none.'),
      limitingTyre: z
        .string()
        .nullable()
        .describe('Tyre that asks for the most height; null where there is none.'),
      moment: z
        .string()
        .nullable()
        .describe('Moment of the tightest runs of that tyre; null where there is none.'),
      runRisk: risk.nullable().describe('Risk of a run on that tyre at that height.'),
      seasonRisk: risk.nullable().describe('Risk of a season at that height.'),
      roomMissing: z.array(metres).describe('Lengths that the car lacks for the tub there, m.'),
    })
    .describe('The pick of the case with the best values, by draws that the search did not see.'),
  own: z
    .strictObject({
      topHeight: height.describe('Lowest top height of the case as it stands by its own pick, m.'),
      cells: z.array(cell).nullable().describe('The case as it stands against the best, by the same draws.'),
    })
    .describe('The case as it stands in that tub.'),
  limits: z
    .strictObject({
      best: limit.describe('With the best values.'),
      own: limit.describe('As the case stands.'),
    })
    .nullable()
    .describe('How fast the car may run in that tub at that height; null for other goals.'),
  tried: z
    .array(
      z.strictObject({
        tub: count.describe('Number of the tub, from 0.'),
        topHeight: height.describe('Height that it asks for at its best values, m.'),
      }),
    )
    .describe('Tubs that were judged, in their order.'),
});
