export type { ConstantLaw } from './distributions/constant.ts';
export type { Support } from './distributions/distribution.ts';
export type { LogNormalLaw } from './distributions/log-normal.ts';
export type { NormalLaw } from './distributions/normal.ts';
export { type StudentTLaw, studentCumulative, studentQuantile } from './distributions/student-t.ts';
export type { TriangularLaw } from './distributions/triangular.ts';
export type { TruncatedNormalLaw } from './distributions/truncated-normal.ts';
export type { UniformLaw } from './distributions/uniform.ts';
export {
  countValues,
  emptyHistogram,
  type Histogram,
  histogramQuantile,
  histogramTotal,
  mergeHistogram,
} from './histogram.ts';
export { clopperPearson, drawsToSupport, type Interval, upperBoundZeroHits, wilson } from './interval.ts';
export { kolmogorovDistance, kolmogorovTail } from './kolmogorov.ts';
export {
  centralValue,
  cumulative,
  density,
  fillFromNormals,
  fillQuantiles,
  isBounded,
  isSpread,
  type Law,
  lawProblem,
  mean,
  quantile,
  scaleLaw,
  support,
  variance,
} from './laws.ts';
export { normalCumulative, normalDensity, normalQuantile, normalTail } from './normal.ts';
export { sampleQuantile } from './sample-quantile.ts';
export { seasonProbability } from './season.ts';
export {
  type PointFill,
  type Scramble,
  SOBOL_DIMENSIONS,
  scrambledSobolPoints,
  sobolPoints,
} from './sobol-points.ts';
export { BLOCK, fillUniforms } from './stream.ts';
