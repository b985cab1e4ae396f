import { z } from 'zod';

const short = z.string().max(200);
const texts = z.record(short, short);
const place = z.object({ angle: z.number(), depth: z.number() });

const mark = z.object({
  /** The tyre that ran. */
  tyre: short,
  /** Degrees from straight up, ahead positive. */
  angle: short,
  /** Left out: nobody has said yet. */
  touched: z.boolean().optional(),
  /** Whether something was stuck on that place that would show a touch; left out: nobody has said yet. */
  witness: z.boolean().optional(),
  runs: short,
  /** Of the witness, as typed; empty: the skin itself. */
  thickness: short,
});

const car = z.object({
  tub: short,
  /** Inside top above the track, m. */
  topHeight: z.number(),
  /** Tub centre ahead of the axle, m; left out: as the case says. */
  centre: z.number().optional(),
  /** Notches by tub, where they are not those of the case. */
  notches: z.record(short, z.array(place).max(8)),
  /** Values in place of the case's, by path. */
  values: texts,
});

const measures = z.object({
  /** By side and angle: 'left 15'. */
  gaps: texts,
  /** The rest of the check sheet, by side and place: 'left top', 'right centre', 'left point cage bar'. */
  checks: texts.default({}),
  marks: z.array(mark).max(100),
  /** The car that they were taken of; left out as long as there are none. */
  car: car.optional(),
});

/** A mark, or none, that was looked for after some runs: on the tub's skin or on a witness stuck to it. Preset to nothing. */
export type Mark = z.output<typeof mark>;
/** The car as it stood on the page when the first reading was typed in. */
export type MeasuredCar = z.output<typeof car>;
/** What was typed in at the car, as it was typed. */
export type Measures = z.output<typeof measures>;

export const NO_MEASURES: Measures = { gaps: {}, checks: {}, marks: [] };

/** Measures that a link or a saved case holds; none when they are not as this page writes them. */
export function readMeasures(raw: unknown): Measures {
  const read = measures.safeParse(raw);
  return read.success && read.data.car !== undefined ? read.data : NO_MEASURES;
}
