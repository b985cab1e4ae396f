import { caseSetup } from '@tubgap/simulation';
import { numberSource } from '@tubgap/statistics';
import { placesOf } from '../src/book/book-car.ts';
import { APART, blockOf, sharesOf } from '../src/book/shares.ts';
import { type BookCar, evidenceParts, type Part, spaceOf, wholeCarSpace } from '../src/index.ts';
import { withRolloutsAndMarks } from './calibration-readings.ts';
import { demoCase } from './demo.ts';
import { DEMO_CAR, loggedReadings } from './synthetic.ts';

export const TYRE = 'tall-slick';
export const GROWTH = 'growthScale';

const source = demoCase();
const setup = caseSetup(source);
const measured = withRolloutsAndMarks();

/** Places of rollouts and a run log: what they read is made anew for each car. */
export const CHEAP: readonly Part[] = evidenceParts(
  source,
  setup,
  {
    ...measured,
    tellTales: [],
    marks: [],
    logs: loggedReadings(DEMO_CAR, {}, 1).readings.logs.slice(0, 1),
  },
  true,
);
/** The same with tell-tales and marks. */
export const ALL: readonly Part[] = evidenceParts(
  source,
  setup,
  { ...measured, logs: loggedReadings(DEMO_CAR, {}, 1).readings.logs.slice(0, 1) },
  true,
);

/** How an invented shop departs from what the priors say. */
export interface ShopTwist {
  /** Cars of the shop; by default 3 to 12. */
  cars?: number;
  /** What the tape of all its cars reads too much, m. */
  tape?: number;
  /** Growth scale of its last car over what it would have been. */
  wrongCar?: number;
  /** No tyre stands apart by itself. */
  allBelong?: boolean;
  template?: readonly Part[];
  models?: readonly string[];
}

/** A shop of the priors and what is true of it. */
export interface InventedShop {
  cars: BookCar[];
  /** Standard normal number of what cars of some groups have in common, of a kind of coordinate. */
  commonOf: (kind: string, groups: readonly string[]) => number;
  /** Numbers of a block of shares. */
  numbersOf: (block: string) => Float64Array;
  /** A whole car with a tyre of a model that belongs to it, in the space of everything fixed for a car. */
  newCar: (model: string, which: string) => Float64Array;
}

const place = (car: Omit<BookCar, 'parts'>, model: string): BookCar => ({
  ...car,
  parts: [],
  tyres: { [TYRE]: { model } },
});

/** A shop whose cars hang together as the priors of the shares say; what they measure is made by the model. */
export function inventedShop(own: number, count: number, twist: ShopTwist = {}): InventedShop {
  const { template = CHEAP, models = ['slick-a'], tape = 0, wrongCar = 1, allBelong = false } = twist;
  const normals = (name: string, n: number): Float64Array => {
    const { normal } = numberSource(own, `shop/${name}`);
    return Float64Array.from({ length: n }, normal);
  };
  const numbersOf = (block: string): Float64Array => normals(`block/${block}`, 3);
  const variancesOf = (family: Parameters<typeof sharesOf>[0], kind: string): number[] =>
    sharesOf(family)(numbersOf(blockOf(family, kind).name));
  const familyOf = (kind: string) => (kind.startsWith('tyre/') ? 'tyre' : 'tool');
  const commonIn = (variances: readonly number[], kind: string, groups: readonly string[]): number =>
    groups.reduce(
      (sum, _, l) =>
        sum + Math.sqrt(variances[l]!) * normals(`effect/${kind}/${groups.slice(0, l + 1).join('/')}`, 1)[0]!,
      0,
    );
  const pointOf = (car: BookCar, space: Parameters<typeof placesOf>[1], isApart: boolean): Float64Array => {
    const alone = normals(`own/${car.name}`, space.dimension);
    return Float64Array.from(placesOf(car, space), (found, i) => {
      if (found === undefined || (found.family === 'tyre' && isApart)) return alone[i]!;
      const variances = variancesOf(found.family, found.kind);
      const rest = variances.slice(found.groups.length).reduce((sum, v) => sum + v, 0);
      return commonIn(variances, found.kind, found.groups) + Math.sqrt(rest) * alone[i]!;
    });
  };
  const bare = (name: string) => ({ name, source, setup, tyres: {}, builder: 'builder', tape: 'tape' });
  const cars = Array.from({ length: count }, (_, c): BookCar => {
    const car = place(bare(`car-${String(c).padStart(3, '0')}`), models[c % models.length]!);
    const numbers = numberSource(own, `shop/readings/${car.name}`);
    const space = spaceOf(setup, template, 500_000 + own, 1024);
    const point = pointOf({ ...car, parts: template }, space, !allBelong && numbers.uniform() < APART);
    const growth = space.directions.findIndex(({ stream }) => stream === `tyre/${TYRE}/${GROWTH}`);
    // Log-normal with a coefficient of variation of 0.25.
    if (c === count - 1) point[growth]! += Math.log(wrongCar) / Math.sqrt(Math.log1p(0.25 ** 2));
    const off = space.directions.length + space.nuisances.indexOf('tape');
    if (tape !== 0) point[off] = tape / (0.06 * 0.0254);
    return { ...car, parts: template.map((part) => part.simulated!(space.at(point), numbers)) };
  });
  return {
    cars,
    commonOf: (kind, groups) => commonIn(variancesOf(familyOf(kind), kind), kind, groups),
    numbersOf,
    newCar: (model, which) => {
      const isApart = !allBelong && numberSource(own, `shop/apart/${which}`).uniform() < APART;
      return pointOf(place(bare(which), model), wholeCarSpace(setup, own), isApart);
    },
  };
}
