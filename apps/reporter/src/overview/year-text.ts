import { sixteenths } from '@tubgap/units';
import { boundCell } from '@tubgap/wording';
import Table from 'cli-table3';
import { chosenTub } from '../sheets/chosen-tub.ts';
import { type YearCar, yearRisk, yearSum } from './year.ts';

/** The shop's year for the terminal. */
export function yearText(cars: readonly YearCar[]): string {
  const table = new Table({
    head: ['case', 'tub', 'top set out at', 'at least', 'a run *', 'real contact *', 'a season *'],
    style: { head: [], border: [] },
    colAligns: ['left', 'left', 'right', 'right', 'right', 'right', 'right'],
  });
  for (const { result } of cars) {
    const chosen = chosenTub(result);
    const name = `${result.case.name}${result.case.invented ? ' [invented]' : ''}`;
    if (chosen === undefined) table.push([name, 'no tub', '', '', '', '', '']);
    else {
      const { tub, height, setOut } = chosen;
      table.push([
        name,
        tub.name,
        sixteenths(setOut, 'up'),
        sixteenths(height.topHeight, 'up'),
        boundCell(height.runRisk.high),
        boundCell(height.contactRisk.high),
        boundCell(height.seasonRisk.high),
      ]);
    }
  }
  const sum = yearSum(cars);
  return `${table.toString()}
* At the least height; as set out no more.
${sum.withTub === 0 ? '' : `${yearRisk(sum)}.\n`}Tyre contact at speed can kill. The sheet of a car decides, not this list. The sanctioning body’s rules, the tyre maker’s
limits and a qualified chassis builder come first.
Written: shop-year.csv, shop-year.html
`;
}
