import type { CaseSetup } from '@tubgap/simulation';
import { sampleQuantile } from '@tubgap/statistics';
import type { CarHeights } from './car-heights.ts';
import type { CarSpace } from './car-space.ts';
import type { EvidenceKind, Part } from './parts/part.ts';
import { pickEstimate } from './pick-estimate.ts';
import { type Believed, believe, pointsWeighed, priorPoints, spaceOf } from './posterior.ts';
import { wholeCars } from './whole-car.ts';

/** What one part of the evidence would teach alone. */
export interface Contribution {
  kind: EvidenceKind;
  file: string;
  readings: number;
  /** The input that it moved or narrowed most. */
  label: string;
  tyre: string;
  /** Share of that input's spread that is left. */
  spreadLeft: number;
  /** Share of the spread between cars of the required height that it takes away; negative: it shows more than was thought. */
  narrowed: number;
  /** Change of the height that the accepted risk asks for, m. */
  heightChange: number;
}

/** The same for everything together, and the spread between cars before. */
export interface Contributions {
  parts: Contribution[];
  all: { narrowed: number; heightChange: number };
  /** Between cars, one standard deviation, m. */
  spreadBefore: number;
  spreadAfter: number;
}

/** Whole cars by which heights are compared. */
const CARS = 4000;
/** Cars of the priors that a costly part weighs. */
const WEIGHED = 1000;

const sdOf = (values: Float64Array): number => {
  const sorted = values.filter(Number.isFinite).sort();
  return (sampleQuantile(sorted, 0.84) - sampleQuantile(sorted, 0.16)) / 2;
};

/** A change, in nats from the law before, that is too small to name one input by. */
const SLIGHT = 0.05;

/** The coordinate whose law changed most, and what is left of its spread. */
function mostMoved({ space, points }: Pick<Believed, 'space' | 'points'>): {
  label: string;
  tyre: string;
  spreadLeft: number;
} {
  let best = { label: '', tyre: '', spreadLeft: 1 };
  let most = -1;
  space.directions.forEach(({ targets }, d) => {
    const sorted = Float64Array.from(points, (point) => point[d]!).sort();
    const middle = sampleQuantile(sorted, 0.5);
    const spread = (sampleQuantile(sorted, 0.84) - sampleQuantile(sorted, 0.16)) / 2;
    const change = 0.5 * (spread * spread + middle * middle - 1) - Math.log(spread);
    if (change <= most) return;
    most = change;
    const { input, group, tyre } = targets[0]!;
    best = {
      label: input.group === 'builder' ? `${input.label}, of this tub alone` : input.label,
      tyre: group === 'tyre' ? space.setup.tyres[tyre]!.name : '',
      spreadLeft: spread,
    };
  });
  return most < SLIGHT ? { label: 'many, each a little', tyre: '', spreadLeft: 1 } : best;
}

/** Cars that agree with one part: those of the priors weighed by it where it is costly and says little, else sampled. */
function believedAlone(setup: CaseSetup, part: Part, seed: number): Pick<Believed, 'space' | 'points'> {
  if (!part.costly) return believe(setup, [part], { seed, draws: 250, pilot: 120 });
  const space = spaceOf(setup, [part], seed);
  return { space, points: pointsWeighed(space, [part], priorPoints(space, seed, WEIGHED), seed) };
}

/**
 * What each part of the evidence would teach if it were the only one, in the height that the accepted risk asks for. The
 * parts overlap, so their changes do not add up to that of the whole.
 */
export function contributionsOf(
  setup: CaseSetup,
  believed: Believed,
  whole: CarSpace,
  heights: CarHeights,
  departures: Float64Array,
  accepted: number,
  seed: number,
): Contributions {
  const heightsOf = (space: CarSpace, points: readonly Float64Array[]): Float64Array =>
    heights.middling(whole, wholeCars(whole, space, points, seed, CARS));
  const look = (values: Float64Array): { sd: number; height: number } => ({
    sd: sdOf(values),
    height: pickEstimate(values, departures, accepted).of(),
  });
  const before = look(heightsOf(spaceOf(setup, [], seed), [new Float64Array(0)]));
  const after = look(heightsOf(believed.space, believed.points));
  const change = ({ sd, height }: { sd: number; height: number }) => ({
    narrowed: 1 - sd / before.sd,
    heightChange: height - before.height,
  });
  return {
    parts: believed.parts.map((part: Part): Contribution => {
      const alone = believedAlone(setup, part, seed);
      return {
        kind: part.kind,
        file: part.file,
        readings: part.names.length,
        ...mostMoved(alone),
        ...change(look(heightsOf(alone.space, alone.points))),
      };
    }),
    all: change(after),
    spreadBefore: before.sd,
    spreadAfter: after.sd,
  };
}
