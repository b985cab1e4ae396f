import { oneIn } from '@tubgap/units';
import { BLANK, type Block, figureTable, paragraph } from '@tubgap/wording';
import { figuresOf } from '../figures-of.ts';
import { chosenTub } from '../sheets/chosen-tub.ts';
import { type YearCar, yearRisk, yearSum } from './year.ts';

const HEAD = ['case', 'tub', 'top set out at', 'at least', 'a run*', 'real contact*', 'a season*'];

function cells({ result }: YearCar): string[] {
  const { length } = figuresOf(result);
  const chosen = chosenTub(result);
  const name = `${result.case.name}${result.case.invented ? ' [invented]' : ''}`;
  if (chosen === undefined) return [name, 'no tub', '', '', '', '', ''];
  const { tub, height, setOut } = chosen;
  const risks = [height.runRisk, height.contactRisk, height.seasonRisk].map(({ high }) => oneIn(high));
  return [name, tub.name, length(setOut, 'up'), length(height.topHeight, 'up'), ...risks];
}

/** The shop's year for the terminal. */
export function yearText(cars: readonly YearCar[]): Block[] {
  const sum = yearSum(cars);
  return [
    BLANK,
    figureTable(HEAD, cars.map(cells)),
    BLANK,
    paragraph('* Surely no more often than this, at the least height; as set out no more.'),
    ...(sum.withTub === 0 ? [] : [paragraph(`${yearRisk(sum)}.`)]),
    paragraph(
      'Tyre contact at speed can kill. The sheet of a car decides, not this list. The sanctioning body’s rules, the ' +
        'tyre maker’s limits and a qualified chassis builder come first.',
    ),
    paragraph('Written: shop-year.csv, shop-year.html'),
  ];
}
