import { allowedRange, type Case, numbersIn, type UncertainInput } from '@tubgap/casefile';
import type { CarInput } from '@tubgap/core';
import { centralValue, relocateLaw } from '@tubgap/statistics';
import { findUnit, type QuantityKind, UNITS, type Unit } from '@tubgap/units';

/** What a limit can be asked of, in the order in which limits are told. */
export const LIMITED = [
  'speed',
  'launch',
  'pressure',
  'spring',
  'stop',
  'travel',
  'mass',
  'reserve',
  'diameter',
  'runs',
] as const;
export type Limited = (typeof LIMITED)[number];

/** Kinds of what they are asked of. */
export type LimitedKind = Extract<
  QuantityKind,
  'ratio' | 'length' | 'mass' | 'pressure' | 'stiffness' | 'speed' | 'acceleration'
>;

/** A number of the case that is moved by itself, all else as it stands. */
export interface Quantity {
  code: Limited;
  label: string;
  /** Place in the case: putting a value there by itself makes the same case. */
  path: string;
  kind: LimitedKind;
  /** Which values ask for more height, as a rule: those above the limit, or those below it. */
  end: 'most' | 'least';
  /** SI; of an uncertain one its middle. */
  now: number;
  /** Values that are looked at: whole steps of a unit that the case uses. */
  grid: Grid;
  /** The case with another value: its law moved, its spread kept. */
  at: (value: number) => Case;
}

/** Whole steps of a unit, from `first` to `last`. */
export interface Grid {
  unit: string;
  first: number;
  last: number;
  /** SI value of a step's number. */
  valueAt: (index: number) => number;
}

/** Steps in which a shop sets things, in each unit: fine enough to be of use, no finer than anybody reads. */
const STEPS: Readonly<Record<string, number>> = {
  mph: 1,
  'km/h': 1,
  'm/s': 0.5,
  g: 0.05,
  'm/s2': 0.5,
  psi: 0.1,
  kPa: 1,
  bar: 0.01,
  'lbf/in': 5,
  'N/mm': 1,
  in: 1 / 16,
  mm: 1,
  cm: 0.1,
  lb: 10,
  kg: 5,
  '': 1,
};

/** Those of a tub that is rolled to size: no coarser than a shop cuts its sheet, no finer than it rolls. */
const ROLLED_STEPS: Readonly<Record<string, number>> = { ...STEPS, in: 1 / 4, mm: 5, cm: 0.5 };

/** How far from its value a number is followed: what lies beyond is another car. Judgement, no source. */
const REACH: Readonly<Record<Limited, readonly [number, number]>> = {
  speed: [0.5, 1.35],
  launch: [0.4, 2],
  pressure: [0.5, 2],
  spring: [0.33, 4],
  stop: [0.25, 8],
  travel: [0, 2.5],
  mass: [0.7, 1.4],
  reserve: [0, 4],
  diameter: [0.7, 1.5],
  runs: [0, 20],
};

/** The unit that the case writes a number in, else the first of its kind; one that has a step. */
function unitOf(kind: QuantityKind, shown: string): Unit {
  const words = new Set(shown.split(/[\s,]+/));
  const written = UNITS[kind].find(({ name }) => name !== '' && words.has(name) && name in STEPS);
  return written ?? findUnit(kind, UNITS[kind][0]!.name)!;
}

function gridOf(kind: QuantityKind, shown: string, from: number, to: number, steps = STEPS): Grid {
  const unit = unitOf(kind, shown);
  const step = steps[unit.name]!;
  // As a case file would read the number that is printed: to the last bit.
  const valueAt = (index: number): number => Number((index * step).toPrecision(12)) * unit.factor;
  const size = step * unit.factor;
  return {
    unit: unit.name,
    first: Math.ceil(from / size - 1e-9),
    last: Math.floor(to / size + 1e-9),
    valueAt,
  };
}

const moved = (input: UncertainInput, value: number): UncertainInput => ({
  ...input,
  law: relocateLaw(input.law, 1, value - centralValue(input.law)),
});

const reachOf = (
  code: Limited,
  now: number,
  { min, max }: { min: number; max: number },
): readonly [number, number] => [Math.max(min, REACH[code][0] * now), Math.min(max, REACH[code][1] * now)];

/** Inputs of the car, and which values of each ask for more height. */
const OF_CAR: readonly (readonly [Limited, CarInput, string, LimitedKind, Quantity['end']])[] = [
  ['speed', 'trapSpeed', 'run.trapSpeed', 'speed', 'most'],
  ['launch', 'launchAcceleration', 'run.launchAcceleration', 'acceleration', 'most'],
  ['spring', 'wheelRate', 'suspension.wheelRate', 'stiffness', 'least'],
  ['stop', 'stopRate', 'suspension.stopRate', 'stiffness', 'least'],
  ['travel', 'bumpTravel', 'suspension.bumpTravel', 'length', 'most'],
  ['mass', 'mass', 'car.mass', 'mass', 'most'],
];

/** One of the car's inputs where the tyre's class has it, else where every class without its own takes it from. */
function ofCar(
  source: Case,
  tyre: number,
  [code, name, row, kind, end]: (typeof OF_CAR)[number],
): Quantity | undefined {
  const own = source.tyres[tyre]!.car?.[name];
  const input = own ?? source.car[name];
  const now = centralValue(input.law);
  const range = allowedRange(row, source.tyres[tyre]!.construction);
  const grid = gridOf(kind, input.shown, ...reachOf(code, now, range));
  const at = (value: number): Case =>
    own === undefined
      ? { ...source, car: { ...source.car, [name]: moved(input, value) } }
      : {
          ...source,
          tyres: source.tyres.map((one, i) =>
            i === tyre ? { ...one, car: { ...one.car, [name]: moved(own, value) } } : one,
          ),
        };
  return now > 0 ? { code, label: input.label, path: input.path, kind, end, now, grid, at } : undefined;
}

/**
 * The inside diameter of the first tub: at its top height and place, with its arc, legs and liner as they are. In the unit
 * in which the case writes bump travel.
 */
function ofTub(source: Case): Quantity | undefined {
  const [tub, ...others] = source.tubs;
  if (tub === undefined) return undefined;
  const range = allowedRange('tubs[].insideDiameter', source.tyres[0]!.construction);
  return {
    code: 'diameter',
    label: `inside diameter of ${tub.name} at its top height`,
    path: 'tubs[0].insideDiameter',
    kind: 'length',
    end: 'least',
    now: tub.diameter,
    grid: gridOf(
      'length',
      source.car.bumpTravel.shown,
      ...reachOf('diameter', tub.diameter, range),
      ROLLED_STEPS,
    ),
    at: (diameter) => ({ ...source, tubs: [{ ...tub, diameter }, ...others] }),
  };
}

/** Everything that a limit can be asked of in a case, in its first tub. @param tyre  index of the tyre that asks for the most height */
export function limitQuantities(source: Case, tyre: number): Quantity[] {
  const { name, construction, inputs, runsPerSeason } = source.tyres[tyre]!;
  const { coldPressure } = inputs;
  const withTyre = (change: (one: Case['tyres'][number]) => Case['tyres'][number]): Case => ({
    ...source,
    tyres: source.tyres.map((one, i) => (i === tyre ? change(one) : one)),
  });
  const pressure = centralValue(coldPressure.law);
  const { reserve } = numbersIn(source, source.tyres[tyre]!);
  const hasOwnReserve = source.tyres[tyre]!.own?.reserve !== undefined;
  const found: (Quantity | undefined)[] = [
    ...OF_CAR.map((row) => ofCar(source, tyre, row)),
    {
      code: 'pressure',
      label: `${coldPressure.label} of ${name}`,
      path: coldPressure.path,
      kind: 'pressure',
      end: 'least',
      now: pressure,
      grid: gridOf(
        'pressure',
        coldPressure.shown,
        ...reachOf('pressure', pressure, allowedRange('tyres[].coldPressure', construction)),
      ),
      // What stands in one place of the case is set for every class that takes it from there.
      at: (value) => ({
        ...source,
        tyres: source.tyres.map((one) =>
          one.inputs.coldPressure.path === coldPressure.path
            ? { ...one, inputs: { ...one.inputs, coldPressure: moved(one.inputs.coldPressure, value) } }
            : one,
        ),
      }),
    },
    {
      code: 'reserve',
      label: 'gap that must remain',
      path: hasOwnReserve ? `tyres[${tyre}].class.build.reserve` : 'build.reserve',
      kind: 'length',
      end: 'most',
      now: reserve,
      grid: gridOf('length', '', 0, allowedRange('build.reserve', construction).max),
      at: (value) =>
        hasOwnReserve
          ? withTyre((one) => ({ ...one, own: { ...one.own, reserve: value } }))
          : { ...source, build: { ...source.build, reserve: value } },
    },
    ofTub(source),
    {
      code: 'runs',
      label: `runs in a season on ${name}`,
      path: `tyres[${tyre}].runsPerSeason`,
      kind: 'ratio',
      end: 'most',
      now: runsPerSeason,
      grid: gridOf(
        'ratio',
        '',
        ...reachOf('runs', runsPerSeason, allowedRange('tyres[].runsPerSeason', construction)),
      ),
      at: (value) => withTyre((one) => ({ ...one, runsPerSeason: value })),
    },
  ];
  const all = found.filter((one) => one !== undefined);
  return LIMITED.flatMap((code) => all.filter((one) => one.code === code));
}
