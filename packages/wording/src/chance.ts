import { HARDLY_EVER, oneIn } from '@tubgap/units';

/** How many runs do something: '1 in 54 runs', 'hardly any run'. */
export const ofRuns = (chance: number): string =>
  chance < HARDLY_EVER ? 'hardly any run' : `${oneIn(chance)} runs`;
