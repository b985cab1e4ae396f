import {
  DEGREE,
  FOOT,
  INCH,
  INCH_OF_MERCURY,
  KMH,
  MPH,
  POUND,
  POUND_FORCE,
  PSI,
  STANDARD_GRAVITY,
} from './factors.ts';

/** What is measured. Every number of a case has one of these kinds; inside the project all are SI. */
export type QuantityKind =
  | 'ratio'
  | 'length'
  | 'mass'
  | 'force'
  | 'pressure'
  | 'stiffness'
  | 'speed'
  | 'acceleration'
  | 'temperature'
  | 'temperature difference'
  | 'area'
  | 'density'
  | 'areal density'
  | 'angle'
  | 'length per pressure';

/** One unit of a kind: SI value = value × factor + offset. The offset is 0 but for temperatures. */
export interface Unit {
  name: string;
  factor: number;
  offset: number;
}

const unit = (name: string, factor: number, offset = 0): Unit => ({ name, factor, offset });

/**
 * Every unit that a file may use, by kind. The first of a kind is the one printed when nothing else is asked for.
 * Factors are exact definitions (NIST SP 811, appendix B), not rounded ones.
 */
export const UNITS: Readonly<Record<QuantityKind, readonly Unit[]>> = {
  ratio: [unit('', 1), unit('%', 0.01)],
  length: [unit('in', INCH), unit('ft', FOOT), unit('mm', 1e-3), unit('cm', 1e-2), unit('m', 1)],
  mass: [unit('lb', POUND), unit('kg', 1)],
  force: [unit('lbf', POUND_FORCE), unit('N', 1)],
  pressure: [
    unit('psi', PSI),
    unit('kPa', 1e3),
    unit('bar', 1e5),
    unit('mbar', 100),
    unit('hPa', 100),
    unit('inHg', INCH_OF_MERCURY),
    unit('Pa', 1),
  ],
  stiffness: [unit('lbf/in', POUND_FORCE / INCH), unit('N/mm', 1e3), unit('N/m', 1)],
  speed: [unit('mph', MPH), unit('km/h', KMH), unit('m/s', 1)],
  acceleration: [unit('g', STANDARD_GRAVITY), unit('m/s2', 1)],
  temperature: [unit('degF', 5 / 9, (459.67 * 5) / 9), unit('degC', 1, 273.15), unit('K', 1)],
  'temperature difference': [unit('degF', 5 / 9), unit('degC', 1), unit('K', 1)],
  area: [unit('m2', 1), unit('ft2', FOOT ** 2)],
  density: [unit('kg/m3', 1), unit('lb/ft3', POUND / FOOT ** 3)],
  'areal density': [unit('lb/ft2', POUND / FOOT ** 2), unit('kg/m2', 1)],
  angle: [unit('deg', DEGREE), unit('rad', 1)],
  'length per pressure': [unit('in/psi', INCH / PSI), unit('mm/kPa', 1e-6), unit('m/Pa', 1)],
};

const SPELLINGS: readonly (readonly [RegExp, string])[] = [
  [/²/g, '2'],
  [/³/g, '3'],
  [/\^/g, ''],
  [/°\s*/g, 'deg'],
  [/\s+/g, ''],
];

/** The same unit in plain letters: `m²` and `m^2` are `m2`, `°F` is `degF`. */
function plainUnitName(text: string): string {
  return SPELLINGS.reduce((name, [from, to]) => name.replace(from, to), text);
}

/** What people write for a unit, by its name. Each stands for one unit whatever is measured. */
export const OTHER_NAMES: Readonly<Record<string, readonly string[]>> = {
  in: ['"', '”', '″', 'inch', 'inches'],
  ft: ["'", '’', '′', 'foot', 'feet'],
  lb: ['lbs', 'pound', 'pounds'],
  'lbf/in': ['lb/in', 'lbs/in'],
  'km/h': ['kph', 'kmh'],
};

/**
 * The unit of that name among those of a kind, or undefined; `inches` and `"` are in. Upper and lower case differ: mPa is
 * not MPa.
 */
export function findUnit(kind: QuantityKind, name: string): Unit | undefined {
  const plain = plainUnitName(name);
  return UNITS[kind].find(
    (candidate) => candidate.name === plain || OTHER_NAMES[candidate.name]?.includes(plain),
  );
}

/** Kinds that know a unit of that name, for messages such as "psi is a pressure". */
export function kindsWithUnit(name: string): QuantityKind[] {
  const kinds = Object.keys(UNITS) as QuantityKind[];
  return kinds.filter((kind) => findUnit(kind, name) !== undefined);
}

/** Names of a kind's units as a sentence takes them: "in, ft, mm, cm or m". */
export function unitList(kind: QuantityKind): string {
  const names = UNITS[kind].map((candidate) => candidate.name).filter((name) => name !== '');
  const last = names.pop() ?? '';
  return names.length === 0 ? last : `${names.join(', ')} or ${last}`;
}

/**
 * A quantity in words: number and unit, to five significant digits.
 * @param value SI
 * @param unitName one of `UNITS[kind]`; the first of them when left out. RangeError for any other
 * @example formatQuantity(44126.4, 'pressure') // '6.4 psi'
 */
export function formatQuantity(value: number, kind: QuantityKind, unitName?: string): string {
  const chosen = unitName === undefined ? UNITS[kind][0] : findUnit(kind, unitName);
  if (chosen === undefined) throw new RangeError(`${unitName} is not a unit of ${kind}: ${unitList(kind)}`);
  const number = Number(((value - chosen.offset) / chosen.factor).toPrecision(5));
  return chosen.name === '' ? String(number) : `${number} ${chosen.name}`;
}
