import { z } from 'zod';
import { count, metres, risk, share, sideFault } from './schema-parts.ts';

const standing = z.enum(['within', 'not within', 'not known']);

/** What is said of the tub that is in the car at its height. */
const verdict = z.strictObject({
  tub: z.string(),
  topHeight: metres,
  centreForward: metres,
  standing,
  accepted: z.strictObject({ runRisk: share, seasonRisk: share }),
  tyres: z.array(z.strictObject({ tyre: z.string(), standing, runRisk: risk, contactRisk: risk })),
  season: standing,
  belowRest: z.boolean(),
  lowestHeight: metres,
  sides: z.array(sideFault),
  heightNeeded: metres.optional(),
  whyNoHeight: z.string().optional(),
  roomMissing: z.array(metres),
  drawsNeeded: count,
  carsNeeded: count,
  limitingTyre: z.string(),
  runRisk: risk,
  contactRisk: risk,
  seasonRisk: risk,
});

/** How far a number of the case may go for it, SI in whatever unit its kind has. */
const limit = z.strictObject({
  code: z.enum([
    'speed',
    'launch',
    'pressure',
    'spring',
    'stop',
    'travel',
    'mass',
    'reserve',
    'diameter',
    'runs',
  ]),
  label: z.string(),
  path: z.string(),
  kind: z.enum(['ratio', 'length', 'mass', 'pressure', 'stiffness', 'speed', 'acceleration']),
  unit: z.string(),
  end: z.enum(['most', 'least']),
  now: z.number(),
  outcome: z.enum(['limit', 'any', 'none', 'not known', 'ranges']),
  value: z.number().nullable(),
  beyond: z.number().nullable(),
  from: z.number(),
  to: z.number(),
  ranges: z.array(z.strictObject({ from: z.number(), to: z.number() })),
});

/** The tub that is in the car, judged where it stands, and what would bring or keep it within what is accepted. */
export const existing = z.strictObject({
  diameter: metres,
  insideWidth: metres,
  verdict,
  limits: z.array(limit),
});
