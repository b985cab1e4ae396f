import type { Case, CaseTub } from '@tubgap/casefile';
import { SIXTEENTH } from '@tubgap/units';
import { type CaseRisks, caseRisks } from '../case-risks.ts';
import { type Pick, pickHeights } from '../pick.ts';
import { caseSetup } from '../setup.ts';
import { type Findings, findingRisks } from '../tasks.ts';
import { type CellFigures, studyFigures } from './study-figures.ts';
import type { StudyPoint } from './study-point.ts';
import { emptyPlain, emptyWeightedSums } from './study-sums.ts';
import { openStudy, type PerformStudy, type PointTotals, runStudy, type StudySample } from './study-tasks.ts';

/** Setups are compared at no height. */
const NOWHERE: readonly (readonly number[])[] = [];

/** A tub with its centre at one place, m ahead of the axle: [tyre or, last, all tyres]. */
export interface PlacedTub {
  centreForward: number;
  figures: CellFigures[];
}

/** The case with one tub moved along the car. */
export const withCentre = (source: Case, tub: number, centreForward: number): Case => ({
  ...source,
  tubs: source.tubs.map((one, t) => (t === tub ? { ...one, centreForward } : one)),
});

/** Makes the tasks of a study of the case in such tubs. */
export type PerformTubs = (tubs: readonly CaseTub[]) => PerformStudy;

/** Height of a tub at a place for comparisons, m; Infinity where there is none. */
export const comparedHeight = (place: PlacedTub): number =>
  place.figures.at(-1)!.even?.height ?? Number.POSITIVE_INFINITY;

/** Lowest point of a parabola through three equally spaced heights, m ahead of the middle one, within half a step. */
export function parabolaOffset(before: number, middle: number, after: number, step: number): number {
  const bend = before - 2 * middle + after;
  if (!(bend > 0) || !Number.isFinite(bend)) return 0;
  return Math.max(-0.5, Math.min(0.5, (before - after) / (2 * bend))) * step;
}

/**
 * Best place by searched ones, to the nearest sixteenth, with the searched one that it lies at; undefined when none has a
 * height.
 * @param heights  of the searched places, m; Infinity where one has none, or none that will do
 */
export function nearBest(
  searched: readonly PlacedTub[],
  heights: readonly number[],
): { index: number; place: number } | undefined {
  const least = Math.min(...heights);
  if (!Number.isFinite(least)) return undefined;
  const index = heights.indexOf(least);
  const here = searched[index]!.centreForward;
  const [behind, ahead] = [searched[index - 1], searched[index + 1]];
  const step = behind && here - behind.centreForward;
  const isEven =
    step !== undefined && ahead !== undefined && Math.abs(ahead.centreForward - here - step) < 1e-9;
  const offset = isEven ? parabolaOffset(heights[index - 1]!, least, heights[index + 1]!, step) : 0;
  return { index, place: Math.round((here + offset) / SIXTEENTH) * SIXTEENTH };
}

/** Each tub of a case at its places, all with the same draws: [tub][place]. */
export async function lookAtPlaces(
  source: Case,
  places: readonly (readonly number[])[],
  sample: StudySample,
  performTubs: PerformTubs,
): Promise<PlacedTub[][]> {
  const tubs = source.tubs.flatMap((tub, t) =>
    places[t]!.map((centreForward) => ({ ...tub, centreForward })),
  );
  if (tubs.length === 0) return places.map(() => []);
  const study = openStudy([{ label: source.name, source: { ...source, tubs } }]);
  let rows: CellFigures[][] = [];
  await runStudy(study, { ...sample, heights: NOWHERE }, performTubs(tubs), (totals) => {
    rows = studyFigures(study.points[0]!, totals, source.accept.runRisk, NOWHERE);
  });
  let t = 0;
  return places.map((ofTub) =>
    ofTub.map((centreForward): PlacedTub => {
      const figures = rows.map((row) => row[t]!);
      t++;
      return { centreForward, figures };
    }),
  );
}

/** The case's tubs where they stand: by the rule of a pick, seasons included, and for comparisons. */
export interface StandingTubs {
  picks: Pick[];
  placed: PlacedTub[];
}

const standingTubs = (
  source: Case,
  point: StudyPoint,
  risks: CaseRisks,
  totals: PointTotals,
): StandingTubs => {
  const rows = studyFigures(point, totals, source.accept.runRisk, NOWHERE);
  return {
    picks: pickHeights(source, point.setup, risks, totals.plain.tallies),
    placed: source.tubs.map(({ centreForward }, t) => ({
      centreForward,
      figures: rows.map((row) => row[t]!),
    })),
  };
};

/** Picks a case's tubs where they stand. @throws ModelRangeError when a draw leaves what the model knows */
export async function pickWhereTheyStand(
  source: Case,
  sample: StudySample,
  performTubs: PerformTubs,
): Promise<StandingTubs> {
  const study = openStudy([{ label: source.name, source }]);
  const { cars } = source.simulation;
  const plan = { ...sample, heights: NOWHERE, seasons: { cars, accepted: source.accept.seasonRisk } };
  let found: StandingTubs | undefined;
  await runStudy(study, plan, performTubs(source.tubs), (totals) => {
    const { counted, unseen, weighted } = totals.seasons!;
    const tail = totals.weighted.tallies;
    const risks = caseRisks(
      totals.plain.tallies,
      tail.all.events > 0 ? tail : undefined,
      counted,
      weighted.events > 0 ? weighted : undefined,
      unseen,
    );
    found = standingTubs(source, study.points[0]!, risks, totals);
  });
  return found!;
}

/** The same of a case that has been picked. */
export function pickedWhereTheyStand(source: Case, found: Findings): StandingTubs {
  const [point] = openStudy([{ label: source.name, source }]).points;
  const plain = { ...emptyPlain(point!, NOWHERE), tallies: found.runs };
  const weighted = { ...emptyWeightedSums(point!, NOWHERE), tallies: found.tail };
  // Without parts nothing is told of how a height scatters, which no place is asked.
  const totals = { plain, weighted, plainParts: [], weightedParts: [] };
  const setup = caseSetup(source);
  return standingTubs(source, { ...point!, setup }, findingRisks(found), totals);
}
