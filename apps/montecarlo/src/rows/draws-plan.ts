import { createHash } from 'node:crypto';
import type { Case, ClassNumbers } from '@tubgap/casefile';
import { type AskedGaps, caseSetup, type Sample } from '@tubgap/simulation';
import { BLOCK } from '@tubgap/statistics';
import {
  AXLE_COLUMN,
  answerColumns,
  DRAW_COLUMNS,
  drawnInputs,
  inputColumn,
  type RowColumn,
} from './columns.ts';

/** Blocks of one file of draws: some 30 MB as text with two tyres, so that no thread holds much. */
const PART_BLOCKS = 16;

/** Kinds of files. */
export const FORMATS = ['csv', 'parquet'] as const;
export type Format = (typeof FORMATS)[number];

/** All that a thread needs to write any part of a case's draws. */
export interface DrawsPlan {
  source: Case;
  sample: Sample;
  drawnBy: 'plain' | 'weighted';
  asked: AskedGaps | undefined;
  format: Format;
  madeBy: string;
}

/** Columns of a plan's table. */
export function planColumns({ source, asked }: DrawsPlan): RowColumn[] {
  const { inputs, drawn } = drawnInputs(caseSetup(source));
  return [
    ...DRAW_COLUMNS,
    ...drawn.map((k) => inputColumn(inputs[k]!)),
    AXLE_COLUMN,
    ...answerColumns(source, asked),
  ];
}

/** Files that a plan's draws make. */
export const partTotal = ({ sample }: DrawsPlan): number => Math.ceil(sample.draws / (BLOCK * PART_BLOCKS));

/** Blocks of a part, counted from 1: the first, and the one behind its last. */
export function partBlocks({ sample }: DrawsPlan, part: number): { firstBlock: number; endBlock: number } {
  const firstBlock = (part - 1) * PART_BLOCKS;
  return { firstBlock, endBlock: Math.min(firstBlock + PART_BLOCKS, Math.ceil(sample.draws / BLOCK)) };
}

/** Name of a part's file: 'draws-0003-of-0062.csv'. */
export const partFile = (plan: DrawsPlan, part: number): string => {
  const digits = (n: number) => String(n).padStart(4, '0');
  return `draws-${digits(part)}-of-${digits(partTotal(plan))}.${plan.format}`;
};

/** Exact numbers of the classes that have some of their own, by the name of the tyre in its class; m, chances. */
function classesApart({ tyres }: Case): {
  classes?: Record<string, Partial<ClassNumbers> & { tyre: string }>;
} {
  const apart = tyres.filter(({ own, name, tyre }) => own !== undefined || name !== tyre);
  if (apart.length === 0) return {};
  return { classes: Object.fromEntries(apart.map(({ name, tyre, own }) => [name, { tyre, ...own }])) };
}

/** What a folder of draws says of itself; the same plan gives the same text. */
export function planText(plan: DrawsPlan): string {
  const { source, sample, drawnBy, asked, format, madeBy } = plan;
  const setup = caseSetup(source);
  const { inputs, fixed } = drawnInputs(setup);
  const about = {
    format: 'tubgap draws',
    version: 1,
    caution:
      'Tyre contact at speed can kill. Draws of a model with assumed inputs; the sanctioning body’s rules, the tyre maker’s limits and a qualified chassis builder come first.',
    madeBy,
    case: source.name,
    invented: source.invented,
    caseDigest: createHash('sha256')
      .update(JSON.stringify({ ...source, file: '', warnings: [] }))
      .digest('hex'),
    seed: sample.seed,
    draws: sample.draws,
    drawn: drawnBy,
    parts: partTotal(plan),
    files: format,
    tubs: source.tubs.map(({ name }) => name),
    tyres: source.tyres.map(({ name }) => name),
    acceptedRunRisk: source.accept.runRisk,
    gapToBeKept: source.build.reserve,
    ...classesApart(source),
    ...(asked && { gapsIn: { tub: source.tubs[asked.tub]!.name, topHeight: asked.topHeight } }),
    columns: planColumns(plan).map(({ name, unit, about: meaning }) => ({ name, unit, about: meaning })),
    /** The same in every row of a tyre, so that no column is spent on it. */
    fixed: setup.tyres.map(({ name, centralCar, centralTyre }) => ({
      tyre: name,
      values: Object.fromEntries(
        fixed.map((k) => {
          const { group, index } = inputs[k]!;
          return [inputColumn(inputs[k]!).name, (group === 'car' ? centralCar : centralTyre)[index]!];
        }),
      ),
    })),
  };
  return `${JSON.stringify(about, null, 1)}\n`;
}
