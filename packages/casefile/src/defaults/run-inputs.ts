import { given, prior, row } from './car-row.ts';
import { type CarRow, JUDGEMENT, type LawText } from './row.ts';

const RUN = ['day', 'run'] as const;
const DRIVING = ['car', 'run'] as const;

const slip = (median: number, cov: number): LawText => ({ law: 'log-normal', median, cov, each: 'run' });
const overshoot: LawText = { law: 'triangular', low: 1, mode: 1.3, high: 1.6, each: 'run' };

/** Factor on the point mass's own acceleration at the finish, in place of a case's `finishAcceleration`. */
export const FINISH_ACCELERATION_FACTOR: LawText = { law: 'log-normal', median: 1, cov: 0.11, each: 'run' };

/** What a run and its day bring. */
export const RUN_INPUTS: readonly CarRow[] = [
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
  row(
    'bump',
    'run.bump',
    'bump allowance',
    'length',
    RUN,
    prior(['0 in', '5 in'], { law: 'truncated', mean: '0 in', sd: '0.25 in', low: '0 in', each: 'run' }),
  ),
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
