import { diameterPrior, type TyreMarking } from '@tubgap/casefile';
import { INCH, STANDARD_GRAVITY } from '@tubgap/units';
import type { Told } from './answers.ts';
import { answerTo } from './call-answers.ts';
import type { TyreBuild } from './kinds-of-car.ts';
import type { ReadCall } from './read-call.ts';
import { launchOf } from './slip.ts';
import { distanceOf } from './to-case.ts';
import { speedTold } from './told-laws.ts';
import { CONSTRUCTION_OF } from './tyre-priors.ts';

/** Nominal inches as a racer says them: '33.5 in'. */
const inchesAcross = (metres: number): string => `${Number((metres / INCH).toFixed(2))} in`;

/** A tyre's size as it was understood: '33.5 in across, 17 in wide (tread or section?), 16 in rim'. */
function sizeWords(marking: TyreMarking): string {
  if (marking.form === 'rollout') return `rollout: ${inchesAcross(marking.rollout / Math.PI)} across`;
  const across =
    marking.form === 'inch' ? marking.diameter : 2 * marking.width * marking.aspect + marking.rim;
  const means = marking.widthMeans === 'unknown' ? 'tread or section?' : marking.widthMeans;
  const rim = marking.rim === undefined ? [] : [`${inchesAcross(marking.rim)} rim`];
  return [`${inchesAcross(across)} across`, `${inchesAcross(marking.width)} wide (${means})`, ...rim].join(
    ', ',
  );
}

/** How high a tyre of such a size and build may stand. */
function standsWords(size: TyreMarking, build: TyreBuild): string {
  if (size.form === 'rollout') return '';
  const { low, high } = diameterPrior(size, CONSTRUCTION_OF[build]);
  return `may stand ${(low / INCH).toFixed(1)} to ${(high / INCH).toFixed(1)} in`;
}

const isTold = (value: unknown): value is Told =>
  typeof value === 'object' && value !== null && 'text' in value && 'value' in value;

const isMarking = (value: unknown): value is TyreMarking =>
  typeof value === 'object' && value !== null && 'form' in value;

const valueAt = (read: unknown, id: string): unknown =>
  id
    .split(/[.[\]]+/)
    .filter(Boolean)
    .reduce<unknown>((here, part) => (here as Record<string, unknown> | undefined)?.[part], read);

/** What an answer was understood as; empty where nothing was answered, or where that says itself. */
export function understoodWords(
  { answers, read, waiting }: ReadCall,
  id: string,
  tyre: number | undefined,
): string {
  if (waiting.includes(id)) return 'Counts as soon as the figure that belongs to it is told.';
  if (read === undefined || typeof answerTo(answers, id) !== 'string') return '';
  const value = valueAt(read, id);
  if (isMarking(value)) {
    const known = typeof answerTo(answers, id.replace('size', 'build')) === 'string';
    const stands = known ? standsWords(value, read.tyres[tyre ?? 0]!.build) : '';
    return [sizeWords(value), stands].filter(Boolean).join('; ');
  }
  if (!isTold(value)) return '';
  if (/sixtyFoot$/.test(id)) {
    const { low, value: mean, high } = launchOf(value.value).acceleration;
    const inG = (one: number): string => (one / STANDARD_GRAVITY).toFixed(2);
    return `a mean of ${inG(mean)} g off the line, ${inG(low)} to ${inG(high)}, with 1 ft of roll-out`;
  }
  if (/rollout$/.test(id)) return `${value.text}: ${inchesAcross(value.value / Math.PI)} across`;
  if (!/speed$/.test(id)) return value.text;
  const { words } = speedTold(value, read.speedIs ?? 'slip', distanceOf(read));
  return words.replace(/^told: /, '').replace(/; spread: .*$/, '');
}
