import { oneIn } from '@tubgap/units';

/** Rarer than this a figure of a few thousand weighted runs tells nothing but that it is rare. */
const HARDLY = 1e-6;

/** How many runs do something: '1 in 54 runs', 'hardly any run'. */
export const ofRuns = (chance: number): string =>
  chance < HARDLY ? 'hardly any run' : `${oneIn(chance)} runs`;
