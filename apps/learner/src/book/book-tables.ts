import { inchCell, KMH, MPH } from '@tubgap/units';
import { columnsOf, type SheetTable, yesNo } from '@tubgap/wording';
import { countsOf } from './counts.ts';
import { type Due, dueWords } from './due.ts';
import type { FoundBook } from './finish-book.ts';
import type { Book } from './read-book.ts';

const digits = (value: number, places: number): number => Number(value.toFixed(places));

/** Every car of the book, what was seen of it, and how it stands beside the others. */
export function carsSheet({ cars }: Book, { priors, apart }: FoundBook): SheetTable {
  const gainOf = (car: string): string =>
    priors.gains
      .filter((one) => one.car === car)
      .map(({ tyre, gain }) => `${tyre} ${gain.toFixed(2)}`)
      .join('; ');
  const apartOf = (car: string): string =>
    apart
      .filter((one) => one.car === car)
      .map(({ tyre, chance }) => `${tyre} ${chance.toFixed(3)}`)
      .join('; ');
  return {
    columns: columnsOf(
      'inch',
      'car',
      'tyres',
      'readings',
      'unmarked_runs',
      'marks',
      'newest',
      'log_gain_from_others',
      'chance_apart',
    ),
    rows: cars.map((car) => {
      const { readings, unmarkedRuns, marks, newest } = countsOf(car);
      const tyres = car.source.tyres.map(({ name }) => name).join('; ');
      return [car.name, tyres, readings, unmarkedRuns, marks, newest, gainOf(car.name), apartOf(car.name)];
    }),
  };
}

/** What is believed of each tyre model, input by input, for a car that is not in the book. */
export function tyresSheet({ priors }: FoundBook): SheetTable {
  return {
    columns: columnsOf('inch', 'tyre', 'construction', 'tyres_seen', 'input', 'before', 'after', 'narrowed'),
    rows: [...priors.models, ...priors.constructions].flatMap(({ model, construction, cars, inputs }) => {
      const tyre = model ?? `any ${construction} never seen`;
      if (inputs.length === 0) return [[tyre, construction, cars, '', '', '', yesNo(false)]];
      return inputs.map(({ label, before, after }) => [
        tyre,
        construction,
        cars,
        label,
        before,
        after,
        yesNo(true),
      ]);
    }),
  };
}

/** What cars of the shop, tubs of its builder and readings of its tapes have in common, apart from tyres. */
export function commonSheet({ priors }: FoundBook): SheetTable {
  const inputs = priors.common.flatMap(({ builder, cars, inputs }) =>
    inputs.map(({ label, before, after }) => [
      builder === undefined ? 'cars of the shop' : `tubs set out by ${builder}`,
      cars,
      label,
      before,
      after,
    ]),
  );
  const tapes = priors.tapes.map(({ tape, cars, low, middle, high }) => [
    tape,
    cars,
    'reads too much, in',
    0,
    `${inchCell(middle)} (${inchCell(low)} to ${inchCell(high)})`,
  ]);
  return {
    columns: columnsOf('inch', 'of', 'cars_seen', 'what', 'before', 'after'),
    rows: [...inputs, ...tapes],
  };
}

/** Growth by speed of each model, with its band before and after. */
export function growthSheet({ growth }: FoundBook): SheetTable {
  return {
    columns: columnsOf(
      'inch',
      'tyre',
      'speed_mph',
      'speed_km_h',
      'before_p05',
      'before_p50',
      'before_p95',
      'after_p05',
      'after_p50',
      'after_p95',
    ),
    rows: growth.flatMap(({ model, speeds, before, after }) =>
      speeds.map((speed, k) => [
        model,
        digits(speed / MPH, 1),
        digits(speed / KMH, 1),
        ...[before, after].flatMap(({ low, middle, high }) => [low[k]!, middle[k]!, high[k]!].map(inchCell)),
      ]),
    ),
  };
}

/** Every entry of runs: how likely a mark was from the other cars, and whether there was one. */
export const forecastSheet = ({ forecasts }: FoundBook): SheetTable => ({
  columns: columnsOf('inch', 'car', 'entry', 'chance_of_a_mark', 'mark'),
  rows: forecasts.map(({ car, reading, chance, happened }) => [
    car,
    reading,
    Number(chance.toPrecision(4)),
    yesNo(happened),
  ]),
});

/** Forecasts of about the same chance, and how many came true, with the range of 95 in 100. */
export const reliabilitySheet = ({ reliability }: FoundBook): SheetTable => ({
  columns: columnsOf(
    'inch',
    'chance_from',
    'chance_to',
    'entries',
    'foretold',
    'with_mark',
    'share_low',
    'share_high',
  ),
  rows: reliability.map(({ from, to, forecasts, foretold, happened, interval }) => [
    Number(from.toPrecision(3)),
    Number(to.toPrecision(3)),
    forecasts,
    Number(foretold.toPrecision(4)),
    happened,
    digits(interval.low, 5),
    digits(interval.high, 5),
  ]),
});

/** What one more measurement would teach: of the height that a new car needs, and of how a model's tyres grow. */
export const teachingSheet = ({ teachings, heightTeachings }: FoundBook): SheetTable => ({
  columns: columnsOf(
    'inch',
    'tyre',
    'car',
    'measure',
    'teaches',
    'share_of_what_is_not_known',
    'height_sd',
    'height_sd_then',
  ),
  rows: [
    ...heightTeachings.map(({ model, car, measure, share, before, after }) => [
      model,
      car ?? 'another new car',
      measure,
      'height of a new car',
      digits(share, 4),
      inchCell(before),
      inchCell(after),
    ]),
    ...teachings.map(({ model, car, input, share }) => [
      model,
      car ?? 'another new car',
      `${input} for sure`,
      'growth of the model',
      digits(share, 4),
      '',
      '',
    ]),
  ],
});

/** Readings that sit badly with the case or with all else that is known of their car. */
export const conflictSheet = ({ conflicts }: FoundBook): SheetTable => ({
  columns: columnsOf('inch', 'car', 'file', 'reading', 'at_odds_with', 'chance'),
  rows: conflicts.map(({ car, file, reading, against, chance }) => [
    car,
    file,
    reading,
    against,
    Number(chance.toPrecision(2)),
  ]),
});

export const dueSheet = (due: readonly Due[]): SheetTable => ({
  columns: columnsOf('inch', 'car', 'kind', 'what'),
  rows: due.map((one) => [one.car, one.kind, dueWords(one)]),
});
