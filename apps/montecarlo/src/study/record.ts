import type { Case, Setting } from '@tubgap/casefile';
import { STUDY_VERSION, type Study, type StudyCell } from '@tubgap/results';
import { type CellFigures, chosenTub, type StudySample, tubSides } from '@tubgap/simulation';
import { BLOCK } from '@tubgap/statistics';
import { wholeText } from '@tubgap/units';
import { MADE_BY } from '../options.ts';

type Common = Pick<
  Study,
  | 'format'
  | 'version'
  | 'madeBy'
  | 'case'
  | 'settings'
  | 'seed'
  | 'draws'
  | 'weighted'
  | 'drawsAsked'
  | 'cars'
  | 'accept'
  | 'tyres'
  | 'tubs'
  | 'chosen'
  | 'notes'
>;

/** Runs of every setup of a study. */
export interface StudyRuns extends Pick<StudySample, 'draws' | 'weightedBlocks'> {
  /** Whether their number was asked for; else they are those of the case's pick. */
  asked: boolean;
}

/** Says that a study has other runs than the pick. */
const askedNote = ({ draws, weightedBlocks, asked }: StudyRuns): string[] =>
  asked
    ? [
        `--draws: ${wholeText(draws)} runs and ${wholeText(weightedBlocks * BLOCK)} weighted ones of every setup; tubgap pick settles the number of its runs itself, so that its figures may differ from these.`,
      ]
    : [];

/** What is known of a case and how it was asked for. */
export interface Asked {
  source: Case;
  settings: readonly Setting[];
  sample: StudyRuns;
  /** Cars whose seasons were run; null where none were. */
  cars: number | null;
  notes: readonly string[];
}

/** Index of the tub to build: that which takes least room of those that take every tyre at a height, m, and fit the car; null for none. */
export function chosenOf(source: Case, heights: readonly (number | undefined)[]): number | null {
  const sides = tubSides(source);
  const tubs = heights.map((topHeight, t) => ({
    verdict: sides[t]!.every((faults) => faults.length === 0) ? ('fits' as const) : ('does not fit' as const),
    height: topHeight === undefined ? undefined : { topHeight },
  }));
  return chosenTub(source, tubs) ?? null;
}

/**
 * What every study's file says of where it comes from.
 * @param heights  top height of the whole car in each tub, m
 */
export function commonOf(
  { source, settings, sample, cars, notes }: Asked,
  heights: readonly (number | undefined)[],
): Common {
  const sides = tubSides(source);
  return {
    format: 'tubgap study',
    version: STUDY_VERSION,
    madeBy: MADE_BY,
    case: {
      name: source.name,
      title: source.title,
      invented: source.invented,
      file: source.file,
      ...(source.units === 'mm' && { units: source.units }),
    },
    settings: settings.map(({ path, value }) => ({ path, value })),
    seed: source.simulation.seed,
    draws: sample.draws,
    weighted: sample.weightedBlocks * BLOCK,
    drawsAsked: sample.asked,
    cars,
    accept: { runRisk: source.accept.runRisk },
    tyres: source.tyres.map(({ name }) => name),
    tubs: source.tubs.map(({ name, diameter, centreForward, inStock }, t) => ({
      name,
      diameter,
      centreForward,
      sides: sides[t]!,
      ...(inStock !== undefined && { inStock }),
    })),
    chosen: chosenOf(source, heights),
    notes: [...askedNote(sample), ...notes],
  };
}

/** What was found for one tyre in one tub, as the file keeps it. */
export const cellOf = (figures: CellFigures): StudyCell => ({
  topHeight: figures.topHeight ?? null,
  ...(figures.season && { seasonTopHeight: figures.season.topHeight ?? null }),
  heightAtRisk: figures.even?.height ?? null,
  heightDifference: figures.heightDifference ?? null,
  p50: figures.p50 ?? null,
  p99: figures.p99 ?? null,
  decidedBy: figures.decidedBy,
  hardPoint: figures.hardPoint,
  compared: figures.compared.map(({ height, risk, contact, season, gaps, difference }) => ({
    height,
    risk,
    contact,
    ...(season && { season }),
    gaps: gaps!,
    difference: difference ?? null,
  })),
});
