import { COMMON, type FieldRow, JUDGEMENT } from './row.ts';

type Rest = Pick<FieldRow, 'value' | 'basis' | 'optional' | 'whole' | 'why' | 'about'>;

const field = (
  path: string,
  label: string,
  kind: FieldRow['kind'],
  range: FieldRow['range'],
  rest: Rest = {},
): FieldRow => ({ path, label, kind, range, ...rest });

const OPTIONAL: Rest = { optional: true };

const carFields: readonly FieldRow[] = [
  field('aero.rearDownforce.force', 'rear downforce', 'force', ['-1000 lbf', '8000 lbf'], {
    about:
      'On the rear axle at the speed and air density beside it; turned into C_z A = 2 F / (ρ v²). A law is welcome',
  }),
  field('aero.rearDownforce.at', 'speed of that downforce', 'speed', ['50 mph', '350 mph']),
  field(
    'aero.rearDownforce.airDensity',
    'air density of that downforce',
    'density',
    ['0.7 kg/m3', '1.5 kg/m3'],
    {
      value: '1.15 kg/m3',
      basis: JUDGEMENT,
    },
  ),
  field('suspension.instantCentre.ahead', 'side-view instant centre ahead of the axle', 'length', [
    '5 in',
    '400 in',
  ]),
  field('suspension.instantCentre.height', 'side-view instant centre above the track', 'length', [
    '-10 in',
    '60 in',
  ]),
];

const buildFields: readonly FieldRow[] = [
  field('build.pressure', 'pressure at the build', 'pressure', ['3 psi', '45 psi'], {
    about: 'Gauge, in the build tyre when the place of the tub was measured',
  }),
  field('build.axleHeight', 'axle height above the track at rest', 'length', ['8 in', '22 in'], {
    ...OPTIONAL,
    about: 'Left out: free radius less the drop under the static load',
  }),
  field('build.reserve', 'gap that must remain', 'length', ['0 in', '3 in'], {
    value: '0.5 in',
    basis: JUDGEMENT,
    about: 'For debris, rubber build-up, flex of the tub under air',
  }),
  field(
    'build.existing.topHeight',
    'top of the tub that is in the car above the track',
    'length',
    ['20 in', '80 in'],
    { about: 'Its inside, the car standing as at the build' },
  ),
];

const runFields: readonly FieldRow[] = [
  field('run.distance', 'length of the track', 'length', ['300 ft', '1760 ft'], {
    value: '1320 ft',
    basis: `${JUDGEMENT}; a quarter mile`,
  }),
  field('run.gripLost.chance', 'chance that a run loses grip in mid-track', 'ratio', [0, 1], {
    value: 0.1,
    basis: JUDGEMENT,
  }),
];

const tyreFields: readonly FieldRow[] = [
  field('tyres[].runsPerSeason', 'runs in a season on this tyre', 'ratio', [1, 1000], {
    whole: true,
    why: 'more are several seasons, or another tyre',
    value: 100,
    basis: `${JUDGEMENT}; a busy season`,
  }),
  field(
    'tyres[].referencePressure',
    'pressure of the measured radius and deflection',
    'pressure',
    ['3 psi', '45 psi'],
    {
      ...OPTIONAL,
      about: 'Gauge. Left out: from the catalogue',
    },
  ),
  field('tyres[].deflection', 'drop of the axle under load', 'length', ['0.1 in', '5 in'], {
    ...OPTIONAL,
    about: 'At the reference pressure. Left out: from the catalogue',
  }),
  field('tyres[].deflectionLoad', 'load of the measured deflection', 'force', ['100 lbf', '6000 lbf'], {
    ...OPTIONAL,
    about: 'Left out: from the catalogue',
  }),
  field('tyres[].freeDiameter', 'free diameter', 'length', ['16 in', '44 in'], {
    about: 'Inflated to the reference pressure, unloaded, standing',
  }),
  field('tyres[].rollout', 'rollout', 'length', ['50 in', '139 in'], {
    ...OPTIONAL,
    about: 'Taped round the free tyre at the reference pressure, 2π times the free radius. A law is welcome',
  }),
  field('tyres[].rim.width', 'width of the rim between its flanges', 'length', ['3 in', '24 in'], {
    ...OPTIONAL,
    about: 'Left out: from the catalogue',
  }),
  field('tyres[].rim.backspacing', "from the rim's inner edge to the mounting face", 'length', [
    '0 in',
    '20 in',
  ]),
  field('tyres[].rim.flange', 'thickness of a rim flange', 'length', ['0 in', '1.5 in'], {
    value: '0.5 in',
    basis: COMMON,
  }),
];

const tubFields: readonly FieldRow[] = [
  field('tubCentreForward', "tub's centre ahead of the axle", 'length', ['-12 in', '12 in'], {
    value: '0 in',
    basis: `${JUDGEMENT}; the tub stands over the axle`,
  }),
  field('tubs[].centreForward', "this tub's centre ahead of the axle", 'length', ['-12 in', '12 in'], {
    ...OPTIONAL,
    about: 'Left out: tubCentreForward',
  }),
  field('tubs[].notches[].angle', "angle of the notch from the tub's top, forward positive", 'angle', [
    '-75 deg',
    '75 deg',
  ]),
  field('tubs[].notches[].depth', 'how far the flat of the notch stands inside the arc', 'length', [
    '0 in',
    '8 in',
  ]),
  field('tubs[].insideDiameter', 'inside diameter of the bare skin', 'length', ['24 in', '72 in']),
  field('tubs[].liner', 'thickness of a strip or liner inside', 'length', ['0 in', '1.5 in'], {
    value: '0.125 in',
    basis: `${JUDGEMENT}; thicker than most, which takes room`,
  }),
  field('tubs[].arcExtent', 'extent of the arc', 'angle', ['60 deg', '180 deg'], {
    why: 'a tub that wraps further closes in again below its centre, which is not modelled',
    value: '180 deg',
    basis: `${COMMON}; a half circle`,
  }),
  field('tubs[].legLength', 'length of the straight legs', 'length', ['0 in', '36 in'], {
    value: '8 in',
    basis: `${JUDGEMENT}; the longer of the usual ones, whose ends a tyre meets sooner`,
  }),
  field('tubs[].insideWidth', 'inside width', 'length', ['5 in', '40 in']),
  field('tubs[].skinThickness', 'thickness of the skin', 'length', ['0.01 in', '0.5 in'], {
    value: '0.05 in',
    basis: `${JUDGEMENT}; the thicker of the usual sheets`,
  }),
  field('tubs[].arealDensity', 'mass of the skin per area', 'areal density', ['0.05 lb/ft2', '10 lb/ft2'], {
    value: '0.7 lb/ft2',
    basis: 'derived: aluminium sheet, 2,700 kg/m³, 0.05 in thick',
  }),
];

const placeFields: readonly FieldRow[] = [
  field('heights[]', 'top height of the tub above the track', 'length', ['20 in', '80 in']),
  field('heights.from', 'lowest top height', 'length', ['20 in', '80 in']),
  field('heights.to', 'highest top height', 'length', ['20 in', '80 in']),
  field('heights.step', 'step between top heights', 'length', ['0.05 in', '10 in']),
  field('hardPoints[].ahead', 'distance ahead of the axle at rest', 'length', ['-120 in', '120 in'], {
    about: 'Negative: behind it',
  }),
  field('hardPoints[].above', 'distance above the axle at rest', 'length', ['-30 in', '80 in']),
  field('hardPoints[].radius', 'radius', 'length', ['0.05 in', '20 in']),
  field('sideRoom.innerPanel', 'from the mounting face inward to the panel or frame rail', 'length', [
    '0 in',
    '40 in',
  ]),
  field('sideRoom.bodySide', 'from the mounting face outward to the body side', 'length', ['0 in', '40 in']),
  field('sideRoom.sidePlay', 'sideways play of the axle, each way', 'length', ['0 in', '3 in'], {
    value: '0.15 in',
    basis: JUDGEMENT,
  }),
  field('sideRoom.sideReserve', 'gap that must remain at the side', 'length', ['0 in', '3 in'], {
    value: '0.5 in',
    basis: JUDGEMENT,
  }),
  field('envelope.highestTop', 'highest place of a tub above the track', 'length', ['20 in', '80 in'], {
    ...OPTIONAL,
    about: 'Outside of its skin, under the window or the body, the car at rest as at the build',
  }),
  field('envelope.lowestLeg', 'lowest place of a tub above the track', 'length', ['0 in', '40 in'], {
    ...OPTIONAL,
    about: 'Where the floor or the rail ends its legs; longer legs are trimmed',
  }),
  field('envelope.furthestAhead', 'how far ahead of the axle a tub may reach', 'length', ['5 in', '60 in'], {
    ...OPTIONAL,
    about: 'Outside of its skin, the car at rest',
  }),
  field('envelope.furthestBehind', 'how far behind the axle a tub may reach', 'length', ['5 in', '60 in'], {
    ...OPTIONAL,
    about: 'Outside of its skin, the car at rest',
  }),
];

const logFields: readonly FieldRow[] = [
  field('runLog.axleRatio', 'turns of the driveshaft for one of the rear wheels', 'ratio', [1, 12], {
    about: 'As 4.29',
  }),
  field('runLog.travelRatio', 'wheel travel for one inch of the travel sensor', 'ratio', [0.2, 5], {
    ...OPTIONAL,
    about: 'Left out: 1, the sensor reads at the wheel',
  }),
];

const riskFields: readonly FieldRow[] = [
  field('accept.runRisk', 'chance of a touch in one run that the shop accepts', 'ratio', [1e-7, 0.5], {
    about: 'As "1 in 2000" or 0.0005',
    value: '1 in 2000',
    basis: `${JUDGEMENT}; what a shop accepts is its own to say`,
  }),
  field('accept.seasonRisk', 'chance of a touch in one season that the shop accepts', 'ratio', [1e-6, 0.9], {
    about: 'As "1 in 20" or 0.05',
    value: '1 in 20',
    basis: `${JUDGEMENT}; what a shop accepts is its own to say`,
  }),
  field('simulation.draws', 'simulated runs', 'ratio', [1000, 100_000_000], {
    whole: true,
    value: 200_000,
    why: 'the most take about an hour on one core, ten times as many about half a day',
  }),
  field('simulation.cars', 'simulated cars among which the runs are shared out', 'ratio', [10, 1_000_000], {
    whole: true,
    value: 2000,
  }),
  field('simulation.seed', 'seed of the random numbers', 'ratio', [0, 1_000_000_000], {
    whole: true,
    value: 1,
  }),
];

/** Every number of a case, of its lists and of the catalogues that is taken as exact. */
export const EXACT_FIELDS: readonly FieldRow[] = [
  ...carFields,
  ...buildFields,
  ...runFields,
  ...tyreFields,
  ...tubFields,
  ...placeFields,
  ...logFields,
  ...riskFields,
];
