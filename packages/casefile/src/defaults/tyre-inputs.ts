import { CONSTRUCTIONS, type Construction } from '@tubgap/core';
import { COMMON, type Each, JUDGEMENT, type Prior, type TyreRow } from './row.ts';

type Priors = Readonly<Record<Construction, Prior>>;

const alike = (prior: Prior): Priors =>
  Object.fromEntries(CONSTRUCTIONS.map((construction) => [construction, prior])) as Priors;

const row = (
  name: TyreRow['name'],
  label: string,
  kind: TyreRow['kind'],
  each: Each,
  prior: Priors,
  about?: string,
): TyreRow => ({
  name,
  path: `tyres[].${name}`,
  label,
  kind,
  each,
  group: 'tyre',
  prior,
  ...(about === undefined ? {} : { about }),
});

const growthScale = (median: number, cov: number, most: number): Prior => ({
  range: [0, most],
  law: { law: 'log-normal', median, cov, each: 'car' },
  basis: `${JUDGEMENT}; no measured growth curve of a drag tyre was found in open literature`,
});

const carcass = (median: string, most: string): Prior => ({
  range: ['0 psi', most],
  law: { law: 'log-normal', median, cov: 0.2, each: 'car' },
  basis: JUDGEMENT,
});

const lobe = (mean: string, sd: string): Prior => ({
  range: ['0 in', '3 in'],
  law: { law: 'truncated', mean, sd, low: '0 in', each: 'car' },
  basis: COMMON,
});

const pressure = (low: string, high: string): Prior => ({
  range: [low, high],
  spread: '0.4 psi',
  basis: COMMON,
});

/** Every uncertain number of a tyre. */
export const TYRE_INPUT_ROWS: readonly TyreRow[] = [
  row(
    'referenceRadius',
    'free radius at the reference pressure',
    'length',
    'car',
    alike({ range: ['8 in', '22 in'], spread: '0.06 in', basis: JUDGEMENT }),
    'Half of the free diameter, or rollout over 2π',
  ),
  row('radiusPerPressure', 'growth of the free radius with pressure', 'length per pressure', 'car', {
    bias: {
      range: ['0 in/psi', '0.2 in/psi'],
      law: { law: 'log-normal', median: '0.014 in/psi', cov: 0.3, each: 'car' },
      basis: JUDGEMENT,
    },
    radial: {
      range: ['0 in/psi', '0.2 in/psi'],
      law: { law: 'log-normal', median: '0.003 in/psi', cov: 0.3, each: 'car' },
      basis: JUDGEMENT,
    },
  }),
  row(
    'growthScale',
    'growth scale',
    'ratio',
    'car',
    { bias: growthScale(0.036, 0.25, 0.15), radial: growthScale(0.007, 0.4, 0.1) },
    'Bias slick: A over the free radius. Radial: share of the radius gained at 50 m/s and 32 psi',
  ),
  row('growthSpeedFactor', "factor on the speed at which a bias slick's growth flattens", 'ratio', 'car', {
    bias: {
      range: [0.3, 3],
      law: { law: 'log-normal', median: 1, cov: 0.07, each: 'car' },
      basis: JUDGEMENT,
    },
    radial: {
      range: [0.3, 3],
      law: { law: 'constant', value: 1, each: 'car' },
      basis: 'derived: the growth law of a radial has no such speed',
    },
  }),
  row('growthCarcassPressure', 'pressure that the carcass is worth against growth', 'pressure', 'car', {
    bias: carcass('2 psi', '15 psi'),
    radial: carcass('43.5 psi', '120 psi'),
  }),
  row('patchCarcassPressure', 'pressure that the carcass is worth in the contact patch', 'pressure', 'car', {
    bias: carcass('2 psi', '15 psi'),
    radial: carcass('6 psi', '30 psi'),
  }),
  row('mass', 'mass of the tyre', 'mass', 'car', {
    bias: { range: ['8 lb', '150 lb'], spread: '2 %', basis: JUDGEMENT },
    radial: {
      range: ['8 lb', '150 lb'],
      basis: 'derived: the growth law of a radial does not ask for its mass',
    },
  }),
  row(
    'sectionWidth',
    'section width',
    'length',
    'car',
    alike({ range: ['5 in', '25 in'], spread: '1 %', basis: JUDGEMENT }),
    'Mounted, inflated, without lettering',
  ),
  row(
    'treadWidth',
    'tread width',
    'length',
    'car',
    alike({ range: ['4 in', '22 in'], spread: '1 %', basis: JUDGEMENT }),
  ),
  row(
    'stiffnessFactor',
    'factor on the stiffness found from the measured deflection',
    'ratio',
    'car',
    alike({
      range: [0.2, 4],
      law: { law: 'log-normal', median: 1, cov: 0.15, each: 'car' },
      basis: JUDGEMENT,
    }),
  ),
  row('tangentialRatio', 'tangential over radial stiffness of the band', 'ratio', 'car', {
    bias: {
      range: [0.05, 5],
      law: { law: 'log-normal', median: 0.7, cov: 0.2, each: 'car' },
      basis: JUDGEMENT,
    },
    radial: {
      range: [0.05, 5],
      law: { law: 'log-normal', median: 1, cov: 0.2, each: 'car' },
      basis: JUDGEMENT,
    },
  }),
  row(
    'lobeHeight',
    'lobe allowance',
    'length',
    'car',
    { bias: lobe('0.25 in', '0.15 in'), radial: lobe('0.05 in', '0.03 in') },
    'Model allowance for what a band on springs leaves out; rub marks correct it',
  ),
  row(
    'lobeAngle',
    'angle of the lobe ahead of straight up',
    'angle',
    'car',
    alike({
      range: ['-90 deg', '90 deg'],
      law: { law: 'normal', mean: '40 deg', sd: '10 deg', each: 'car' },
      basis: COMMON,
    }),
  ),
  row(
    'runOut',
    'radial run-out',
    'length',
    'car',
    alike({
      range: ['0 in', '0.5 in'],
      law: { law: 'truncated', mean: '0.03 in', sd: '0.015 in', low: '0 in', each: 'car' },
      basis: JUDGEMENT,
    }),
  ),
  row(
    'coldPressure',
    'cold pressure',
    'pressure',
    'run',
    { bias: pressure('3 psi', '15 psi'), radial: pressure('8 psi', '45 psi') },
    'Gauge, as set before the run. Left out: about the build pressure for the build tyre, about the reference pressure for any other',
  ),
  row(
    'airHeating',
    'warming of the air in the tyre',
    'temperature difference',
    'run',
    alike({
      range: ['0 K', '100 K'],
      law: { law: 'truncated', mean: '15 K', sd: '6 K', low: '0 K', each: 'run' },
      basis: JUDGEMENT,
    }),
    'Above its temperature when the pressure was set',
  ),
  row(
    'volumeRatio',
    'hot over cold inner volume',
    'ratio',
    'car',
    alike({
      range: [0.8, 1.2],
      law: { law: 'normal', mean: 1, sd: 0.01, each: 'car' },
      basis: `${JUDGEMENT}; cords hardly stretch, so the inflated shape is near its largest volume`,
    }),
  ),
  row(
    'rideHeightChange',
    'body raised on the springs for this tyre',
    'length',
    'car',
    alike({
      range: ['-4 in', '4 in'],
      law: { law: 'constant', value: '0 in', each: 'car' },
      basis: JUDGEMENT,
    }),
  ),
];
