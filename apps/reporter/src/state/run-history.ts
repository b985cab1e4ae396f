import type { ClearanceState } from '@tubgap/core';
import {
  type CaseSetup,
  choiceOf,
  FIRST_PLACE,
  followRun,
  momentsOf,
  type RunPlace,
} from '@tubgap/simulation';
import type { SheetTable } from '@tubgap/wording';

/** Places along the track, m apart. */
const STEP = 1;

/** Columns of a state, SI; its unit stands behind the name. */
const COLUMNS: readonly (readonly [name: string, value: (state: ClearanceState) => number])[] = [
  ['car_speed_m_s', ({ carSpeed }) => carSpeed],
  ['acceleration_m_s2', ({ acceleration }) => acceleration],
  ['downforce_N', ({ downforce }) => downforce],
  ['tyre_load_N', ({ tyreLoad }) => tyreLoad],
  ['tyre_thrust_N', ({ tyreThrust }) => tyreThrust],
  ['spring_force_N', ({ springForce }) => springForce],
  ['pressure_Pa', ({ pressure }) => pressure],
  ['growth_m', ({ growth }) => growth],
  ['grown_radius_m', ({ grownRadius }) => grownRadius],
  ['body_drop_m', ({ bodyDrop }) => bodyDrop],
  ['bump_m', ({ bump }) => bump],
  ['axle_forward_m', ({ forward }) => forward],
  ['load_bulge_m', ({ loadBulge }) => loadBulge],
  ['thrust_bulge_m', ({ thrustBulge }) => thrustBulge],
  ['tight_angle_rad', ({ tightAngle }) => tightAngle],
  ['gap_m', ({ gap }) => gap],
  ['required_height_m', ({ requiredHeight }) => requiredHeight],
  ['contact_height_m', ({ contactHeight }) => contactHeight],
];

/**
 * A run with all inputs at their middle values as a table: first every moment of it that happens, then every metre of the track.
 * What a gear change, lost grip or the lift adds for an instant is in its own moment alone.
 */
export function runHistory(setup: CaseSetup, place: Omit<RunPlace, 'setup'>): SheetTable {
  const at = { setup, ...place };
  const row = (moment: string, metres: number | '', state: ClearanceState) => [
    moment,
    metres,
    ...COLUMNS.map(([, value]) => {
      const number = value(state);
      return number === Number.POSITIVE_INFINITY ? 'inf' : number;
    }),
  ];
  const run = followRun(setup, choiceOf(at, undefined));
  const places = Array.from(
    { length: Math.floor((run.finish - FIRST_PLACE) / STEP) + 1 },
    (_, k) => FIRST_PLACE + k * STEP,
  );
  if (places.at(-1)! < run.finish) places.push(run.finish);
  return {
    header: ['moment', 'place_m', ...COLUMNS.map(([name]) => name)],
    rows: [
      ...momentsOf(at, undefined).map(({ moment, state }) => row(moment, '', state)),
      ...places.map((metres) => row('', metres, run.at(metres))),
    ],
  };
}
