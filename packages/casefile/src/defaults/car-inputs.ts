import { type CarRow, type Each, type Group, JUDGEMENT, type LawText, type Prior } from './row.ts';

type Bounds = Prior['range'];

/** Mandatory: the shop can weigh or measure it, so nothing is assumed. */
const given = (...range: Bounds): Prior => ({ range, basis: 'the case must give it' });
const prior = (range: Bounds, law: LawText, basis = JUDGEMENT): Prior => ({ range, law, basis });
/** The spread holds about what the instant centre gives. */
const linked = (range: Bounds, law: LawText, spread: string): Prior => ({
  range,
  law,
  spread,
  basis: JUDGEMENT,
});

const row = (
  name: CarRow['name'],
  path: string,
  label: string,
  kind: CarRow['kind'],
  [group, each]: readonly [Group, Each],
  its: Prior,
  about?: string,
): CarRow => ({
  name,
  path,
  label,
  kind,
  group,
  each,
  prior: its,
  ...(about === undefined ? {} : { about }),
});

const CAR = ['car', 'car'] as const;
const BUILDER = ['builder', 'car'] as const;
const RUN = ['day', 'run'] as const;
const DRIVING = ['car', 'run'] as const;

const half = (sd: string): LawText => ({ law: 'truncated', mean: '0 in', sd, low: '0 in', each: 'run' });
const slip = (median: number, cov: number): LawText => ({ law: 'log-normal', median, cov, each: 'run' });
const overshoot: LawText = { law: 'triangular', low: 1, mode: 1.3, high: 1.6, each: 'run' };

/** Mass, aero and suspension: what the car is. */
const chassis: readonly CarRow[] = [
  row('mass', 'car.mass', 'mass with driver and fuel', 'mass', CAR, given('1000 lb', '6000 lb')),
  row('rearShare', 'car.rearShare', 'share of the weight on the rear axle', 'ratio', CAR, given(0.3, 0.8)),
  row('wheelbase', 'car.wheelbase', 'wheelbase', 'length', CAR, given('80 in', '320 in')),
  row(
    'cgHeight',
    'car.cgHeight',
    'height of the centre of gravity',
    'length',
    CAR,
    prior(['6 in', '40 in'], { law: 'normal', mean: '20 in', sd: '1 in', each: 'car' }),
  ),
  row(
    'rollingCoefficient',
    'car.rollingCoefficient',
    'rolling resistance over weight',
    'ratio',
    CAR,
    prior([0, 0.1], { law: 'log-normal', median: 0.015, cov: 0.2, each: 'car' }),
  ),
  row(
    'dragArea',
    'aero.dragArea',
    'drag area C_d A',
    'area',
    CAR,
    prior(['0.1 m2', '2.5 m2'], { law: 'log-normal', median: '0.55 m2', cov: 0.1, each: 'car' }),
  ),
  row(
    'dragHeight',
    'aero.dragHeight',
    "height of the drag's line of action",
    'length',
    CAR,
    prior(['4 in', '60 in'], { law: 'normal', mean: '22 in', sd: '2 in', each: 'car' }),
  ),
  row(
    'downforceArea',
    'aero.downforceArea',
    'rear downforce area C_z A',
    'area',
    CAR,
    given('-0.5 m2', '5 m2'),
    'A car without a wing still says so: 0 m2. Instead of it: rearDownforce',
  ),
  row(
    'wheelRate',
    'suspension.wheelRate',
    'wheel rate, per side',
    'stiffness',
    CAR,
    prior(['20 lbf/in', '4000 lbf/in'], { law: 'log-normal', median: '190 lbf/in', cov: 0.08, each: 'car' }),
    'At the wheel, not at the spring',
  ),
  row(
    'bumpTravel',
    'suspension.bumpTravel',
    'free bump travel to the stop',
    'length',
    CAR,
    prior(['0 in', '10 in'], { law: 'truncated', mean: '2.2 in', sd: '0.2 in', low: '0 in', each: 'car' }),
    'From rest, at the wheel',
  ),
  row(
    'stopRate',
    'suspension.stopRate',
    'rate that the stop adds, per side',
    'stiffness',
    CAR,
    prior(['100 lbf/in', '100000 lbf/in'], {
      law: 'log-normal',
      median: '2500 lbf/in',
      cov: 0.2,
      each: 'car',
    }),
  ),
  row(
    'droopTravel',
    'suspension.droopTravel',
    'droop travel',
    'length',
    CAR,
    prior(['0 in', '12 in'], { law: 'truncated', mean: '3 in', sd: '0.3 in', low: '0 in', each: 'car' }),
    'From rest, at the wheel',
  ),
  row(
    'antiSquat',
    'suspension.antiSquat',
    'anti-squat',
    'ratio',
    CAR,
    linked([-1, 4], { law: 'normal', mean: 0.85, sd: 0.1, each: 'car' }, '0.05'),
    'Share of the weight transfer by thrust that the links carry. Instead of it: instantCentre',
  ),
  row(
    'axlePathSlope',
    'suspension.axlePathSlope',
    'forward movement of the axle per unit of bump',
    'ratio',
    CAR,
    linked([-1, 1], { law: 'normal', mean: 0.08, sd: 0.02, each: 'car' }, '0.01'),
    'Instead of it: instantCentre',
  ),
  row(
    'bushingGive',
    'suspension.bushingGive',
    'forward give of the axle at full thrust',
    'length',
    CAR,
    prior(['0 in', '1 in'], { law: 'truncated', mean: '0.1 in', sd: '0.05 in', low: '0 in', each: 'car' }),
  ),
  row(
    'torqueRoll',
    'suspension.torqueRoll',
    'extra drop of the worse side from driveshaft torque',
    'length',
    CAR,
    prior(['0 in', '4 in'], { law: 'truncated', mean: '0.8 in', sd: '0.5 in', low: '0 in', each: 'car' }),
    'At full thrust. This default is for a car without an anti-roll bar; with one: mean 0.15 in, sd 0.1 in',
  ),
];

/** With an anti-roll bar in place of `torqueRoll`'s own law. */
export const TORQUE_ROLL_WITH_BAR: LawText = {
  law: 'truncated',
  mean: '0.15 in',
  sd: '0.1 in',
  low: '0 in',
  each: 'car',
};

/** Factor on the point mass's own acceleration at the finish, in place of a case's `finishAcceleration`. */
export const FINISH_ACCELERATION_FACTOR: LawText = { law: 'log-normal', median: 1, cov: 0.11, each: 'run' };

/** What the builder can get wrong. */
const build: readonly CarRow[] = [
  row(
    'addedMass',
    'build.addedMass',
    'mass on the rear axle that was missing at the build',
    'mass',
    BUILDER,
    prior(['-400 lb', '600 lb'], { law: 'constant', value: '0 lb', each: 'car' }),
    'Driver, fuel, ballast; positive when it comes on later',
  ),
  row(
    'topHeightError',
    'build.topHeightError',
    'tub top above where it was meant to be',
    'length',
    BUILDER,
    prior(['-2 in', '2 in'], { law: 'normal', mean: '0 in', sd: '0.1 in', each: 'car' }),
  ),
  row(
    'centreError',
    'build.centreError',
    'tub centre ahead of where it was meant to be',
    'length',
    BUILDER,
    prior(['-2 in', '2 in'], { law: 'normal', mean: '0 in', sd: '0.1 in', each: 'car' }),
  ),
];

/** What a run and its day bring. */
const run: readonly CarRow[] = [
  row('trapSpeed', 'run.trapSpeed', 'speed at the finish', 'speed', DRIVING, given('30 mph', '350 mph')),
  row(
    'launchAcceleration',
    'run.launchAcceleration',
    'acceleration while grip limits',
    'acceleration',
    DRIVING,
    prior(['0.3 g', '6 g'], { law: 'triangular', low: '1.8 g', mode: '2.6 g', high: '3.4 g', each: 'run' }),
  ),
  row(
    'finishAcceleration',
    'run.finishAcceleration',
    'acceleration at the finish',
    'acceleration',
    DRIVING,
    { range: ['-1 g', '4 g'], basis: JUDGEMENT },
    'Left out: what a power- and grip-limited point mass gives, times a log-normal factor (median 1, cov 0.11)',
  ),
  row(
    'slipAtLaunch',
    'run.slipAtLaunch',
    'slip at the launch',
    'ratio',
    DRIVING,
    prior([0, 2], slip(0.15, 0.4)),
  ),
  row(
    'slipUnderway',
    'run.slipUnderway',
    'slip at the gear change and in mid-track',
    'ratio',
    DRIVING,
    prior([0, 1], slip(0.08, 0.4)),
  ),
  row(
    'slipGripLost',
    'run.gripLost.slip',
    'slip when grip is lost in mid-track',
    'ratio',
    DRIVING,
    prior([0, 3], { law: 'uniform', low: 0.2, high: 0.5, each: 'run' }),
  ),
  row(
    'slipAtFinish',
    'run.slipAtFinish',
    'slip at the finish',
    'ratio',
    DRIVING,
    // cov of a log-normal law with a log standard deviation of 0.4: √(e^0.16 − 1)
    prior([0, 1], slip(0.05, 0.4165)),
  ),
  row(
    'burnoutSpeed',
    'run.burnoutSpeed',
    'tread speed in the burnout',
    'speed',
    DRIVING,
    prior(['5 m/s', '100 m/s'], {
      law: 'triangular',
      low: '30 m/s',
      mode: '45 m/s',
      high: '60 m/s',
      each: 'run',
    }),
  ),
  row(
    'burnoutThrust',
    'run.burnoutThrust',
    'thrust in the burnout over the weight on the rear axle',
    'ratio',
    DRIVING,
    prior([0, 2], { law: 'triangular', low: 0.1, mode: 0.2, high: 0.4, each: 'run' }),
  ),
  row(
    'gearOvershoot',
    'run.gearOvershoot',
    'overshoot when the thrust comes back',
    'ratio',
    DRIVING,
    prior([1, 3], overshoot),
  ),
  row(
    'liftOvershoot',
    'run.liftOvershoot',
    'overshoot at the lift and at the parachute',
    'ratio',
    DRIVING,
    prior([1, 3], overshoot),
  ),
  row(
    'chuteDeceleration',
    'run.chuteDeceleration',
    'parachute pull over mass',
    'acceleration',
    DRIVING,
    prior(['0 g', '6 g'], { law: 'triangular', low: '1.5 g', mode: '2.2 g', high: '3 g', each: 'run' }),
    'A car without a parachute: 0 g',
  ),
  row(
    'chuteHeight',
    'run.chuteHeight',
    "height of the parachute's attachment",
    'length',
    ['car', 'car'],
    prior(['0 in', '80 in'], { law: 'normal', mean: '0.6 m', sd: '0.05 m', each: 'car' }),
  ),
  row('bump', 'run.bump', 'bump allowance', 'length', RUN, prior(['0 in', '5 in'], half('0.25 in'))),
  row(
    'airTemperature',
    'weather.airTemperature',
    'air temperature',
    'temperature',
    RUN,
    prior(['-4 degF', '131 degF'], { law: 'normal', mean: '77 degF', sd: '12 degF', each: 'run' }),
  ),
  row(
    'stationPressure',
    'weather.stationPressure',
    'station pressure',
    'pressure',
    RUN,
    prior(['60 kPa', '108 kPa'], { law: 'normal', mean: '98.5 kPa', sd: '1.5 kPa', each: 'run' }),
    'Absolute, at the track, not corrected to sea level',
  ),
  row(
    'humidity',
    'weather.humidity',
    'relative humidity',
    'ratio',
    RUN,
    prior([0, 1], { law: 'truncated', mean: 0.5, sd: 0.18, low: 0.05, high: 1, each: 'run' }),
  ),
];

/** Every input of the car that a case may give. `gripLostToss` alone is not among them: it is a throw of a die. */
export const CAR_INPUT_ROWS: readonly CarRow[] = [...chassis, ...build, ...run];
