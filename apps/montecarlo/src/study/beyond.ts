import type { Setting } from '@tubgap/casefile';
import { type Beyond, type LatticePlace, MOST_AXES } from '@tubgap/simulation';
import type { ReadCase } from '../options.ts';
import { StudyFault } from './fault.ts';
import { measureText } from './measure.ts';
import type { Beside } from './new-cautions.ts';
import { easyStep } from './over.ts';
import { noneTwice } from './sweep.ts';
import { pointSetup } from './sweep-points.ts';
import { type VariedInput, variedInput } from './varied-input.ts';
import type { Vary } from './vary.ts';

/** The inputs of a search, and the case at the ends of each. */
export interface OptimumInputs {
  inputs: (VariedInput & { values: number[] })[];
  ends: Beside[];
}

/**
 * What the ranges of a search mean in a case.
 * @throws StudyFault where one is no rising list of numbers, there are too many, or the case takes one of their values not
 */
export function optimumInputs(
  read: ReadCase,
  set: readonly Setting[],
  overs: readonly Vary[],
): OptimumInputs {
  noneTwice(overs);
  if (overs.length > MOST_AXES) {
    throw new StudyFault([
      `${overs[MOST_AXES]!.place}  is the ${MOST_AXES + 1}th range; ${MOST_AXES} are the most that are searched together. Put what moves together into one, at commas, or have tubgap evaluate work out points of your own.`,
    ]);
  }
  const inputs = overs.map((over) => {
    // What is wrong with a whole range is told once, at its end.
    variedInput(read, set, { ...over, texts: [over.texts[0]!, over.texts.at(-1)!] });
    const input = variedInput(read, set, over);
    const { values, place } = input;
    if (values === null) {
      throw new StudyFault([`${place}  only numbers have a best one; name a tub by --tub.`]);
    }
    if (values.some((value, v) => v > 0 && value <= values[v - 1]!)) {
      throw new StudyFault([`${place}  write the values in rising order, each once.`]);
    }
    return { ...input, values };
  });
  const ends = inputs.flatMap(({ label, texts, sources }) =>
    [0, texts.length - 1].map((v) => ({
      label: `${label} ${texts[v]!.replace(/^~\s*/, '')}`,
      source: sources[v]!,
    })),
  );
  return { inputs, ends };
}

/** A unit further where a range is at least one long and not many, else a fourth of it or so. */
const stepOf = (length: number, unit: string): number =>
  length >= 1 && length <= 20 ? 1 : easyStep(8 * length, unit);

/** The same input at one value beyond an end of its range; undefined where the case takes none there. */
function inputBeyond(
  read: ReadCase,
  set: readonly Setting[],
  input: OptimumInputs['inputs'][number],
  isHigh: boolean,
): { input: VariedInput; text: string } | undefined {
  const { values, unit, texts, path, place } = input;
  const [low, high] = [values[0]!, values.at(-1)!];
  const step = stepOf(high - low, unit);
  const number = isHigh ? high + step : low - step;
  const isChange = texts.some((text) => text.startsWith('+'));
  const text = `${isChange && number > 0 ? '+' : ''}${measureText(number, unit)}`;
  // A change of nothing beside it says that both are changes.
  const asked = isChange ? [text, `+${measureText(0, unit)}`] : [text];
  try {
    return { input: variedInput(read, set, { path, place, texts: asked }), text };
  } catch (error) {
    if (error instanceof StudyFault) return undefined;
    throw error;
  }
}

/**
 * The setups a step beyond each end at which a place stands, all else as there; none where the case takes no such value.
 * @param told  gets the value of each, by its axis
 */
export function beyondEnds(
  read: ReadCase,
  set: readonly Setting[],
  { inputs }: OptimumInputs,
  place: LatticePlace,
  told: Map<number, string>,
): Beyond[] {
  return inputs.flatMap((input, axis): Beyond[] => {
    const last = input.values.length - 1;
    if (last === 0 || (place[axis] !== 0 && place[axis] !== last)) return [];
    const beyond = inputBeyond(read, set, input, place[axis] === last);
    if (beyond === undefined) return [];
    told.set(axis, beyond.text);
    const others = inputs.map((one, a) => (a === axis ? beyond.input : one));
    try {
      const setup = pointSetup(
        read,
        set,
        others,
        place.map((v, a) => (a === axis ? 0 : v)),
      );
      return [{ axis, setup }];
    } catch (error) {
      if (error instanceof StudyFault) return [];
      throw error;
    }
  });
}
