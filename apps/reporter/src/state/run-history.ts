import type { ClearanceState } from '@tubgap/core';
import {
  type CaseSetup,
  choiceOf,
  FIRST_PLACE,
  followRun,
  momentsOf,
  type RunPlace,
} from '@tubgap/simulation';
import { type Column, columnsOf, type SheetTable } from '@tubgap/wording';

/** Places along the track, m apart. */
const STEP = 1;

/** Columns of a state, SI; its unit stands behind the name. */
const COLUMNS: readonly (readonly [
  name: string,
  unit: string,
  about: string,
  value: (state: ClearanceState) => number,
])[] = [
  ['car_speed_m_s', 'm/s', 'speed of the car', ({ carSpeed }) => carSpeed],
  ['acceleration_m_s2', 'm/s2', 'its acceleration', ({ acceleration }) => acceleration],
  ['downforce_N', 'N', 'downforce of the whole car', ({ downforce }) => downforce],
  ['tyre_load_N', 'N', 'vertical force on the tyre', ({ tyreLoad }) => tyreLoad],
  ['tyre_thrust_N', 'N', 'longitudinal force on the tyre', ({ tyreThrust }) => tyreThrust],
  ['spring_force_N', 'N', 'force of the spring at the wheel', ({ springForce }) => springForce],
  ['pressure_Pa', 'Pa', 'gauge pressure of the tyre', ({ pressure }) => pressure],
  ['growth_m', 'm', 'growth of its radius', ({ growth }) => growth],
  ['grown_radius_m', 'm', 'its free radius with the growth', ({ grownRadius }) => grownRadius],
  ['body_drop_m', 'm', 'how far the body has come down', ({ bodyDrop }) => bodyDrop],
  ['bump_m', 'm', 'bump travel of the wheel', ({ bump }) => bump],
  ['axle_forward_m', 'm', 'how far the axle has come forward', ({ forward }) => forward],
  ['load_bulge_m', 'm', 'bulge of the tread by the load', ({ loadBulge }) => loadBulge],
  ['thrust_bulge_m', 'm', 'bulge of the tread by the thrust', ({ thrustBulge }) => thrustBulge],
  [
    'tight_angle_rad',
    'rad',
    'hub angle of the tight point, from straight up, forward positive',
    ({ tightAngle }) => tightAngle,
  ],
  ['gap_m', 'm', 'smallest gap to the tub, before the reserve is taken off', ({ gap }) => gap],
  [
    'required_height_m',
    'm',
    'lowest top height that leaves the reserve; inf: none does',
    ({ requiredHeight }) => requiredHeight,
  ],
  ['contact_height_m', 'm', 'the same for a gap of nothing; inf: none', ({ contactHeight }) => contactHeight],
];

const PLACE_COLUMN = {
  name: 'place_m',
  unit: 'm',
  about: 'place along the track; empty in the rows of moments',
};
/** Columns of the table of a run. */
const HISTORY_COLUMNS: readonly Column[] = [
  ...columnsOf('inch', 'moment'),
  PLACE_COLUMN,
  ...COLUMNS.map(([name, unit, about]) => ({ name, unit, about })),
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
    ...COLUMNS.map(([, , , value]) => {
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
    columns: HISTORY_COLUMNS,
    rows: [
      ...momentsOf(at, undefined).map(({ moment, state }) => row(moment, '', state)),
      ...places.map((metres) => row('', metres, run.at(metres))),
    ],
  };
}
