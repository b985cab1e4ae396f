import type { Case, UncertainInput } from '@tubgap/casefile';
import { freeRadiusFromRollout } from '@tubgap/core';
import { middleValue } from '@tubgap/simulation';
import {
  findUnit,
  isOnTape,
  parseMeasure,
  type QuantityKind,
  SIXTEENTH,
  tapeText,
  UNITS,
} from '@tubgap/units';
import type { Units } from './words.ts';

/** What can be changed beside the tub's place, for the tyre shown. */
export interface Control {
  id: string;
  label: string;
  /** What it stands for, when the label does not tell. */
  note?: string;
  /** Path of the setting. */
  path: string;
  /** Whether a law stands there, whose middle moves. */
  law: boolean;
  kind: QuantityKind;
  /** SI. */
  value: number;
  /** How many times the setting's own value this is: a rollout stands for the radius that it gives. Left out: once. */
  times?: number;
  /** Shown as a tape shows it, in sixteenths. */
  tape?: true;
  /** Its value was learned from measures: it cannot be set by hand as well. */
  learned?: boolean;
  /** Unit and step of the buttons, a unit system each. */
  units: Readonly<Record<Units, { name: string; step: number; decimals: number }>>;
}

type Scale = Control['units'];

const SPEED: Scale = {
  inch: { name: 'mph', step: 1, decimals: 1 },
  mm: { name: 'km/h', step: 2, decimals: 1 },
};
const PRESSURE: Scale = {
  inch: { name: 'psi', step: 0.25, decimals: 2 },
  mm: { name: 'kPa', step: 2, decimals: 1 },
};
const SPRING: Scale = {
  inch: { name: 'lbf/in', step: 5, decimals: 1 },
  mm: { name: 'N/mm', step: 1, decimals: 2 },
};
const TRAVEL: Scale = {
  inch: { name: 'in', step: 0.125, decimals: 3 },
  mm: { name: 'mm', step: 2, decimals: 1 },
};
const FORCE: Scale = {
  inch: { name: 'lbf', step: 25, decimals: 0 },
  mm: { name: 'N', step: 100, decimals: 0 },
};
const AREA: Scale = {
  inch: { name: 'ft2', step: 0.25, decimals: 2 },
  mm: { name: 'm2', step: 0.02, decimals: 3 },
};
const LENGTH: Scale = {
  inch: { name: 'in', step: 0.125, decimals: 3 },
  mm: { name: 'mm', step: 5, decimals: 1 },
};
const TAPE: Scale = {
  inch: { name: 'in', step: 1 / 16, decimals: 4 },
  mm: { name: 'mm', step: 1, decimals: 1 },
};
const MASS: Scale = {
  inch: { name: 'lb', step: 10, decimals: 0 },
  mm: { name: 'kg', step: 5, decimals: 1 },
};
const PULL: Scale = {
  inch: { name: 'g', step: 0.05, decimals: 2 },
  mm: { name: 'g', step: 0.05, decimals: 2 },
};
const COUNT: Scale = { inch: { name: '', step: 1, decimals: 0 }, mm: { name: '', step: 1, decimals: 0 } };

/** A quantity of the file's plain values, SI; undefined when it is none. */
function plainQuantity(raw: unknown, kind: QuantityKind): number | undefined {
  const measure = parseMeasure(String(raw ?? ''));
  const unit = measure && findUnit(kind, measure.unit);
  return unit && measure.number * unit.factor + unit.offset;
}

/** The default that the case reader takes for an air density that is left out, as it says itself. */
function assumedDensity(source: Case, path: string): number | undefined {
  return plainQuantity(source.assumed.find((value) => value.path === path)?.shown, 'density');
}

/** The wing as the case gives it: a force at a speed, or else the area that stands for it. */
function wing(
  source: Case,
  raw: unknown,
  input: UncertainInput,
): Pick<Control, 'path' | 'kind' | 'value' | 'units' | 'note'> {
  const area = middleValue(input);
  const plain = {
    path: input.path,
    kind: 'area' as const,
    value: area,
    units: AREA,
    note: 'downforce area on the rear axle',
  };
  const place = input.path.replace(/downforceArea$/, 'rearDownforce');
  const given = place
    .split(/[.[\]]+/)
    .filter(Boolean)
    .reduce<unknown>((here, part) => (here as Record<string, unknown> | undefined)?.[part], raw) as
    | { at?: unknown; airDensity?: unknown }
    | undefined;
  if (given === undefined) return plain;
  const at = plainQuantity(given.at, 'speed');
  const density =
    given.airDensity === undefined
      ? assumedDensity(source, `${place}.airDensity`)
      : plainQuantity(given.airDensity, 'density');
  if (at === undefined || density === undefined) return plain;
  return {
    path: `${place}.force`,
    kind: 'force',
    value: 0.5 * density * at * at * area,
    units: FORCE,
    note: `rear downforce at ${String(given.at)}`,
  };
}

const learnedOf = ({ law }: UncertainInput): { learned?: true } =>
  law.kind === 'updated' ? { learned: true } : {};

const inputControl = (
  id: string,
  label: string,
  input: UncertainInput,
  units: Scale,
  note?: string,
): Control => ({
  id,
  label,
  ...(note === undefined ? {} : { note }),
  path: input.path,
  law: true,
  kind: input.kind,
  value: middleValue(input),
  ...learnedOf(input),
  units,
});

/** Where the tub stands, beside what is set of tyre and car. */
export function placeControls(topHeight: number, centreForward: number): Control[] {
  const own = { law: false, kind: 'length', units: TAPE, tape: true } as const;
  return [
    { ...own, id: 'top', label: 'Top above the track', path: 'heights', value: topHeight },
    {
      ...own,
      id: 'centre',
      label: 'Tub centre',
      note: 'ahead of the axle is positive',
      path: 'tubCentreForward',
      value: centreForward,
    },
  ];
}

/** Rollout of a radius. */
const ROUND = 1 / freeRadiusFromRollout(1);

/** The inputs that can be changed for a tyre of a case; `raw` is what its file says, as plain values. */
export function controlsOf(source: Case, raw: unknown, tyre: number): Control[] {
  const own = source.tyres[tyre]!;
  const car = (name: keyof Case['car']): UncertainInput => own.car?.[name] ?? source.car[name];
  return [
    inputControl('speed', 'Speed at the finish', car('trapSpeed'), SPEED),
    inputControl('pressure', 'Tyre pressure, cold', own.inputs.coldPressure, PRESSURE),
    {
      ...inputControl(
        'size',
        'Tyre, rollout',
        own.inputs.referenceRadius,
        LENGTH,
        'once round the free tyre at its pressure',
      ),
      value: ROUND * middleValue(own.inputs.referenceRadius),
      times: ROUND,
    },
    inputControl('mass', 'Mass of the car', car('mass'), MASS, 'with driver and fuel'),
    inputControl('launch', 'Launch', car('launchAcceleration'), PULL, 'while grip limits it'),
    inputControl('parachute', 'Parachute', car('chuteDeceleration'), PULL, 'pull over mass; 0: none'),
    inputControl('spring', 'Wheel rate, a side', car('wheelRate'), SPRING, 'at the wheel, not at the spring'),
    inputControl('travel', 'Bump travel to the stop', car('bumpTravel'), TRAVEL, 'at the wheel'),
    {
      id: 'wing',
      label: 'Wing',
      law: true,
      ...wing(source, raw, car('downforceArea')),
      ...learnedOf(car('downforceArea')),
    },
    {
      id: 'reserve',
      label: 'Gap to be kept',
      note: 'for debris and flex',
      path: own.own?.reserve === undefined ? 'build.reserve' : `tyres[${tyre}].class.build.reserve`,
      law: false,
      kind: 'length',
      value: source.build.reserve,
      units: { inch: { name: 'in', step: 0.0625, decimals: 4 }, mm: { name: 'mm', step: 1, decimals: 1 } },
    },
    {
      id: 'runs',
      label: 'Runs a season',
      note: `on ${own.name}`,
      path: `tyres[${tyre}].runsPerSeason`,
      law: false,
      kind: 'ratio',
      value: own.runsPerSeason,
      units: COUNT,
    },
  ];
}

type Valued = Pick<Control, 'kind' | 'units' | 'value' | 'tape'>;

function numberIn({ kind, units, value }: Valued, system: Units): number {
  const { name, decimals } = units[system];
  const unit = UNITS[kind].find((one) => one.name === name)!;
  return Number(((value - unit.offset) / unit.factor).toFixed(decimals));
}

/** A value of a control in a unit system, as it is shown and typed: '224', '2.125', '39 5/16'. */
export function shownValue(control: Valued, system: Units): string {
  const { tape, value } = control;
  return tape && system === 'inch' && isOnTape(value)
    ? `${value < 0 ? '-' : ''}${tapeText(Math.round(Math.abs(value) / SIXTEENTH))}`
    : String(numberIn(control, system));
}

/** A measure as that of which it is so many times; as it is where it is none. */
function timesLess(text: string, { kind, times = 1 }: Pick<Control, 'kind' | 'times'>): string {
  const measure = times === 1 ? undefined : parseMeasure(text);
  const known = measure && findUnit(kind, measure.unit);
  return known ? `${Number((measure.number / times).toPrecision(9))} ${known.name}` : text;
}

/** What was typed as a setting's value: '~230 mph'; a typed unit is kept. Undefined when nothing was typed. */
export function writtenValue(
  control: Pick<Control, 'law' | 'units' | 'kind' | 'times'>,
  typed: string,
  system: Units,
): string | undefined {
  const text = typed.trim().replaceAll(',', '.');
  if (text === '') return undefined;
  const { name } = control.units[system];
  const value = timesLess(/[a-z%"″'′]/i.test(text) ? text : `${text} ${name}`.trim(), control);
  // Of what is not there nothing scatters.
  return control.law && Number.parseFloat(value) !== 0 ? `~${value}` : value;
}

/** The value one step up or down, on a whole number of steps. */
export function stepped(control: Control, system: Units, by: 1 | -1): string {
  const { step, decimals } = control.units[system];
  const now = numberIn(control, system) / step;
  const next = by > 0 ? Math.floor(now + 1e-6) + 1 : Math.ceil(now - 1e-6) - 1;
  return String(Number((next * step).toFixed(decimals)));
}
