import { readFileSync } from 'node:fs';
import {
  type CommonPrior,
  type MovedPrior,
  type ShopPriors as PriorsFile,
  parseCase,
  SHOP_PRIORS_VERSION,
  shopPriorsText,
} from '@tubgap/casefile';
import { type CarInput, carColumn } from '@tubgap/core';
import { caseSetup, fillColumns, tyreResponse } from '@tubgap/simulation';
import { BLOCK } from '@tubgap/statistics';
import { INCH } from '@tubgap/units';
import { describe, expect, it } from 'vitest';
import { largestTub } from '../src/book/new-car.ts';
import {
  type BookCar,
  learnBook,
  newHeights,
  type Part,
  sampleBook,
  shopPriors,
  standInFor,
} from '../src/index.ts';
import { normalPart } from '../src/parts/part.ts';
import { inventedShop, TYRE } from './invented-shop.ts';

/** A part that shows an input of the car itself, to a part of its spread. */
function shows(input: CarInput, value: number, sd: number): Part {
  const index = carColumn(input);
  return normalPart(
    {
      kind: 'gaps at rest',
      file: 'invented',
      names: [input],
      streams: new Set([`car/${input}`]),
      nuisances: [],
      costly: false,
    },
    { values: [value], covariance: [[sd * sd]], predicted: (state) => [state.car[0]![index]!] },
  );
}

/** Six cars whose tubs all stand lower than they were said to, and whose springs are all softer than was stated. */
const cars = inventedShop(9, 6, { allBelong: true, models: [TYRE] }).cars.map((car, i): BookCar => {
  const rate = car.setup.tyres[0]!.centralCar[carColumn('wheelRate')]!;
  return {
    ...car,
    parts: [
      ...car.parts,
      shows('topHeightError', (-0.16 + 0.02 * (i % 3)) * INCH, 0.02 * INCH),
      shows('wheelRate', rate * (0.9 + 0.01 * (i % 3)), 0.01 * rate),
    ],
  };
});

const movedOf = <Kind>({ startedFrom, ...rest }: { startedFrom: readonly { law: string }[] }): Kind =>
  ({ ...rest, startedFrom: startedFrom[0]!.law }) as Kind;

describe('what cars of a shop and tubs of a builder have in common', () => {
  const belief = sampleBook(cars, { seed: 1, pilot: 60, draws: 150 });
  const priors = shopPriors(belief);
  const shop = priors.common.find(({ builder }) => builder === undefined)!;
  const builder = priors.common.find((one) => one.builder === 'builder')!;

  it('is told of the springs as they are stated and of how the tub is set out', () => {
    expect(shop).toMatchObject({ cars: 6, inputs: [{ input: 'wheelRate', before: 'as the case states' }] });
    expect(shop.inputs[0]!.startedFrom).toBeUndefined();
    expect(shop.inputs[0]!.middle).toBeLessThan(-0.5);
    expect(builder).toMatchObject({ cars: 6, inputs: [{ input: 'topHeightError' }] });
    expect(builder.inputs[0]!.middle).toBeLessThan(-0.5);
    // What tubs differ by stays.
    expect(builder.inputs[0]!.spreadAbove).toBeGreaterThan(0.2);
  });

  it('gives a new car, by the laws of its case, the height that the sampler draws for it', () => {
    const accepted = 0.02;
    const tyre = { construction: 'bias', model: TYRE };
    const standIn = standInFor(
      belief.cars.map(({ car }) => car),
      tyre,
    )!;
    const tub = largestTub(standIn.car);
    const { height } = newHeights(belief, tyre, standIn, accepted);
    const file: PriorsFile = {
      format: 'tubgap shop priors',
      version: SHOP_PRIORS_VERSION,
      caution: '',
      madeBy: 'a test',
      book: 'back-street',
      invented: true,
      date: '',
      seed: 1,
      from: { cars: 6, unmarkedRuns: 0, marks: 0, sha256: 'ab' },
      sampling: { method: '', chains: 4, draws: 1, worstRHat: 1, leastEffectiveDraws: 1, widened: 1 },
      tyres: priors.models.map(({ model, cars, inputs }) => ({
        tyre: model!,
        construction: 'bias',
        tyres: cars,
        inputs: inputs.map((one) => movedOf<MovedPrior>(one)),
      })),
      constructions: [],
      shop: { cars: 6, inputs: shop.inputs as CommonPrior[] },
      builders: [{ builder: 'builder', cars: 6, inputs: builder.inputs as CommonPrior[] }],
    };
    const text = (name: string) =>
      readFileSync(new URL(`../../../datasets/demo/${name}`, import.meta.url), 'utf8');
    const heightOf = (own: PriorsFile): number => {
      const read = parseCase({
        file: 'case.yaml',
        text: `${text('case.yaml')}\nbuilder: builder\nbook: shop-priors.yaml\n`,
        load: (name) => (name === 'shop-priors.yaml' ? shopPriorsText(own) : text(name)),
      });
      if (!read.ok) throw new Error(read.issues[0]!.message);
      const setup = caseSetup(read.value);
      const response = tyreResponse(setup, standIn.tyre, tub);
      const needed: number[] = [];
      for (let block = 0; block < 8; block++) {
        const counts = setup.tyres.map(() => BLOCK);
        fillColumns(setup.tyres, 7, '', block, counts, 'both', response.columns);
        needed.push(...response.evaluate(BLOCK).subarray(0, BLOCK));
      }
      return needed.sort((a, b) => b - a)[Math.floor(accepted * needed.length)]!;
    };
    const own = heightOf(file);
    const bare = heightOf({ ...file, shop: undefined, builders: undefined } as PriorsFile);
    // 650 of 32,768 runs lie above: the quantile is known to some 0.03 in; the short form errs up by at most 1/8 in.
    expect(own - height).toBeGreaterThan(-INCH / 16);
    expect(own - height).toBeLessThan(INCH / 8);
    // Without what is in common it would be another one.
    expect(own - bare).toBeGreaterThan(INCH / 16);
  });
});

it('readings that sit badly with their case are told of their car, and stay in the book', async () => {
  const [first, second] = cars as [BookCar, BookCar];
  const rate = first.setup.tyres[0]!.centralCar[carColumn('wheelRate')]!;
  const wrong = {
    ...first,
    parts: [...first.parts.slice(0, -1), shows('wheelRate', 1.6 * rate, 0.01 * rate)],
  };
  const { conflicts, leftOut, belief } = await learnBook([wrong, second], 1);
  expect(leftOut).toEqual([]);
  expect(belief.cars).toHaveLength(2);
  // Of what was made for the test: an invented run log is still judged by the readings that it was made from.
  const told = conflicts.map(({ car, conflicts: own }) => ({
    car,
    own: own.filter(({ file }) => file === 'invented'),
  }));
  expect(told.filter(({ own }) => own.length > 0)).toMatchObject([
    {
      car: first.name,
      own: [{ reading: 'wheelRate', against: 'the assumptions of the case', refused: true }],
    },
  ]);
});
