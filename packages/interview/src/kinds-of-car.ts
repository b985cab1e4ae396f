import type { LawText } from '@tubgap/casefile';
import { FOOT, MPH } from '@tubgap/units';
import {
  KINDS_OF_CAR,
  type KindOfCar,
  type KindQuantity,
  type KindRange,
  type Mark,
  RANGES,
} from './kind-ranges.ts';
import { figure, logNormalOf, normalOf, positiveOf, triangularOf, uniformOf } from './law-text.ts';
import type { Estimate } from './slip.ts';

/** What is taken for a place of the case file, and why. */
export interface PriorRow {
  /** As the case file has it: 'car.mass', 'run.distance'. */
  path: string;
  /** A law or an exact value in the file's own form. */
  value: LawText | string | number | boolean;
  reason: string;
  mark: Mark;
}

export const WINGS = ['none', 'lip', 'tall'] as const;
export type Wing = (typeof WINGS)[number];
export const PARACHUTES = ['none', 'one', 'two'] as const;
export type Parachutes = (typeof PARACHUTES)[number];

/** Names of the kinds as a racer says them. */
export const KIND_WORDS: Readonly<Record<KindOfCar, string>> = {
  street: 'street car on treaded radials',
  'small-tyre': 'small-tyre car on radials, no tall wing',
  'winged-door': 'door car with a tall wing on tall bias slicks',
  'runs-both': 'car that runs both, tall slicks and small radials',
  open: 'long-wheelbase open car',
};

/** Peak over mean of a launch, judgement; of the quickest open cars 5.6 over 4.0 g is published (an encyclopedia). */
const PEAK = { least: 1.1, usual: 1.25, most: 1.4 } as const;

/** The most that a case file takes for a launch, g; no car is told to pull more. */
const MOST_LAUNCH = 6;

/**
 * The law of the launch from its mean, g, at most 4.8: the case asks for what the tyre bears while grip limits, which is nearer to the
 * peak than to the mean. Limits of mean and of peak together, to the safe side.
 */
export const launchLaw = ({ low, value, high }: Estimate): LawText =>
  triangularOf(
    PEAK.least * low,
    Math.min(PEAK.usual * value, MOST_LAUNCH),
    Math.min(PEAK.most * high, MOST_LAUNCH),
    'g',
  );

/** Where a quantity of the car stands in the case file, and the law that a range of it makes; a tyre's are its own. */
const PLACES: Readonly<
  Record<
    Exclude<KindQuantity, 'sectionWidth' | 'runsPerSeason'>,
    { path: string; value: (range: KindRange) => LawText | string | number }
  >
> = {
  mass: { path: 'car.mass', value: ({ low, high }) => normalOf(low, high, 'lb', 'car') },
  wheelbase: { path: 'car.wheelbase', value: ({ low, high }) => normalOf(low, high, 'in', 'car') },
  rearShare: { path: 'car.rearShare', value: ({ low, high }) => normalOf(low, high, '', 'car') },
  cgHeight: { path: 'car.cgHeight', value: ({ low, high }) => normalOf(low, high, 'in', 'car') },
  dragArea: { path: 'aero.dragArea', value: ({ low, high }) => logNormalOf(low, high, 'm2', 'car') },
  wheelRate: {
    path: 'suspension.wheelRate',
    value: ({ low, high }) =>
      low === high ? figure(low, 'lbf/in') : logNormalOf(low, high, 'lbf/in', 'car'),
  },
  bumpTravel: {
    path: 'suspension.bumpTravel',
    value: ({ low, high }) => (low === high ? figure(low, 'in') : positiveOf(low, high, 'in', 'car')),
  },
  launch: {
    path: 'run.launchAcceleration',
    value: ({ low, high }) => launchLaw({ low, value: (low + high) / 2, high }),
  },
};

const row = (path: string, value: PriorRow['value'], reason: string, mark: Mark = 'judgement'): PriorRow => ({
  path,
  value,
  reason,
  mark,
});

/** What else a kind fixes. */
const FIXED: Readonly<Record<KindOfCar, readonly PriorRow[]>> = {
  street: [
    row('suspension.antiRollBar', false, 'most have none at the rear; without one the body rolls more'),
  ],
  'small-tyre': [row('suspension.antiRollBar', true, 'usual on such cars', 'common practice, no source')],
  'winged-door': [row('suspension.antiRollBar', true, 'usual on such cars', 'common practice, no source')],
  'runs-both': [row('suspension.antiRollBar', true, 'usual on such cars', 'common practice, no source')],
  open: [
    row('suspension.antiRollBar', true, 'a rigid axle holds the frame level'),
    row('suspension.droopTravel', '0 in', 'no rear springs: the sidewall is the spring'),
    row('suspension.stopRate', '100000 lbf/in', 'no rear springs: the frame is the stop'),
  ],
};

/** Rear downforce area by wing, m². */
const WING_AREAS: Readonly<Record<Wing, readonly [number, number]>> = {
  none: [0, 0.1],
  lip: [0, 0.25],
  tall: [0.5, 1.4],
};
/** The same of an open car's wing; 12,000 lbf at 324 to 330 mph, told of the quickest, are 4 m². */
const OPEN_WING = [1.5, 4] as const;

/** The wing that a kind of car has when nobody says. */
export const USUAL_WING: Readonly<Record<KindOfCar, Wing>> = {
  street: 'none',
  'small-tyre': 'lip',
  'winged-door': 'tall',
  'runs-both': 'tall',
  open: 'tall',
};

/** The row of the rear downforce for a wing. */
export function wingRow(kind: KindOfCar, wing: Wing): PriorRow {
  const [low, high] = kind === 'open' && wing === 'tall' ? OPEN_WING : WING_AREAS[wing];
  const law = low > 0 ? logNormalOf(low, high, 'm2', 'car') : uniformOf(low, high, 'm2', 'car');
  const words = { none: 'no wing', lip: 'a lip or spoiler', tall: 'a tall wing' };
  return row('aero.downforceArea', law, `${words[wing]}, ${low} to ${high} m²`);
}

/**
 * Parachutes by speed at the finish: one above 150 mph, two above 200 mph.
 * Source: a sanctioning body's bulletin of 2023 (seen).
 * @param speed  m/s
 */
export function usualParachutes(speed: number): Parachutes {
  if (speed > 200 * MPH) return 'two';
  return speed > 150 * MPH ? 'one' : 'none';
}

/** The row of the pull of the parachutes; brakes alone take load off the rear axle, so that nothing is added for them. */
export function parachuteRow(kind: KindOfCar, parachutes: Parachutes): PriorRow {
  const path = 'run.chuteDeceleration';
  if (parachutes === 'none') return row(path, '0 g', 'no parachute: brakes take load off the rear axle');
  if (parachutes === 'one') return row(path, triangularOf(0.7, 1.1, 1.5, 'g'), 'one parachute');
  if (kind !== 'open') return row(path, triangularOf(1.5, 2.2, 3, 'g'), 'two parachutes');
  const reason =
    'two parachutes on an open car: a mean of 2.2 g from its way to a stop, peaks of 4 to 5 g are told';
  return row(path, triangularOf(1.5, 2.2, 5, 'g'), reason, 'derived, with judgement');
}

/**
 * Length of the track when nobody says: a kind's usual one, the longer one where the speed is not of the shorter.
 * @param speed  at the finish, m/s
 */
export function distanceRow(kind: KindOfCar, speed: number): PriorRow {
  const feet = (length: number, reason: string) => row('run.distance', `${length} ft`, reason);
  if (kind === 'street') return feet(1320, 'street cars mostly run the quarter');
  if (kind !== 'open') {
    return speed > 225 * MPH
      ? feet(1320, 'such a speed is reached in the quarter')
      : feet(660, 'such cars mostly run the eighth, which is the safe side: they still pull harder there');
  }
  return speed > 280 * MPH
    ? feet(1000, 'the quickest run 1,000 ft')
    : feet(1320, 'such cars run the quarter');
}

/** What a shop accepts until it says otherwise. */
const ACCEPTED: readonly PriorRow[] = [
  row('accept.runRisk', '1 in 2,000', "the shop's own to choose"),
  row('accept.seasonRisk', '1 in 20', "the shop's own to choose"),
];

/** Everything that is taken of a car whose owner knows nothing more, but tyre and speed. */
export interface KnownOfCar {
  kind: KindOfCar;
  /** At the finish, m/s. */
  speed: number;
  wing?: Wing | undefined;
  parachutes?: Parachutes | undefined;
}

/** Every row that fills a car's part of the case. Wing and parachutes as told, or as is usual. */
export function carPriors({ kind, speed, wing, parachutes }: KnownOfCar): PriorRow[] {
  const ranges = RANGES[kind];
  const names = Object.keys(PLACES) as (keyof typeof PLACES)[];
  return [
    ...names.map((name) => {
      const { reason, mark } = ranges[name];
      return row(PLACES[name].path, PLACES[name].value(ranges[name]), reason, mark);
    }),
    wingRow(kind, wing ?? USUAL_WING[kind]),
    ...FIXED[kind],
    parachuteRow(kind, parachutes ?? usualParachutes(speed)),
    distanceRow(kind, speed),
    ...ACCEPTED,
  ];
}

/** How a tyre is built, as a racer says it. */
export const TYRE_BUILDS = ['bias slick', 'radial slick', 'treaded radial'] as const;
export type TyreBuild = (typeof TYRE_BUILDS)[number];

/** Below this a car on treaded radials is one of the street. */
const STREET_SPEED = 150 * MPH;
/** Above this, in a quarter, door cars are rare. */
const OPEN_SPEED = 265 * MPH;

/**
 * The kind of car that its tyres and speed point to, judgement; it is shown and asked.
 * @param speed  at the finish, m/s
 * @param distance  m; left out: not known
 */
export function likelyKind(builds: readonly TyreBuild[], speed: number, distance = 1320 * FOOT): KindOfCar {
  const slicks = builds.filter((build) => build === 'bias slick').length;
  if (slicks > 0 && slicks < builds.length) return 'runs-both';
  // At constant power speed goes with the cube root of the distance.
  const inQuarter = speed * Math.cbrt((1320 * FOOT) / distance);
  if (slicks > 0) return inQuarter > OPEN_SPEED ? 'open' : 'winged-door';
  return builds.every((build) => build === 'treaded radial') && inQuarter <= STREET_SPEED
    ? 'street'
    : 'small-tyre';
}

/** How the tyres of a kind may be built, judgement; of one that runs both, each of its tyres. */
const BUILDS_OF_KIND: Readonly<Record<KindOfCar, readonly TyreBuild[]>> = {
  street: ['treaded radial'],
  'small-tyre': ['bias slick', 'radial slick', 'treaded radial'],
  'winged-door': ['bias slick', 'radial slick'],
  'runs-both': ['bias slick', 'radial slick', 'treaded radial'],
  open: ['bias slick'],
};

/** Kinds of car that run such tyres. */
export const possibleKinds = (builds: readonly TyreBuild[]): KindOfCar[] =>
  KINDS_OF_CAR.filter((kind) => builds.every((build) => BUILDS_OF_KIND[kind].includes(build)));
