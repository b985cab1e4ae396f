import { wholeText } from './chance.ts';
import { findUnit, formatQuantity, kindsWithUnit, type QuantityKind, UNITS, type Unit } from './quantity.ts';
import { readNumber } from './read.ts';
import type { LengthUnits } from './told.ts';

/** Units that a shop reads off its own tools, the one that others are told in first. What is not named stays as it is. */
const SHOP: Readonly<Record<LengthUnits, Readonly<Partial<Record<QuantityKind, readonly string[]>>>>> = {
  inch: {
    length: ['in', 'ft'],
    mass: ['lb'],
    force: ['lbf'],
    pressure: ['psi', 'inHg'],
    stiffness: ['lbf/in'],
    speed: ['mph'],
    acceleration: ['g'],
    temperature: ['degF'],
    'temperature difference': ['degF'],
    area: ['ft2'],
    'length per pressure': ['in/psi'],
  },
  mm: {
    length: ['mm', 'cm', 'm'],
    mass: ['kg'],
    force: ['N'],
    pressure: ['kPa', 'bar', 'mbar', 'hPa'],
    stiffness: ['N/mm'],
    speed: ['km/h'],
    acceleration: ['g'],
    temperature: ['degC'],
    'temperature difference': ['degC'],
    area: ['m2'],
    'length per pressure': ['mm/kPa'],
  },
};

/** The unit that a quantity is told in where none was written. */
export const usualUnit = (kind: QuantityKind, units: LengthUnits): Unit =>
  findUnit(kind, (units === 'mm' ? SHOP.mm[kind]?.[0] : undefined) ?? UNITS[kind][0]!.name)!;

const SIGNS: Readonly<Record<string, string>> = { degF: '°F', degC: '°C', m2: 'm²', ft2: 'ft²' };

/** Three digits, and none behind the point from ten on: what is told in another unit than it was written in is no finer. */
function roughly(value: number): string {
  const size = Math.abs(value);
  const text = size >= 10 ? wholeText(Math.round(size)) : String(Number(size.toPrecision(3)));
  return `${value < 0 && Number(text) !== 0 ? '−' : ''}${text}`;
}

/** A number as it was written, with a true minus, its thousands parted, and no more than two digits behind the point of a g. */
function asWritten(text: string, unit: string): string {
  const rounded = unit === 'g' && /\.\d{3}/.test(text) ? String(Number(Number(text).toFixed(2))) : text;
  return rounded
    .replace(/^-/, '−')
    .replace(/^(−?)(\d{4,})/, (_, sign, digits) => `${sign}${wholeText(Number(digits))}`);
}

const MEASURE = /(sd )?(-?\d[\d,]*(?:\.\d+)?(?: \d+\/\d+|\/\d+)?) ([A-Za-z°²]+\d?(?:\/[A-Za-z]+)?)/g;

/**
 * The words of a law or value with every measure in a unit of the shop: what no tool of the shop shows (kelvins, metres a
 * second, and millimetres among inches) is told in one that it does, the rest as it was written.
 * @param kind  of the quantity, for a temperature is told otherwise than a difference of two
 * @example shopWords('mean 15 K, sd 6 K', 'inch') // 'mean 27 °F, sd 11 °F'
 */
export function shopWords(words: string, units: LengthUnits, kind?: string): string {
  return words.replace(MEASURE, (whole, sd: string = '', number: string, name: string) => {
    const [first] = kindsWithUnit(name);
    if (first === 'angle' && name === 'deg') return `${sd}${asWritten(number, name)}°`;
    if (first === undefined) return whole;
    const isTemperature = kind === 'temperature' && sd === '';
    const own = first === 'temperature' && !isTemperature ? 'temperature difference' : first;
    const unit = findUnit(own, name)!;
    const shop = SHOP[units][own];
    if (shop === undefined || shop.includes(unit.name))
      return `${sd}${asWritten(number, unit.name)} ${SIGNS[unit.name] ?? name}`;
    const [told] = shop as readonly [string];
    const value = readNumber(number.replaceAll(',', ''))! * unit.factor + unit.offset;
    return `${sd}${roughly(Number.parseFloat(formatQuantity(value, own, told)))} ${SIGNS[told] ?? told}`;
  });
}
