import { limitsOf, type Result } from '@tubgap/results';
import { chanceCell, figuresIn } from '@tubgap/units';
import { boundWords, columnsOf, type SheetTable, yesNo } from '@tubgap/wording';
import { unknownTubs } from '../fit-words.ts';
import { chosenTub } from '../sheets/chosen-tub.ts';
import { tubFits } from '../sheets/envelope.ts';

/** One car of the shop's year: its results folder as it was named, and what stands in it. */
export interface YearCar {
  folder: string;
  result: Result;
}

/** Runs of a car's season over all of its tyres. */
export const seasonRuns = (result: Result): number =>
  result.tyres.reduce((sum, tyre) => sum + tyre.runsPerSeason, 0);

/** Whether the tub to build finds room on the car, as far as the case gives limits. */
export function fitsCar(result: Result): 'yes' | 'no' | 'not given' | 'not known' {
  if (Object.keys(result.envelope).length === 0) return 'not given';
  if (result.chosen === null && unknownTubs(result).length > 0) return 'not known';
  const fit = tubFits(result)[result.chosen ?? -1];
  return fit?.fitsBoth === true ? 'yes' : 'no';
}

/** Every car in one line, in millimetres where every case is: its tub, where it stands, how it is limited, what was accepted and what is assumed. */
export function yearTable(cars: readonly YearCar[]): SheetTable {
  const metric = cars.every(({ result }) => result.case.units === 'mm');
  const { units, cell } = figuresIn(metric ? 'mm' : 'inch');
  return {
    columns: columnsOf(
      units,
      'case',
      'title',
      'invented',
      'folder',
      'tyres',
      'runs_per_season',
      'tub',
      'top_height',
      'set_out',
      'centre_forward',
      'fits_car',
      'limiting_tyre',
      'run_risk_high',
      'run_risk_accepted',
      'contact_risk_high',
      'season_risk_high',
      'season_risk_accepted',
      'inputs_assumed',
      'inputs',
      'draws',
      'seed',
      'made_by',
    ),
    rows: cars.map(({ folder, result }) => {
      const chosen = chosenTub(result);
      const height = chosen?.height;
      return [
        result.case.name,
        result.case.title,
        yesNo(result.case.invented),
        folder,
        result.tyres.map((tyre) => tyre.name).join('; '),
        seasonRuns(result),
        chosen?.tub.name ?? '',
        height === undefined ? '' : cell(height.topHeight),
        chosen === undefined ? '' : cell(chosen.setOut),
        chosen === undefined ? '' : cell(chosen.tub.centreForward),
        fitsCar(result),
        height?.limitingTyre ?? '',
        height === undefined ? '' : chanceCell(height.runRisk.high),
        chanceCell(limitsOf(result, height?.limitingTyre).runRisk),
        height === undefined ? '' : chanceCell(height.contactRisk.high),
        height === undefined ? '' : chanceCell(height.seasonRisk.high),
        chanceCell(result.accept.seasonRisk),
        result.inputs.filter((input) => input.source === 'assumed').length,
        result.inputs.length,
        result.draws,
        result.seed,
        result.madeBy,
      ];
    }),
  };
}

/** What holds for all of the shop's cars together. */
export interface YearSum {
  cars: number;
  withTub: number;
  runs: number;
  /**
   * Most that the chance can be that one of these cars goes under its reserve in its season: the sum of the upper
   * bounds, which holds whether or not the cars have causes in common. Cars without a tub are left out.
   */
  seasonRisk: number;
}

export function yearSum(cars: readonly YearCar[]): YearSum {
  const heights = cars.flatMap(({ result }) => chosenTub(result)?.height ?? []);
  return {
    cars: cars.length,
    withTub: heights.length,
    runs: cars.reduce((sum, { result }) => sum + seasonRuns(result), 0),
    seasonRisk: Math.min(
      1,
      heights.reduce((sum, height) => sum + height.seasonRisk.high, 0),
    ),
  };
}

/** How likely it is that any car with a tub comes too close in its season, in words without a full stop. */
export const yearRisk = ({ withTub, seasonRisk }: YearSum): string =>
  withTub === 1
    ? `The car with a tub comes closer in its season than the gap to be kept: ${boundWords(seasonRisk)}`
    : `One or more of the ${withTub} cars with a tub come closer in the season than the gap to be kept: ${boundWords(seasonRisk)}`;
