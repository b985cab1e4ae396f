import { type Markup, markup } from '@tubgap/drawing';
import { type Figures, oneIn, wholeText } from '@tubgap/units';
import { figuresOf } from '../figures-of.ts';
import { chosenTub } from '../sheets/chosen-tub.ts';
import { SHEET_CAUTION, sheetPage, sheetTable } from '../sheets/sheet-page.ts';
import { fitsCar, type YearCar, yearRisk, yearSum } from './year.ts';

/** A place along the car in a narrow column. */
function shortPlace(metres: number, { length }: Figures): string {
  if (Math.abs(metres) < 1e-4) return 'over axle';
  return `${length(Math.abs(metres), 'nearest')} ${metres > 0 ? 'ahead' : 'behind'}`;
}

function carRow({ result }: YearCar): { cells: (string | Markup)[] } {
  const { length } = figuresOf(result);
  const chosen = chosenTub(result);
  const name = markup`${result.case.title}${result.case.invented ? ' [invented]' : ''}<br><span class="soft">${result.case.name}</span>`;
  const tyres = result.tyres.map((tyre) => `${tyre.name} × ${tyre.runsPerSeason}`).join(', ');
  const assumed = result.inputs.filter((input) => input.source === 'assumed').length;
  const end = [fitsCar(result), `${assumed} of ${result.inputs.length}`];
  if (chosen === undefined) {
    return { cells: [name, tyres, markup`<b>no tub</b>`, '', '', '', '', '', '', ...end] };
  }
  const { tub, height, setOut } = chosen;
  return {
    cells: [
      name,
      tyres,
      markup`<b>${tub.name}</b>`,
      length(setOut, 'up'),
      length(height.topHeight, 'up'),
      shortPlace(tub.centreForward, figuresOf(result)),
      oneIn(height.runRisk.high),
      oneIn(height.contactRisk.high),
      oneIn(height.seasonRisk.high),
      ...end,
    ],
  };
}

/** All cars of the shop's year on one page. */
export function yearPage(cars: readonly YearCar[]): string {
  const sum = yearSum(cars);
  return sheetPage(
    'The shop’s year: every car and its tub',
    markup`<header><h1>The shop’s year</h1><p>${String(sum.cars)} ${sum.cars === 1 ? 'car' : 'cars'}, ${wholeText(sum.runs)} runs planned</p></header>
${SHEET_CAUTION}
<main>
<p>${
      sum.withTub < sum.cars &&
      markup`<b>${String(sum.cars - sum.withTub)} of ${String(sum.cars)} cars have no tub that can be recommended.</b> `
    }${sum.withTub > 0 && `${yearRisk(sum)}${sum.withTub > 1 ? ', all upper bounds added up' : ''}.`}</p>
${sheetTable(
  'Each tub as it is set out, and its least top height for the risk that its case accepts; risks are those of the least height: surely no more often than (95 %)',
  [
    { text: 'car' },
    { text: 'tyres × runs' },
    { text: 'tub' },
    { text: 'top set out at', kind: 'n' },
    { text: 'at least', kind: 'n' },
    { text: 'centre', kind: 'n' },
    { text: 'a run', kind: 'n' },
    { text: 'real contact', kind: 'n' },
    { text: 'a season', kind: 'n' },
    { text: 'room on car', kind: 'n' },
    { text: 'assumed', kind: 'n' },
  ],
  cars.map(carRow),
)}
<p class="soft">Heights stand above the track with each car’s build tyre at its build pressure; its own build sheet says how. The sheet of a car decides, not this list.</p>
</main>
<footer>${cars.map(({ result }) => `${result.case.name}: ${result.madeBy}, seed ${result.seed}, ${wholeText(result.draws)} runs`).join('; ')}.</footer>`,
  );
}
