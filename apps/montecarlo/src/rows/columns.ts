import type { Case } from '@tubgap/casefile';
import { type AskedGaps, type CaseSetup, type RowInput, rowInputs } from '@tubgap/simulation';
import { type QuantityKind, toDegrees, UNITS } from '@tubgap/units';

/** A column of a table of runs; numbers are SI. */
export interface RowColumn {
  /** With its unit behind it: 'suspension.wheelRate_N_m'. */
  name: string;
  /** Empty for words, counts and ratios. */
  unit: string;
  about: string;
  kind: 'number' | 'count' | 'word';
}

/** The SI unit of a kind, as a column's name carries it: 'N_m' of N/m; empty for a ratio. */
export const siUnit = (kind: QuantityKind): string =>
  UNITS[kind].findLast(({ factor, offset }) => factor === 1 && offset === 0)!.name;

const named = (name: string, unit: string): string =>
  unit === '' ? name : `${name}_${unit.replaceAll('/', '_')}`;

const number = (name: string, unit: string, about: string): RowColumn => ({
  name: named(name, unit),
  unit,
  about,
  kind: 'number',
});
const word = (name: string, about: string): RowColumn => ({ name, unit: '', about, kind: 'word' });
const count = (name: string, about: string): RowColumn => ({ name, unit: '', about, kind: 'count' });

/** Column of an input. */
export const inputColumn = ({ path, kind, label }: Pick<RowInput, 'path' | 'kind' | 'label'>): RowColumn =>
  number(path, siUnit(kind), label);

/** Column of the axle's height, which a build tyre gives where it was not measured. */
export const AXLE_COLUMN = number('build.axleHeight', 'm', 'axle above the track where the tub was set');

/** What every row of a table of draws begins with. */
export const DRAW_COLUMNS: readonly RowColumn[] = [
  word('drawn', 'plain: by the laws of the case; weighted: from where touches are, to be counted by weight'),
  count('seed', 'seed of the draws'),
  count('block', 'block of 1,024 draws, from 0 on'),
  count('run', 'draw within its block, from 0 on; the same for every tyre of the car'),
  word('tyre', 'tyre of the run'),
  number('weight', '', '1 for plain draws; weighted: plain density over that drawn from'),
];

/** What every row of evaluated points begins with. */
export const POINT_COLUMN = count('row', 'row of the table of points, from 1');

/** What the model says of a run, in the order of `answerCells`. */
export function answerColumns(source: Case, asked: AskedGaps | undefined): RowColumn[] {
  const inTub = ({ name }: { name: string }): RowColumn[] => [
    number(
      `${name}.required_height`,
      'm',
      'lowest top height that leaves the gap to be kept in every moment; inf: no height does',
    ),
    number(`${name}.contact_height`, 'm', 'the same for a gap of nothing'),
    number(
      `${name}.tight_angle`,
      'rad',
      'hub angle of the deciding point, from straight up, forward positive',
    ),
    word(`${name}.moment`, 'deciding moment'),
    word(`${name}.wall`, 'part of the tub that decides'),
  ];
  return [
    ...source.tubs.flatMap(inTub),
    ...source.hardPoints.map(({ name }) =>
      number(`${name}.gap`, 'm', 'smallest gap to it; empty: it is not below the gap to be kept'),
    ),
    ...(asked?.angles ?? []).flatMap((angle) => {
      const at = `gap_${Number(toDegrees(angle).toFixed(3))}deg`;
      return [
        number(`${at}_at_rest`, 'm', 'from the standing tyre at this hub angle to the tub asked about'),
        number(`${at}_in_run`, 'm', 'the least of it over the moments of the run'),
      ];
    }),
  ];
}

/** Inputs that differ from run to run in a table of draws, and those that stand at one value a tyre. */
export function drawnInputs(setup: CaseSetup): { inputs: RowInput[]; drawn: number[]; fixed: number[] } {
  const inputs = rowInputs(setup);
  const indices = inputs.map((_, k) => k);
  return {
    inputs,
    drawn: indices.filter((k) => inputs[k]!.spread),
    fixed: indices.filter((k) => !inputs[k]!.spread),
  };
}
