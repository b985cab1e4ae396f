import { given, prior, row } from './car-row.ts';
import type { CarRow, LawText } from './row.ts';

const CAR = ['car', 'car'] as const;
const BUILDER = ['builder', 'car'] as const;

/**
 * Mass, aero and suspension: what the car is. The spread of antiSquat and axlePathSlope holds about what an instant
 * centre gives.
 */
export const CHASSIS_INPUTS: readonly CarRow[] = [
  row('mass', 'car.mass', 'mass with driver and fuel', 'mass', CAR, given('1000 lb', '6000 lb')),
  row(
    'rearShare',
    'car.rearShare',
    'share of the weight on the rear axle',
    'ratio',
    CAR,
    prior([0.3, 0.8], { law: 'normal', mean: 0.5, sd: 0.03, each: 'car' }),
    'The default is for a car with a body; weigh an open one',
  ),
  row(
    'wheelbase',
    'car.wheelbase',
    'wheelbase',
    'length',
    CAR,
    prior(['80 in', '320 in'], { law: 'normal', mean: '106 in', sd: '5 in', each: 'car' }),
    'The default is for a car with a body; measure an open one',
  ),
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
    prior(['-0.5 m2', '5 m2'], { law: 'uniform', low: '0 m2', high: '1.4 m2', each: 'car' }),
    'The default reaches from no wing to a tall one; a car without a wing says 0 m2. Instead of it: rearDownforce',
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
    { ...prior([-1, 4], { law: 'normal', mean: 0.85, sd: 0.1, each: 'car' }), spread: '0.05' },
    'Share of the weight transfer by thrust that the links carry. Instead of it: instantCentre',
  ),
  row(
    'axlePathSlope',
    'suspension.axlePathSlope',
    'forward movement of the axle per unit of bump',
    'ratio',
    CAR,
    { ...prior([-1, 1], { law: 'normal', mean: 0.08, sd: 0.02, each: 'car' }), spread: '0.01' },
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

/** What was wrong or missing when the place of the tub was set. */
export const BUILD_INPUTS: readonly CarRow[] = [
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
