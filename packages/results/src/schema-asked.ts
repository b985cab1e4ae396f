import { z } from 'zod';
import { angle, count, metres, share } from './schema-parts.ts';

/**
 * Version of the folder's layout; a reader refuses another.
 * 2: what each hard point does (`hardPointFigures`), and the tub that is nearest where none can be built (`nearest`).
 * 3: the file begins with the digest of all that follows; a change that leaves no height is told (`changes`), and the
 *   height that the shop sets out (`tolerances.setOut`).
 * 4: the risks at that height (`asSetOut`).
 * 5: what to measure next speaks of what is new every run too (`measureNext`), and what the shop's list says of a tub or
 *   tyre in columns of its own is carried along (`listed`, `inStock`); where else along the car a tub fits (`bestPlaces`).
 * 6: what a run of the accepted risk leaves at a hard point (`hardPointFigures[][].rare`).
 * 7: the smallest gap of one run in 100 (`gaps[][][].p01`).
 */
export const RESULT_VERSION = 7;

/** What the shop's list says in columns of its own, by their heads; left out where it has none. */
const listed = z.record(z.string(), z.string()).optional();

/** What a result says of what was asked: the case, its tyres and its tubs. */
export const asked = {
  format: z.literal('tubgap result').describe('Marks the file as a result of this program.'),
  version: z.literal(RESULT_VERSION).describe('Layout of the file; a reader refuses another.'),
  madeBy: z.string().describe('Program and version that wrote it.'),
  case: z
    .strictObject({
      name: z.string().describe('Short name of the case.'),
      title: z.string().describe('What the case is, for people.'),
      invented: z.boolean().describe('Whether the car is made up.'),
      file: z.string().describe('Name of the case file, without its folders.'),
      units: z.literal('mm').optional().describe('In which its papers speak; left out: inches.'),
      settings: z
        .array(
          z.strictObject({
            path: z.string().describe('Place in the case.'),
            value: z.string().describe('As it was written.'),
          }),
        )
        .describe("Values of the command line in place of the file's."),
    })
    .describe('The case that it was made of.'),
  book: z
    .strictObject({
      file: z.string().describe('Name of the file with the priors.'),
      name: z.string().describe('Name of the book.'),
      date: z.string().describe('Of the newest entry that it rests on; empty: none has one.'),
      cars: count.describe('Cars that they were learned from.'),
      unmarkedRuns: count.describe('Runs of those cars that left no mark.'),
      marks: count.describe('Marks that runs of those cars left.'),
      tyres: z
        .array(z.string())
        .describe("What has at least one input from the book: tyres by name, and 'the car' for the rest."),
      inputs: count.describe('Inputs from the book in all.'),
      own: z
        .array(z.string())
        .describe('What the book speaks of and the case has a word of its own for, which stays.'),
    })
    .optional()
    .describe("The shop's priors that the case starts from; left out: the program's own."),
  seed: z.number().min(0).max(Number.MAX_SAFE_INTEGER).describe('Seed of all draws.'),
  draws: count.describe('Plain simulated runs: it stops when more could not change a pick.'),
  drawsAllowed: count.describe('Plain runs that the case would have allowed.'),
  cars: count.describe('Simulated cars, each with a season of its own.'),
  accept: z
    .strictObject({
      runRisk: share.describe('Risk of a run on any one tyre.'),
      seasonRisk: share.describe('Risk that a car touches in its season.'),
    })
    .describe('What the shop accepts.'),
  build: z
    .strictObject({
      tyre: z.string().describe('The tyre on the car then.'),
      pressure: z.number().min(0).max(1e7).describe('Gauge, Pa.'),
      reserve: metres.describe('Gap that counts as a touch, m.'),
      axleHeight: metres.describe('Height of the axle above the track, m.'),
      axleHeightMeasured: z.boolean().describe("Whether that was measured; else it is the model's."),
      staticGapAngles: z
        .array(angle)
        .describe('Hub angles of the static gaps, from straight up, forward positive, rad.'),
    })
    .describe('How the car stands when the place of the tub is set.'),
  tyres: z
    .array(
      z.strictObject({
        name: z.string().describe('Name of the tyre, with that of its class where it has one.'),
        construction: z.enum(['bias', 'radial']).describe('How it is built.'),
        condition: z.string().describe('State of the tyre that was measured.'),
        runsPerSeason: count.describe('Runs of a season on it.'),
        inClass: z
          .strictObject({
            tyre: z.string().optional().describe('Name of the tyre itself, where that is another.'),
            distance: z.number().positive().max(10_000).optional().describe('From the start to the trap, m.'),
            gripLostChance: share.optional().describe('Chance that a run loses grip in mid-track.'),
            reserve: metres.optional().describe('Gap that counts as a touch, m.'),
            acceptedRunRisk: share.optional().describe('Accepted risk of a run.'),
          })
          .optional()
          .describe(
            "What is another in its class than in the case; left out where only inputs are. Of a tyre's classes every one has its inputs.",
          ),
        widthNeeded: metres.describe('Inside width of a tub that it needs, with play and reserve, m.'),
        innerGap: metres.nullable().describe('Gap to the inner panel, m; null where the case is silent.'),
        outerGap: metres.nullable().describe('Gap to the body side, m; null where the case is silent.'),
        sideReserve: metres.describe('Gap to be kept at the sides, m.'),
        backspacing: metres
          .optional()
          .describe("From the rim's inner edge to the mounting face; left out where the case is silent."),
        listed: listed.describe("What the shop's list says of it in columns of its own."),
      }),
    )
    .describe('Tyres that the car runs, in the order of the case.'),
  across: z
    .strictObject({
      innerPanel: metres.describe('Inner panel from the mounting face, inward, m.'),
      bodySide: metres.describe('Body side from the mounting face, outward, m.'),
    })
    .optional()
    .describe(
      "Inner panel inward and body side outward of the wheels' mounting face; left out where the case is silent.",
    ),
  tubs: z
    .array(
      z.strictObject({
        name: z.string().describe('Name of the tub.'),
        diameter: metres.describe('Inside diameter of the bare skin, m.'),
        radius: metres.describe('Inside radius with the liner in, m.'),
        insideWidth: metres.describe('Inside width, m.'),
        centreForward: metres.describe('Centre of the arc ahead of the axle at rest, m.'),
        halfExtent: angle.describe("Half of the arc's extent, from its crown to where a leg begins, rad."),
        legLength: metres.describe('Length of the leg below the arc, m.'),
        notches: z
          .array(
            z.strictObject({
              angle: angle.describe('From the crown, forward positive, rad.'),
              depth: metres.describe('How far the flat lies inside the arc, m.'),
            }),
          )
          .describe(
            'Flats of its notches: angle from the crown, forward positive, and how far inside the arc.',
          ),
        liner: metres.describe('Thickness off each side of the bare skin, m.'),
        skinThickness: metres.describe('Of the skin, m.'),
        arealDensity: z.number().min(0).max(1000).describe('Of the skin, kg/m².'),
        listed: listed.describe("What the shop's list says of it in columns of its own."),
        inStock: z.boolean().optional().describe("False where the shop's list says that it is not there."),
      }),
    )
    .describe('Tubs that were judged, in the order of the case.'),
};
