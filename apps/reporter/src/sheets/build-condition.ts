import type { Result } from '@tubgap/results';
import { bothText } from './lengths.ts';

const PSI = 6894.757293168361;

/** A gauge pressure as a shop sets it: '6.0 psi'. */
export const psiText = (pascal: number): string => `${(pascal / PSI).toFixed(1)} psi`;

const shown = (result: Result, path: string): string | undefined =>
  result.inputs.find((input) => input.path === path && input.tyre === '')?.shown;

/** Words that a law carries for a report's reader but not for the bench. */
const plain = (words: string): string =>
  words.replace(/, (one value per car|new every run|taken as exact)$/, '');

/** How the car stands when a height of these papers is measured: one sentence each. */
export function buildCondition(result: Result): string[] {
  const { build, inputs } = result;
  const mass = shown(result, 'car.mass');
  const missing = inputs.find((input) => input.path === 'build.addedMass');
  const axle = bothText(build.axleHeight, 'nearest');
  return [
    `${build.tyre} on both sides at ${psiText(build.pressure)}, standing still on a level floor, settled by rolling.`,
    missing === undefined || missing.middle === 0
      ? `Driver, fuel and ballast in, as it races${mass === undefined ? '' : ` (mass: ${plain(mass)})`}.`
      : `Without what the case leaves out at the build (on the rear axle: ${plain(missing.shown)}).`,
    `Axle centre ${axle} above the track${build.axleHeightMeasured ? ', as measured' : ', as reckoned: measure it'}.`,
  ];
}
