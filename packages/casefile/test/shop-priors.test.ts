import { centralValue, type Law, quantile } from '@tubgap/statistics';
import { describe, expect, it, test } from 'vitest';
import { untaughtText } from '../src/book/untaught-text.ts';
import { exactLawWords } from '../src/learned/law-words.ts';
import {
  readShopPriors,
  SHOP_PRIORS_VERSION,
  type ShopPriors,
  shopPriorsText,
} from '../src/learned/shop-priors.ts';
import { lines, smallCase, sound } from './small-case.ts';

const bare = sound({ ...smallCase(), tyres: [...smallCase().tyres, { tyre: 'radial', runsPerSeason: 5 }] });
const lawOf = (tyre: number, input: 'growthScale' | 'growthSpeedFactor' | 'patchCarcassPressure'): string =>
  exactLawWords(bare.tyres[tyre]!.inputs[input].law);

const moved = (
  tyre: number,
  input: 'growthScale' | 'growthSpeedFactor' | 'patchCarcassPressure',
  together: number[],
) => ({
  input,
  label: input,
  startedFrom: lawOf(tyre, input),
  before: '1 (0 to 2)',
  after: '1.2 (1 to 1.4)',
  middle: 0.5,
  spreadBelow: 0.4,
  spreadAbove: 0.6,
  together,
});

/** Of a tyre, which may stand apart. */
const ofTyre = <Moved>(moved: Moved): Moved & { apart: number } => ({ ...moved, apart: 0.05 });

const priors = (own: Partial<ShopPriors> = {}): ShopPriors => ({
  format: 'tubgap shop priors',
  version: SHOP_PRIORS_VERSION,
  caution: 'Tyre contact at speed can kill.',
  madeBy: 'a test',
  book: 'back-street-shop',
  invented: true,
  date: '2026-05-02',
  seed: 1,
  from: { cars: 7, unmarkedRuns: 212, marks: 3, sha256: 'ab' },
  sampling: { method: 'none', chains: 4, draws: 10, worstRHat: 1, leastEffectiveDraws: 40, widened: 1 },
  tyres: [
    {
      tyre: 'slick',
      construction: 'bias',
      tyres: 4,
      inputs: [
        ofTyre(moved(0, 'growthScale', [1])),
        ofTyre(moved(0, 'growthSpeedFactor', [0.6, 0.8])),
        ofTyre(moved(0, 'patchCarcassPressure', [0.5, 0.5, Math.SQRT1_2])),
      ],
    },
  ],
  constructions: [{ construction: 'radial', models: 2, inputs: [ofTyre(moved(1, 'growthScale', [1]))] }],
  ...own,
});

const written = (slick: object = {}, rest: object = {}) => ({
  ...smallCase(),
  tyres: [
    { ...smallCase().tyres[0]!, ...slick },
    { tyre: 'radial', runsPerSeason: 5 },
  ],
  book: 'shop-priors.yaml',
  ...rest,
});
const texts = (own: ShopPriors = priors()) => ({ 'shop-priors.yaml': shopPriorsText(own) });

it('a case of the book is read as it was measured, without what it was taught', () => {
  const plain = 'name: blue # the old one\nlength: 3 m\n';
  expect(untaughtText(plain)).toBe(plain);
  const taught = `${plain}learned: learned.yaml\nbook: shop-priors.yaml\n`;
  expect(untaughtText(taught)).toBe(plain);
  expect(untaughtText(taught.replace('book', '"book"'))).toBe(plain);
});

describe("a case that names its shop's book", () => {
  it('starts from what the book says of its tyres, by their row or else by how they are built', () => {
    const the = sound(written(), texts());
    const [slick, radial] = the.tyres;
    const { law, basis, source, shown } = slick!.inputs.growthScale;
    expect(law).toMatchObject({ kind: 'updated', middle: 0.5, below: 0.4, above: 0.6, apart: 0.05 });
    expect({ basis, source, shown }).toEqual({
      basis: "shop-priors.yaml, from the shop's book: 7 cars, 212 runs without a mark, 3 marks",
      source: 'case',
      shown: "from the shop's book: 1.2 (1 to 1.4), one value per car",
    });
    expect(centralValue({ ...law, apart: 0 } as Law)).toBeCloseTo(
      quantile(bare.tyres[0]!.inputs.growthScale.law, 0.691462461274013),
      6,
    );
    expect(radial!.inputs.growthScale.law.kind).toBe('updated');
    expect(radial!.inputs.patchCarcassPressure).toEqual(bare.tyres[1]!.inputs.patchCarcassPressure);
    expect(the.car).toEqual(bare.car);
    expect(the.book).toEqual({
      file: 'shop-priors.yaml',
      name: 'back-street-shop',
      date: '2026-05-02',
      cars: 7,
      unmarkedRuns: 212,
      marks: 3,
      tyres: ['slick', 'radial'],
      inputs: 4,
      own: [],
    });
  });

  it('keeps its own laws, names them, and joins the others as they hang together without it', () => {
    const the = sound(written({ growthScale: 0.04 }), texts());
    const { growthScale, growthSpeedFactor, patchCarcassPressure } = the.tyres[0]!.inputs;
    expect(growthScale.law).toEqual({ kind: 'constant', value: 0.04 });
    expect(growthSpeedFactor.follows).toBeUndefined();
    // Correlation of the two that are left: 0.6 · 0.5 + 0.8 · 0.5 = 0.7.
    expect(patchCarcassPressure.follows!.map(({ share }) => share)).toEqual([
      expect.closeTo(0.7, 9),
      expect.closeTo(Math.sqrt(1 - 0.49), 9),
    ]);
    expect(the.book).toMatchObject({ inputs: 3, own: ['growthScale of slick'] });
  });

  it('keeps a prior that is no longer the one the book started from', () => {
    const other = priors();
    other.tyres[0]!.inputs[0]!.startedFrom = 'log-normal, median 0.035, cov 0.25';
    const the = sound(written(), texts(other));
    expect(the.tyres[0]!.inputs.growthScale).toEqual(bare.tyres[0]!.inputs.growthScale);
    expect(the.book!.own).toEqual(['growthScale of slick']);
  });

  it('starts from what the shop’s cars and its builder’s tubs have in common', () => {
    const common = (
      input: 'wheelRate' | 'stopRate' | 'topHeightError' | 'centreError',
      together: number[],
      stated = false,
    ) => ({
      input,
      label: input,
      ...(stated ? {} : { startedFrom: exactLawWords(bare.car[input].law) }),
      before: 'a',
      after: 'b',
      middle: 0.5,
      spreadBelow: 0.9,
      spreadAbove: 0.9,
      together,
    });
    const spread = { law: 'normal', mean: '210 lbf/in', sd: '10 lbf/in', each: 'car' };
    const stated = { suspension: { wheelRate: spread } };
    const own = priors({
      shop: { cars: 7, inputs: [common('wheelRate', [1], true), common('stopRate', [0.6, 0.8])] },
      builders: [
        {
          builder: 'one fabricator',
          cars: 7,
          inputs: [common('topHeightError', [1]), common('centreError', [0.6, 0.8])],
        },
      ],
    });
    const by = (builder: object) => sound(written({}, { ...stated, ...builder }), texts(own));
    const plain = sound(written({}, stated), texts());
    const without = by({});
    expect(without.car.wheelRate.law).toMatchObject({
      kind: 'updated',
      from: plain.car.wheelRate.law,
      middle: 0.5,
    });
    expect(without.car.stopRate.follows).toEqual([
      { input: 'wheelRate', share: expect.closeTo(0.6, 9) },
      { input: 'stopRate', share: expect.closeTo(0.8, 9) },
    ]);
    expect(without.car.topHeightError).toEqual(plain.car.topHeightError);
    expect(without.book).toMatchObject({ tyres: ['slick', 'radial', 'the car'], inputs: 6 });
    expect(by({ builder: 'another' }).car).toEqual(without.car);
    const withBuilder = by({ builder: 'one fabricator' });
    expect(withBuilder.car.topHeightError.law.kind).toBe('updated');
    expect(withBuilder.book!.inputs).toBe(8);
    // A spring that the case takes as exact has no error to be moved, nor has one that stands on another prior.
    const exact = sound(written({}, {}), texts(own));
    expect(exact.car.wheelRate).toEqual(bare.car.wheelRate);
    expect(exact.car.stopRate.follows).toBeUndefined();
    own.shop!.inputs[1]!.together = [0.6, 0.7];
    expect(readShopPriors(shopPriorsText(own))).toEqual({ problem: expect.stringContaining('no shares') });
  });

  it('is refused where it names a learned file too, where there is no such file, and where it lies outside', () => {
    const told = (rest: object, own: Record<string, string> = texts()) =>
      lines(written({}, rest), own).join();
    expect(told({ learned: 'learned.yaml' })).toMatch(/book: .*not from both/);
    expect(told({}, {})).toMatch(/book: .*no such file.*tubgap book learn/);
    expect(told({ book: '../shop-priors.yaml' })).toMatch(/book: .*must lie in the case file's folder/);
  });
});

test("a shop's priors come back as they were written, and any change of them is found", () => {
  const text = shopPriorsText(priors());
  expect(readShopPriors(text)).toEqual(priors());
  expect(shopPriorsText(readShopPriors(text) as ShopPriors)).toBe(text);
  const told = (from: string, to: string) => readShopPriors(text.replace(from, to));
  expect(told('middle: 0.5', 'middle: 0.4')).toEqual({ problem: expect.stringContaining('own digest') });
  expect(told('middle: 0.5', 'middle: 50')).toEqual({ problem: expect.stringContaining('tyres.0.inputs') });
  expect(told('version: 2', 'version: 3')).toEqual({ problem: expect.stringContaining('layout 3') });
  expect(told('tubgap shop priors', 'tubgap learned')).toEqual({
    problem: expect.stringContaining("no file of a shop's priors"),
  });
  expect(lines(written(), { 'shop-priors.yaml': text.replace('cars: 7', 'cars: 9') }).join()).toMatch(
    /own digest.*tubgap book learn again/,
  );
});
