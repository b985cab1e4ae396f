import type { Result } from '@tubgap/results';
import type { QuantityKind } from '@tubgap/units';
import { figuresOf } from '../figures-of.ts';

/** The middle of an input of the car in the units of the case: '2,480 lb'. */
function middleText(result: Result, path: string): string | undefined {
  const input = result.inputs.find((one) => one.path === path && one.tyre === '');
  return input && figuresOf(result).quantity(input.middle, input.kind as QuantityKind);
}

/** How the car stands when a height of these papers is measured: one sentence each. */
export function buildCondition(result: Result): string[] {
  const { both, pressureText } = figuresOf(result);
  const { build, inputs } = result;
  const mass = middleText(result, 'car.mass');
  const missing = inputs.find((input) => input.path === 'build.addedMass');
  const axle = both(build.axleHeight, 'nearest');
  return [
    `${build.tyre} on both sides at ${pressureText(build.pressure)}, standing still on a level floor, settled by rolling.`,
    missing === undefined || missing.middle === 0
      ? `Driver, fuel and ballast in, as it races${mass === undefined ? '' : ` (${mass} in all)`}.`
      : `Without what the case leaves out at the build (on the rear axle: ${figuresOf(result).quantity(missing.middle, missing.kind as QuantityKind)}).`,
    `Axle centre ${axle} above the track${build.axleHeightMeasured ? ', as measured' : ', as reckoned: measure it'}.`,
  ];
}
