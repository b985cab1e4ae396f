import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { findUnit, kindsWithUnit, parseMeasure } from '@tubgap/units';
import { DEMO } from './end-to-end/command.ts';

/** What a metric shop writes for each unit of the demo. */
const METRIC: Readonly<Record<string, string>> = {
  in: 'mm',
  ft: 'm',
  lb: 'kg',
  lbf: 'N',
  psi: 'kPa',
  inHg: 'mbar',
  'lbf/in': 'N/mm',
  mph: 'km/h',
  degF: 'degC',
};

/** A measure of a case in its metric unit, the same to fifteen digits; a spread is no temperature but a difference. */
function metricMeasure(text: string, isSpread: boolean): string {
  const { number, unit } = parseMeasure(text)!;
  const own = METRIC[unit]!;
  const [kind] = kindsWithUnit(unit);
  const told = kind === 'temperature' && isSpread ? 'temperature difference' : kind!;
  const [from, to] = [findUnit(told, unit)!, findUnit(told, own)!];
  const value = (number * from.factor + from.offset - to.offset) / to.factor;
  return `${Number(value.toPrecision(15))} ${own}`;
}

/** The text of a case with every measure in metric units. */
export const metricText = (text: string): string =>
  text.replace(
    /(sd: )?(?<![\w.\d])(-?\d[\d.,]*(?: \d+\/\d+|\/\d+)?) (in|ft|lbf\/in|lbf|lb|psi|inHg|mph|degF)(?![\w/])(?! \d)/g,
    (_, sd: string | undefined, number: string, unit: string) =>
      `${sd ?? ''}${metricMeasure(`${number} ${unit}`, sd !== undefined)}`,
  );

/** Writes the demo into a folder as a metric shop would have written it: the same car. */
export function writeMetricDemo(folder: string): void {
  cpSync(DEMO, folder, { recursive: true });
  const file = join(folder, 'case.yaml');
  writeFileSync(file, metricText(readFileSync(file, 'utf8')));
}
