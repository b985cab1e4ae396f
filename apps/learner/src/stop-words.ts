import {
  type CheckedValue,
  checkedText,
  checkSummary,
  type MarkReading,
  type Rub,
  type Stops,
  stopSentences,
  touchPlace,
} from '@tubgap/evidence';
import { figuresIn, type LengthUnits } from '@tubgap/units';

/** One thing that is said of the measured car, under its label. */
export interface LabelledText {
  label: string;
  text: string;
}

/** Causes of a rub that the model does not know. Common practice, no source. */
export const RUB_CAUSES = [
  'a mount, bracket or weld of tub or axle that has moved or broken',
  'tub or body that bends under air, weight or landing',
  'tyre shake, or the landing of a wheel-stand',
  'another tyre, wheel or pressure than the case says, or a tyre that is coming apart',
  'a case that does not describe this car: tub, height, springs, travel, ride height, power',
] as const;

/** How far a rub asks the top to go up by itself, and how that was found. */
export function rubText({ mark, ordinaryGap, nearer, raiseBy }: Rub, units: LengthUnits): string {
  const { length, fine } = figuresIn(units);
  const found = `an ordinary run of the case leaves ${fine(ordinaryGap)} there, the tyre came ${fine(nearer)} nearer (blur of a mark included), and whatever is missing in the case is taken to act on every run`;
  const raise =
    raiseBy === undefined
      ? 'no height of this tub is known to mend it'
      : `by the mark alone the top must go up by ${length(raiseBy, 'up')}, to ${length(mark.built.topHeight + raiseBy, 'up')}`;
  return `${placed(mark)}: no car of this case rubs there in ${mark.runs} ${mark.runs === 1 ? 'run' : 'runs'}; ${raise} (${found})`;
}

const outside = ({ judgement }: CheckedValue): boolean => judgement !== 'pass';

/** A mark with its line in the folder of measurements. */
const placed = (mark: MarkReading): string => `${touchPlace(mark)} (${mark.file}:${mark.line})`;

/** What stops the car, the first thing that is read; undefined when nothing does. */
export function stopText(stops: Stops): string | undefined {
  const sentences = stopSentences(stops, placed);
  return sentences.length === 0 ? undefined : sentences.join('. ');
}

/** Check sheet and rubs in detail, under their labels. */
export function stopRows(stops: Stops, units: LengthUnits): LabelledText[] {
  const { checks, rubs } = stops;
  const failed = checks?.values.filter(({ judgement }) => judgement === 'fail') ?? [];
  return [
    ...(checks === undefined ? [] : [{ label: 'Check sheet', text: checkSummary(checks) }]),
    ...failed.map((value) => ({ label: '', text: checkedText(value, units) })),
    ...rubs.map((rub, i) => ({ label: i === 0 ? 'Rub' : '', text: rubText(rub, units) })),
    ...(rubs.length === 0
      ? []
      : [
          {
            label: 'Look for',
            text: `${RUB_CAUSES.join('; ')}. The raise mends none of these: a qualified chassis builder looks at the car before it runs again`,
          },
        ]),
  ];
}

/** Values of the check sheet that did not pass, each in words. */
export const unpassed = ({ checks }: Stops, units: LengthUnits): string[] =>
  (checks?.values ?? []).filter(outside).map((value) => checkedText(value, units));
