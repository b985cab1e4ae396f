import { CONSTRUCTION_OF, diameterPrior, launchOf, type Told, type TyreMarking } from '@tubgap/interview';
import { INCH, STANDARD_GRAVITY } from '@tubgap/units';
import { answerTo } from './ask-state.ts';
import type { ReadCall } from './read-call.ts';

/** Nominal inches as a racer says them: '33.5 in'. */
const inches = (metres: number): string => `${Number((metres / INCH).toFixed(2))} in`;

/** A tyre's size as it was understood: '33.5 in across, 17 in wide (tread or section?), 16 in rim'. */
function sizeWords(marking: TyreMarking, build: keyof typeof CONSTRUCTION_OF): string {
  if (marking.form === 'rollout') return `rollout: ${inches(marking.rollout / Math.PI)} across`;
  const { low, high } = diameterPrior(marking, CONSTRUCTION_OF[build]);
  const across =
    marking.form === 'inch'
      ? `${inches(marking.diameter)} across`
      : `${inches(2 * marking.width * marking.aspect + marking.rim)} across`;
  const wide = `${inches(marking.width)} wide (${marking.widthMeans === 'unknown' ? 'tread or section?' : marking.widthMeans})`;
  const rim = marking.rim === undefined ? [] : [`${inches(marking.rim)} rim`];
  return `${[across, wide, ...rim].join(', ')}; may stand ${(low / INCH).toFixed(1)} to ${(high / INCH).toFixed(1)} in`;
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
  { answers, read, waiting, interviewed }: ReadCall,
  id: string,
  tyre: number | undefined,
): string {
  if (waiting.includes(id)) return 'Counts as soon as the figure that belongs to it is told.';
  if (typeof answerTo(answers, id) !== 'string') return '';
  const value = valueAt(read, id);
  if (isMarking(value)) return sizeWords(value, read!.tyres[tyre ?? 0]!.build);
  if (!isTold(value)) return '';
  if (/sixtyFoot$/.test(id)) {
    const { low, value: mean, high } = launchOf(value.value).acceleration;
    const inG = (one: number): string => (one / STANDARD_GRAVITY).toFixed(2);
    return `a mean of ${inG(mean)} g off the line, ${inG(low)} to ${inG(high)}, with 1 ft of roll-out`;
  }
  if (/rollout$/.test(id)) return `${value.text}: ${inches(value.value / Math.PI)} across`;
  const place = id === 'speed' ? 'run.trapSpeed' : id.replace(/\.speed$/, '.class.run.trapSpeed');
  const told = interviewed?.told.find(({ path }) => path === place);
  return told === undefined ? value.text : told.words.replace(/^told: /, '').replace(/; spread: .*$/, '');
}
