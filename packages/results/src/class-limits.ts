import type { DecidedResult } from './schema.ts';

/** What is to be kept, m, and accepted in the runs of one tyre: its class's own, or else the case's. */
export interface ClassLimits {
  reserve: number;
  runRisk: number;
}

/** What is to be kept and accepted in the runs of a tyre. @param tyre  its name; another, or none: the case's */
export function limitsOf(
  { build, accept, tyres }: Pick<DecidedResult, 'build' | 'accept' | 'tyres'>,
  tyre: string | undefined,
): ClassLimits {
  const own = tyres.find(({ name }) => name === tyre)?.inClass;
  return { reserve: own?.reserve ?? build.reserve, runRisk: own?.acceptedRunRisk ?? accept.runRisk };
}

/** The least risk of a run that is accepted in any class: what is in the way more often is in somebody's. */
export const leastAccepted = (result: Pick<DecidedResult, 'build' | 'accept' | 'tyres'>): number =>
  Math.min(...result.tyres.map(({ name }) => limitsOf(result, name).runRisk));
