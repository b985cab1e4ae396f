export type { ConstantLaw } from './distributions/constant.ts';
export type { Support } from './distributions/distribution.ts';
export { type EmpiricalLaw, silvermanBandwidth } from './distributions/empirical.ts';
export type { LogNormalLaw } from './distributions/log-normal.ts';
export type { NormalLaw } from './distributions/normal.ts';
export { type StudentTLaw, studentCumulative, studentQuantile } from './distributions/student-t.ts';
export type { TriangularLaw } from './distributions/triangular.ts';
export type { TruncatedNormalLaw } from './distributions/truncated-normal.ts';
export type { UniformLaw } from './distributions/uniform.ts';
export type { UpdatedLaw } from './distributions/updated.ts';
export { exceedance, firstWithin, type StepSums } from './exceedance.ts';
export { type CentreSearch, searchCentres } from './importance/centres.ts';
export {
  type Centres,
  type MixtureBlock,
  mixtureBlock,
  NO_CENTRES,
  plainDensityRatios,
} from './importance/mixture.ts';
export type { NormalModel } from './importance/model.ts';
export {
  type GroupIndices,
  type IndexEstimate,
  type IndexOptions,
  type Model,
  type SobolIndices,
  sobolIndices,
} from './indices.ts';
export {
  clopperPearson,
  drawsToResolve,
  drawsToSupport,
  type Interval,
} from './interval.ts';
export { kolmogorovTail } from './kolmogorov.ts';
export {
  centralValue,
  cumulative,
  density,
  fillFromNormals,
  isBounded,
  isSpread,
  type Law,
  lawProblem,
  mean,
  type PlainLaw,
  quantile,
  relocateLaw,
  scaleLaw,
  support,
  variance,
} from './laws.ts';
export { normalCumulative, normalDensity, normalQuantile, normalTail } from './normal.ts';
export { choleskyFactor, solveLower, solveUpper } from './posterior/cholesky.ts';
export { type ChainDiagnostics, chainDiagnostics } from './posterior/diagnostics.ts';
export type { LogLikelihood } from './posterior/elliptical-slice.ts';
export { type CurveFit, type FittedCurve, leastSquares } from './posterior/least-squares.ts';
export { normalAtMode } from './posterior/mode.ts';
export { type NormalSummary, normalSummary, type SplitNormal } from './posterior/normal-summary.ts';
export { type NumberSource, numberSource } from './posterior/number-source.ts';
export { type Nest, type NestState, nestState, nodeOf, openNest } from './posterior/pooled/nested-normal.ts';
export {
  type ChainEffort,
  type ChainEnd,
  joinedDraws,
  type PooledDraws,
  pooledChain,
} from './posterior/pooled/pooled-chain.ts';
export {
  type Coordinate,
  type Kind,
  type NormalLikelihood,
  type OrderedModel,
  orderModel,
  type PooledModel,
  type SpreadBlock,
  type Unit,
} from './posterior/pooled/pooled-model.ts';
export { setLeaves } from './posterior/pooled/spread-steps.ts';
export { logMeanLikelihood, pointAt, type UnitLaw, unitLaw } from './posterior/pooled/unit-law.ts';
export type { UnitState } from './posterior/pooled/unit-step.ts';
export {
  bestStart,
  chainsOf,
  type PosteriorDraws,
  type PosteriorOptions,
  pointOf,
  samplePosterior,
} from './posterior/sample-posterior.ts';
export { sampleQuantile } from './sample-quantile.ts';
export { seasonProbability } from './season.ts';
export {
  type PointFill,
  type Scramble,
  SOBOL_DIMENSIONS,
  scrambledSobolPoints,
  sobolPoints,
} from './sobol-points.ts';
export {
  countedProbability,
  countSuffices,
  type Probability,
  SEEN_FROM,
  splitProbability,
  weightsSuffice,
} from './split-probability.ts';
export { BLOCK, fillStandardNormals, fillUniforms } from './stream.ts';
export { type TailInfluence, tailInfluence } from './tail-influence.ts';
