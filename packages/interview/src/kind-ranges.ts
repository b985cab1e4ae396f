/** What sort of car it is, as far as it sets what is assumed of it. */
export const KINDS_OF_CAR = ['street', 'small-tyre', 'winged-door', 'runs-both', 'open'] as const;
export type KindOfCar = (typeof KINDS_OF_CAR)[number];

/** What a range rests on. None is measured data with a method. */
export type Mark =
  | 'judgement'
  | 'common practice, no source'
  | 'from memory'
  | 'seen in trade pages'
  | 'derived'
  | 'derived, with judgement';

/** A range that holds about 90 % of such cars, and why. */
export interface KindRange {
  low: number;
  high: number;
  reason: string;
  mark: Mark;
}

/** Quantities of a car that its owner rarely knows; in the units of `PLACES`. */
export const QUANTITIES = [
  'mass',
  'wheelbase',
  'rearShare',
  'cgHeight',
  'dragArea',
  'wheelRate',
  'bumpTravel',
  'launch',
  'sectionWidth',
  'runsPerSeason',
] as const;
export type KindQuantity = (typeof QUANTITIES)[number];

const judged = (low: number, high: number, reason: string): KindRange => ({
  low,
  high,
  reason,
  mark: 'judgement',
});
const remembered = (low: number, high: number, reason: string): KindRange => ({
  ...judged(low, high, reason),
  mark: 'from memory',
});

type Ranges = Readonly<Record<KindQuantity, KindRange>>;

const STREET: Ranges = {
  mass: judged(3200, 4000, 'a full body with driver and fuel'),
  wheelbase: judged(100, 116, 'a production body'),
  rearShare: judged(0.43, 0.49, 'engine in front, little moved back'),
  cgHeight: judged(20, 24, 'a production body near its own height'),
  dragArea: judged(0.55, 0.85, 'a production body, C_d about 0.3 to 0.4'),
  wheelRate: judged(110, 200, 'springs for the road'),
  bumpTravel: judged(2.5, 4.5, 'a suspension for the road'),
  launch: { ...judged(0.54, 1.13, '60 ft in 1.6 to 2.3 s'), mark: 'derived, with judgement' },
  sectionWidth: judged(10, 13, 'radials of 275 to 325 mm'),
  runsPerSeason: judged(10, 60, 'some race days a season'),
};

const SMALL_TYRE: Ranges = {
  mass: judged(2600, 3300, 'a stripped body; 3,000 lb or more is told of the quickest'),
  wheelbase: judged(98, 112, 'a production body'),
  rearShare: judged(0.46, 0.53, 'weight moved back'),
  cgHeight: judged(17, 22, 'a body set lower than it came'),
  dragArea: judged(0.5, 0.75, 'a production body without a wing'),
  wheelRate: judged(90, 180, 'soft springs for weight transfer'),
  bumpTravel: judged(1.5, 4, 'between a road and a race suspension'),
  launch: { ...judged(1.85, 2.61, '60 ft in 1.05 to 1.25 s'), mark: 'derived, with judgement' },
  sectionWidth: judged(10.5, 13, '28x10.5 or 275/60R15 is usual'),
  runsPerSeason: judged(40, 100, 'a class season with qualifying'),
};

const WINGED_DOOR: Ranges = {
  mass: remembered(2300, 2850, 'open rule books'),
  wheelbase: remembered(100, 115, 'open rule books'),
  rearShare: judged(0.48, 0.55, 'built round the rear tyres'),
  cgHeight: judged(16, 21, 'built low'),
  dragArea: judged(0.45, 0.7, 'a narrow race body with a wing'),
  wheelRate: judged(110, 220, 'firm springs under a wing'),
  bumpTravel: judged(1.5, 4, 'a race suspension'),
  launch: { ...judged(2.57, 3.41, '60 ft in 0.92 to 1.06 s'), mark: 'derived, with judgement' },
  sectionWidth: { ...judged(16, 18, 'slicks of 16 to 17 in'), mark: 'common practice, no source' },
  runsPerSeason: judged(50, 120, 'a class season with testing'),
};

const OPEN: Ranges = {
  mass: judged(1900, 2400, 'about 2,300 lb is told of the quickest'),
  wheelbase: judged(180, 300, '225 in is the limit of one rule set'),
  rearShare: judged(0.6, 0.72, 'engine and driver near the rear axle'),
  cgHeight: judged(13, 19, 'a low frame'),
  dragArea: judged(0.6, 1.4, 'open wheels and wings'),
  // A rigid rear axle: the sidewall is the spring. The stiffest that a case may say.
  wheelRate: judged(4000, 4000, 'no rear springs: the sidewall is the spring'),
  bumpTravel: judged(0, 0, 'no rear springs: the sidewall is the spring'),
  launch: { ...judged(2.38, 4.29, '60 ft in 0.82 to 1.10 s'), mark: 'derived, with judgement' },
  sectionWidth: judged(16.5, 18.5, '36x17.5 on the quickest'),
  runsPerSeason: judged(40, 150, 'a class season with testing'),
};

const widened = (one: KindRange, other: KindRange): KindRange => ({
  low: Math.min(one.low, other.low),
  high: Math.max(one.high, other.high),
  reason: `either of the two cars that it is: ${one.reason}; ${other.reason}`,
  mark: one.mark === other.mark ? one.mark : 'derived, with judgement',
});

/**
 * Ranges by kind of car, wide on purpose: about 90 % of such cars. No published set of such figures was found; what trade
 * pages tell is named in the reason. Launch accelerations are means, from the 60-foot times beside them.
 */
export const RANGES: Readonly<Record<KindOfCar, Ranges>> = {
  street: STREET,
  'small-tyre': SMALL_TYRE,
  'winged-door': WINGED_DOOR,
  'runs-both': Object.fromEntries(
    QUANTITIES.map((name) => [name, widened(SMALL_TYRE[name], WINGED_DOOR[name])]),
  ) as Ranges,
  open: OPEN,
};
