import {
  carColumn,
  createMomentTable,
  fillMomentTable,
  MOMENT_LENGTH,
  MOMENTS,
  MOMENTS_LENGTH,
  TRANSFER,
} from '@tubgap/core';
import { STANDARD_GRAVITY } from '@tubgap/units';
import { createColumns, fillColumns } from './draws.ts';
import type { RunTyre } from './setup.ts';

/** Launches that are looked at: a share within some 3 %, and quick enough for every point of a sweep. */
const LAUNCHES = 256;
/** Draws of a look that no risk is taken from; always the same ones. */
const SEED = 1;
const STREAMS = 'launches/';

const LAUNCH = MOMENTS.indexOf('launch') * MOMENT_LENGTH;

/** Share of a tyre's launches in which the load moved to the rear axle ends at what the front axle carries. */
export function liftedLaunches(tyre: RunTyre): number {
  const columns = createColumns([tyre]);
  fillColumns([tyre], SEED, STREAMS, 0, [LAUNCHES], 'both', columns);
  const { car } = columns[0]!;
  const moments = createMomentTable(LAUNCHES);
  fillMomentTable(tyre.run, car, LAUNCHES, moments);
  const mass = car[carColumn('mass')]!;
  const rearShare = car[carColumn('rearShare')]!;
  let lifted = 0;
  for (let run = 0; run < LAUNCHES; run++) {
    const frontWeight = mass[run]! * STANDARD_GRAVITY * (1 - rearShare[run]!);
    if (moments[run * MOMENTS_LENGTH + LAUNCH + TRANSFER]! >= frontWeight * (1 - 1e-9)) lifted++;
  }
  return lifted / LAUNCHES;
}
