import type { Case, CaseTub } from '@tubgap/casefile';
import type { Limit } from './limit.ts';

/**
 * The smallest tub of a shop's list that is at least as large inside as a limit of its diameter asks for: by size alone, for
 * its arc, legs and liner are its own. Undefined where there is no such limit, or no such tub.
 */
export function standardTub({ tubs }: Case, limits: readonly Limit[]): CaseTub | undefined {
  const least = limits.find(({ code }) => code === 'diameter')?.value ?? undefined;
  if (least === undefined) return undefined;
  return tubs.filter(({ diameter }) => diameter >= least - 1e-9).sort((a, b) => a.diameter - b.diameter)[0];
}
