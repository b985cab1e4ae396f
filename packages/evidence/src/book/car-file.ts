import type { LearnedFile } from '@tubgap/casefile';
import { openCarHeights } from '../car-heights.ts';
import { agreementOf, learnedFile, type Origin, summarise } from '../learned.ts';
import { wholeCarSpace } from '../whole-car.ts';
import { carBelief } from './car-belief.ts';
import { largestTub } from './new-car.ts';
import type { BookBelief } from './sample-book.ts';

/**
 * What the book learned of one of its cars, its own readings and those of the others in it: a learned file like any other.
 * The heights of the short form are held against those in the largest tub of its case with its build tyre.
 * @throws RangeError when the book has no such car with readings
 */
export function carFile(
  belief: BookBelief,
  name: string,
  origins: readonly Origin[],
  madeBy: string,
): LearnedFile {
  const believed = carBelief(belief, name);
  const { car } = belief.cars.find((one) => one.car.name === name)!;
  const { source, setup } = car;
  const whole = wholeCarSpace(setup, belief.seed);
  const heights = openCarHeights(setup, setup.buildIndex, largestTub(car));
  const summary = summarise(believed, whole, heights, belief.seed);
  const file = learnedFile(source, believed, summary, agreementOf(believed), origins, madeBy, belief.seed);
  const method = `partial pooling over ${belief.cars.length} cars of a shop`;
  return { ...file, sampling: { ...file.sampling, method } };
}
