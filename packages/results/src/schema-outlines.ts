import { z } from 'zod';
import { angle, count, metres, share } from './schema-parts.ts';

/** One simulated run in the tub to build, as it is set out, at the moment that leaves it least. */
const shownRun = z.strictObject({
  moment: z.string().describe('Moment that leaves least.'),
  requiredHeight: metres.describe('Top height that the run requires, m.'),
  gap: metres.describe('Smallest gap, before the reserve is taken off, m.'),
  tightAngle: angle.describe('Hub angle of that gap, rad.'),
  drop: metres.describe('Body down from how the car stands on this tyre, m.'),
  forward: metres.describe('Axle forward from there, m.'),
  centreAhead: metres.describe("Centre of the tub's arc ahead of the axle at the moment, m."),
  centreAbove: metres.describe("Centre of the tub's arc above the axle at the moment, m."),
  radii: z.array(metres).describe('Outline by angle, m.'),
  gaps: z.array(metres).describe('Gap to the tub by angle, m.'),
});

/** Outlines in the axle frame: radii in the order of `angles`, from straight up, forward positive. */
export const outlines = z.strictObject({
  runs: count.describe('Simulated runs.'),
  angles: z.array(angle).describe('From straight up, forward positive, rad.'),
  quantiles: z.array(share).describe('Shares of the runs.'),
  tyres: z
    .array(
      z.strictObject({
        axleHeight: metres.describe('Axle above the track standing on this tyre, at middle values, m.'),
        rideHeightChange: metres.describe('Body raised on the springs for it, m.'),
        standing: z.array(metres).describe('Outline of the standing tyre by angle, m.'),
        quantiles: z
          .array(z.array(metres))
          .describe('[quantile][angle] of the largest radius over the moments of a run, angle by angle.'),
      }),
    )
    .describe('In the order of the tyres.'),
  pick: z
    .strictObject({
      shown: z
        .array(z.array(shownRun))
        .describe(
          '[tyre]: a middling run, and the one of the accepted risk; empty where they were not found.',
        ),
      gaps: z
        .strictObject({
          tyre: z.string().describe('The limiting tyre.'),
          quantiles: z.array(share).describe('Shares of the runs.'),
          atRest: z.array(z.array(metres)).describe('Gap at rest, [quantile][angle], m.'),
          inRun: z.array(z.array(metres)).describe('Smallest gap of a run, [quantile][angle], m.'),
        })
        .describe('With the limiting tyre, [quantile][angle], hard points left out.'),
    })
    .nullable()
    .describe('In the tub to build, as it is set out; null when there is none.'),
});

/** What may come out otherwise than set out, one thing at a time, when the tub is set out that much higher. */
const toleranceRow = z.strictObject({
  higher: metres.describe('How much higher the tub is set out than the least height, m.'),
  lower: metres.describe('How much lower the top may come out, m.'),
  ahead: metres.describe('How much further ahead the centre may come out, m.'),
  back: metres.describe('How much further back the centre may come out, m.'),
  gapLess: metres.describe('How much may be missing from the gap all round, m.'),
  staticGaps: z.array(metres).describe('To see standing still at that height, in the order of `angles`.'),
});

/** For the tub to build, from `runs` runs and `cars` seasons. */
export const tolerances = z.strictObject({
  runs: count.describe('Runs that it comes from.'),
  cars: count.describe('Seasons that it comes from.'),
  angles: z.array(angle).describe('Hub angles of the static gaps, rad.'),
  rows: z.array(toleranceRow).describe('One a height at which the tub may be set out.'),
  setOut: z
    .strictObject({
      row: count.describe('Which row, from 0.'),
      topHeight: metres.describe('Inside top above the track, m.'),
      passes: metres.describe('What passes once the tub is built and measured, m.'),
    })
    .describe(
      'Where the shop sets the tub out: which row, its height, and what passes once it is built and measured.',
    ),
});
