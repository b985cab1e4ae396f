import type { Each, LawText } from '@tubgap/casefile';

/** A number of a case file in four figures, with its unit: '3600 lb', '0.46'. */
export const figure = (value: number, unit: string): string | number => {
  const rounded = Number(value.toPrecision(4));
  return unit === '' ? rounded : `${rounded} ${unit}`;
};

/** Standard deviations of a normal law between the ends of its middle 90 %. */
const NINETY_PER_CENT = 2 * 1.6449;

/** A normal law whose middle 90 % is a range. */
export const normalOf = (low: number, high: number, unit: string, each: Each): LawText => ({
  law: 'normal',
  mean: figure((low + high) / 2, unit),
  sd: figure((high - low) / NINETY_PER_CENT, unit),
  each,
});

/** The same, cut at nought. */
export const positiveOf = (low: number, high: number, unit: string, each: Each): LawText => ({
  law: 'truncated',
  mean: figure((low + high) / 2, unit),
  sd: figure((high - low) / NINETY_PER_CENT, unit),
  low: figure(0, unit),
  each,
});

/** A log-normal law whose middle 90 % is a range above nought; cov = √(e^{σ²} − 1). */
export function logNormalOf(low: number, high: number, unit: string, each: Each): LawText {
  const sigma = Math.log(high / low) / NINETY_PER_CENT;
  const cov = Number(Math.sqrt(Math.expm1(sigma ** 2)).toPrecision(2));
  return { law: 'log-normal', median: figure(Math.sqrt(low * high), unit), cov, each };
}

/** A uniform law over a range. */
export const uniformOf = (low: number, high: number, unit: string, each: Each): LawText => ({
  law: 'uniform',
  low: figure(low, unit),
  high: figure(high, unit),
  each,
});

/** A triangular law new every run. */
export const triangularOf = (low: number, mode: number, high: number, unit: string): LawText => ({
  law: 'triangular',
  low: figure(low, unit),
  mode: figure(mode, unit),
  high: figure(high, unit),
  each: 'run',
});
