import type { LawText } from '@tubgap/casefile';
import { KMH, MPH, POUND, parseMeasure, STANDARD_GRAVITY } from '@tubgap/units';
import type { Told } from './answers.ts';
import { launchLaw } from './kinds-of-car.ts';
import { figure } from './law-text.ts';
import { launchOf, lineSpeed } from './slip.ts';

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

/** The launch from a 60-foot time: its law, and how it came about. */
export function launchTold({ value, text }: Told): { law: LawText; words: string } {
  const { acceleration } = launchOf(value);
  const inG = (a: number) => a / STANDARD_GRAVITY;
  const { low, high } = acceleration;
  const law = launchLaw({ value: inG(acceleration.value), low: inG(low), high: inG(high) });
  const mean = inG(acceleration.value).toFixed(2);
  return {
    law,
    words: `told: 60 ft in ${text}, a mean of ${mean} g after 1 ft of roll-out; the peak: judgement`,
  };
}
