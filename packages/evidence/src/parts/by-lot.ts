import type { NumberSource } from '@tubgap/statistics';

/** Some of the common runs, taken by lot: what really happened to a car. */
export const byLot = (count: number, runCount: number, { uniform }: NumberSource): number[] =>
  Array.from({ length: count }, () => Math.floor(uniform() * runCount));
