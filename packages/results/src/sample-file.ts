import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { lengthFault, type Sized } from './agreement.ts';
import { RESULT_FILE, SAMPLE_FILE } from './folder.ts';
import type { Result } from './schema.ts';
import { count, metres } from './schema-parts.ts';
import { sealedText } from './seal.ts';
import { type Layout, readLayout } from './sealed-file.ts';

/** Version of the sample's layout; a reader refuses another. */
const SAMPLE_VERSION = 1;

const sum = z.number().nonnegative();

/** Of one tub, by the number of lowest heights that an event touches at; the last three lists begin at an index of them. */
const steps = z.strictObject({
  steps: z
    .array(z.number().int().min(0).max(800))
    .describe(
      'Numbers of lowest heights, sixteenths of an inch above `lowest`, rising; others hold nothing.',
    ),
  all: z.array(count).describe('Plain events that touch at so many of them.'),
  from: count.describe('Index of the steps at which the three lists below begin.'),
  unseen: z.array(count).describe('Of the plain events those where the weighted ones do not lead to.'),
  weight: z.array(sum).describe('Sum of the weights of the weighted events.'),
  square: z.array(sum).describe('Sum of the squares of those weights.'),
});

const tally = z.strictObject({
  events: count.min(1).describe('Plain events: runs, or seasons.'),
  weightedEvents: count.describe('Weighted ones; 0: there are none.'),
  hardTouches: z.array(count).describe('Plain events in which each hard point is touched.'),
  tubs: z
    .array(
      z.strictObject({
        lowest: metres.describe('Lowest height that is counted at, m.'),
        legTouches: count.describe('Plain events in which a leg or its end is touched at the lowest height.'),
        touch: steps.describe('Of events that come closer than the reserve.'),
        contact: steps.describe('Of real contact: nothing left at all.'),
      }),
    )
    .describe('One a tub.'),
});

/** A value of each input of a run; null: its middle value. */
const values = z.array(z.number().nullable());
const run = z
  .strictObject({
    car: values.describe('Inputs of the car, SI; null: its middle value.'),
    tyre: values.describe('Inputs of the tyre, SI; null: its middle value.'),
    axleHeight: metres.describe('Axle above the track, m.'),
  })
  .nullable();

export const sampleSchema = z.strictObject({
  format: z.literal('tubgap sample').describe('Marks the file as a sample of this program.'),
  version: z.literal(SAMPLE_VERSION).describe('Layout of the file; a reader refuses another.'),
  madeBy: z.string().describe('Program and version that wrote the result that it lies beside.'),
  seed: z.number().min(0).max(Number.MAX_SAFE_INTEGER).describe('Seed of all draws.'),
  tyres: z.array(tally).describe('Runs, one tally a tyre.'),
  seasons: tally.describe('Seasons of the simulated cars.'),
  named: z
    .array(
      z.array(
        z.strictObject({
          middling: run.describe('A run that asks for the height of the middle; null where none was found.'),
          rare: run.describe(
            'A run of the accepted risk, or the tightest of those looked at; null where none was found.',
          ),
          tightestOf: count
            .nullable()
            .describe('Runs that were looked at for the tightest; null: `rare` is of the accepted risk.'),
        }),
      ),
    )
    .describe('Runs that stand for many: [tyre][tub].'),
});

/** The draws that the risks of a result follow from, summed up. */
export type Sample = z.infer<typeof sampleSchema>;

const rises = (list: readonly number[]): boolean => list.every((n, k) => k === 0 || n > list[k - 1]!);

/** Why the parts of a sample do not belong together, or to the result beside it; undefined when they do. */
function sampleDisagreement(sample: Sample, result: Result): string | undefined {
  const { tyres, seasons, named } = sample;
  if (sample.madeBy !== result.madeBy || sample.seed !== result.seed)
    return 'it is of another run of the case';
  const tallies = [
    ...tyres.map((one, i) => [`tyres.${i}`, one, result.runs.tyres[i]?.events] as const),
    ['seasons', seasons, result.seasons.events] as const,
  ];
  const lengths = lengthFault([
    ['tyres', tyres, result.tyres.length],
    ['named', named, result.tyres.length],
    ...named.map((list, i): Sized => [`named.${i}`, list, result.tubs.length]),
    ...tallies.flatMap(([place, one]): Sized[] => [
      [`${place}.tubs`, one.tubs, result.tubs.length],
      [`${place}.hardTouches`, one.hardTouches, result.hardPoints.length],
      ...one.tubs.flatMap(({ touch, contact }, t) =>
        Object.entries({ touch, contact }).flatMap(([event, kept]): Sized[] => [
          [`${place}.tubs.${t}.${event}.all`, kept.all, kept.steps.length],
          [`${place}.tubs.${t}.${event}.weight`, kept.weight, kept.unseen.length],
          [`${place}.tubs.${t}.${event}.square`, kept.square, kept.unseen.length],
        ]),
      ),
    ]),
  ]);
  if (lengths !== undefined) return lengths;
  for (const [place, one, counted] of tallies) {
    if (one.events !== counted) return `${place}.events: not those of ${RESULT_FILE}`;
    for (const [t, { touch, contact }] of one.tubs.entries()) {
      for (const [event, kept] of Object.entries({ touch, contact })) {
        const where = `${place}.tubs.${t}.${event}`;
        if (!rises(kept.steps)) return `${where}.steps: do not rise`;
        if (kept.from + kept.unseen.length > kept.steps.length) {
          return `${where}.unseen: has more entries than steps`;
        }
      }
    }
  }
  return undefined;
}

const layout = (result: Result): Layout<Sample> => ({
  version: SAMPLE_VERSION,
  schema: sampleSchema,
  disagreement: (sample) => sampleDisagreement(sample, result),
  again: 'Run the case again.',
});

/**
 * The sample that lies beside a result; undefined where there is none, as in folders of earlier builds.
 * @throws ResultsError that says what is wrong and what to do
 */
export function readSample(place: string, result: Result): Sample | undefined {
  const file = join(place, SAMPLE_FILE);
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return undefined;
    throw error;
  }
  return readLayout(file, text, layout(result));
}

/** A sample as the text of its file: the same sample gives the same bytes. */
export const sampleText = (sample: Omit<Sample, 'format' | 'version'>): string =>
  sealedText(sampleSchema.parse({ format: 'tubgap sample', version: SAMPLE_VERSION, ...sample }));
