import type { LawText } from '@tubgap/casefile';
import { KMH, MPH, POUND, parseMeasure, STANDARD_GRAVITY } from '@tubgap/units';
import type { Told } from './answers.ts';
import { launchLaw } from './kinds-of-car.ts';
import { figure } from './law-text.ts';
import { type Estimate, launchOf, launchOfRun, lineSpeed } from './slip.ts';

/** Spreads of what is told on a phone, judgement: share of a weight, of a speed (its correction to the line included). */
const MASS_SPREAD = 0.01;
const SPEED_SPREAD = 0.015;

const unitOf = ({ text }: Told): string => parseMeasure(text)?.unit ?? '';

/** A weight as told. */
export function massTold(mass: Told): LawText {
  const [unit, factor] = unitOf(mass) === 'kg' ? (['kg', 1] as const) : (['lb', POUND] as const);
  return {
    law: 'normal',
    mean: mass.text,
    sd: figure((MASS_SPREAD * mass.value) / factor, unit),
    each: 'car',
  };
}

/** Speed at the line from what was told: its law, and how it came about. */
export function speedTold(
  speed: Told,
  is: 'slip' | 'line',
  distance: number,
): { law: LawText; words: string } {
  const value = is === 'line' ? speed.value : lineSpeed(speed.value, distance).value;
  const unit = unitOf(speed) === 'mph' ? 'mph' : 'km/h';
  const text = (metresPerSecond: number) => figure(metresPerSecond / (unit === 'mph' ? MPH : KMH), unit);
  const percent = ((value / speed.value - 1) * 100).toFixed(1);
  const words =
    is === 'line'
      ? `told: ${speed.text} at the line`
      : `told: ${speed.text} on the slip, the mean of the last 66 ft; the line is passed ${percent} % faster`;
  const law: LawText = { law: 'normal', mean: text(value), sd: text(SPEED_SPREAD * value), each: 'run' };
  return { law, words: `${words}; spread: judgement` };
}

/** The law of a launch from its mean, and that mean in words. */
function launchFrom({ value, low, high }: Estimate): { law: LawText; mean: string } {
  const inG = (a: number) => a / STANDARD_GRAVITY;
  return {
    law: launchLaw({ value: inG(value), low: inG(low), high: inG(high) }),
    mean: `${inG(value).toFixed(2)} g`,
  };
}

/** What is told of how a car runs. */
export interface RunTold {
  sixtyFoot?: Told | undefined;
  elapsed?: Told | undefined;
  speed: Told;
}

/**
 * The launch from a 60-foot time, else from elapsed time and speed: its law, and how it came about. Undefined where neither
 * tells it.
 */
export function launchTold(
  { sixtyFoot, elapsed, speed }: RunTold,
  is: 'slip' | 'line',
  distance: number,
): { law: LawText; words: string } | undefined {
  if (sixtyFoot) {
    const { law, mean } = launchFrom(launchOf(sixtyFoot.value).acceleration);
    return {
      law,
      words: `told: 60 ft in ${sixtyFoot.text}, a mean of ${mean} after 1 ft of roll-out; the peak: judgement`,
    };
  }
  if (!elapsed) return undefined;
  const atLine = is === 'line' ? speed.value : lineSpeed(speed.value, distance).value;
  const launch = launchOfRun(elapsed.value, atLine, distance);
  if (launch === undefined) return undefined;
  const { law, mean } = launchFrom(launch);
  return {
    law,
    words: `told: ${elapsed.text} at ${speed.text}, so about ${mean} while grip limits and constant power then; the peak: judgement`,
  };
}
