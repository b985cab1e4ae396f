import { z } from 'zod';
import { count, metres, risk, share, sideFault } from './schema-parts.ts';

const standing = z.enum(['within', 'not within', 'not known']);

/** What is said of the tub that is in the car at its height. */
const verdict = z.strictObject({
  tub: z.string().describe('Name of the tub.'),
  topHeight: metres.describe('Inside top above the track, m.'),
  centreForward: metres.describe('Centre of the arc ahead of the axle, m.'),
  standing: standing.describe('Whether it is within what is accepted.'),
  accepted: z
    .strictObject({
      runRisk: share.describe('Risk of a run on the tyre that asks for most, in its class.'),
      seasonRisk: share.describe('Risk that a car touches in its season.'),
    })
    .describe('What the shop accepts.'),
  tyres: z
    .array(
      z.strictObject({
        tyre: z.string().describe('Name of the tyre.'),
        standing: standing.describe('Whether a run on it is within what is accepted.'),
        accepted: share.optional().describe('Accepted risk of a run, where its class has one of its own.'),
        runRisk: risk.describe('Risk of a run on it.'),
        contactRisk: risk.describe('Risk that nothing at all is left in a run on it.'),
      }),
    )
    .describe('One a tyre, in the order of the tyres.'),
  season: standing.describe('Whether the season is within what is accepted.'),
  belowRest: z
    .boolean()
    .describe(
      'The top stands below the lowest height that clears at rest: the risks are those of that height, and here larger.',
    ),
  lowestHeight: metres.describe('Lowest height that is looked at, m.'),
  sides: z.array(sideFault).describe('What keeps tyres out at the sides.'),
  heightNeeded: metres
    .optional()
    .describe('Lowest top height at which it is within what is accepted, m; left out where none is found.'),
  whyNoHeight: z.string().optional().describe('Why none is found.'),
  narrowRuns: share.describe(
    'Share of the runs that come too close to its sides until its ends stand above the tyre’s shoulders; 0 where few do.',
  ),
  roomMissing: z.array(metres).describe('Lengths that the car lacks for the tub at the height needed, m.'),
  drawsNeeded: count.describe('Runs that would tell, where it is not known.'),
  carsNeeded: count.describe('Cars that would tell, where it is not known.'),
  limitingTyre: z.string().describe('Tyre that asks for most.'),
  runRisk: risk.describe('Risk of a run on the limiting tyre.'),
  contactRisk: risk.describe('Risk that nothing at all is left in a run on it.'),
  seasonRisk: risk.describe('Risk that a car touches in its season.'),
});

/** How far a number of the case may go for it, SI in whatever unit its kind has. */
export const limit = z.strictObject({
  code: z
    .enum(['speed', 'launch', 'pressure', 'spring', 'stop', 'travel', 'mass', 'reserve', 'diameter', 'runs'])
    .describe('Which number it is, for programs.'),
  label: z.string().describe('What the number is.'),
  path: z.string().describe('Place in the case file.'),
  kind: z
    .enum(['ratio', 'length', 'mass', 'pressure', 'stiffness', 'speed', 'acceleration'])
    .describe('Kind of quantity.'),
  unit: z.string().describe('Unit in whose steps it was looked at.'),
  end: z
    .enum(['most', 'least'])
    .describe('most: values above the limit ask for more height; least: values below it.'),
  now: z.number().describe('What the case has, SI.'),
  outcome: z
    .enum(['limit', 'any', 'none', 'not known', 'ranges'])
    .describe(
      'limit: there is one; any: all that were looked at are within; none: not even that of the case; ranges: several.',
    ),
  value: z.number().nullable().describe('The last value within, SI; null where there is none.'),
  beyond: z.number().nullable().describe('A value that surely is not within, SI; null where none was found.'),
  from: z.number().describe('Lowest value that was looked at, SI.'),
  to: z.number().describe('Highest value that was looked at, SI.'),
  ranges: z
    .array(
      z.strictObject({
        from: z.number().describe('First value within, SI.'),
        to: z.number().describe('Last value within, SI.'),
      }),
    )
    .describe('Values within, where they are not one range.'),
});

/** The tub that is in the car, judged where it stands, and what would bring or keep it within what is accepted. */
export const existing = z.strictObject({
  diameter: metres.describe('Inside diameter of the bare skin, m.'),
  insideWidth: metres.describe('Inside width, m.'),
  verdict: verdict.describe('What is said of it at its height.'),
  limits: z.array(limit).describe('How far numbers of the case may go for it.'),
});
