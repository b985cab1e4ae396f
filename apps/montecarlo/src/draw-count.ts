import { type Case, numbersIn } from '@tubgap/casefile';
import { blocksOf, openStudy } from '@tubgap/simulation';
import { drawsToSupport } from '@tubgap/statistics';
import { wholeText } from '@tubgap/units';
import { coresText, durationText } from './duration.ts';
import { blockTimes, seasonRuns } from './study/study-time.ts';

/** Simulated runs that are taken at most: of a pick, and of each setup of a study. */
export const MOST_DRAWS = 100_000_000;
export const MOST_STUDY_DRAWS = 10_000_000;
/** Above this a pick says beforehand what it may take: runs of its seasons and its own, each tyre in each tub. */
const WORTH_A_WORD = 20_000_000;
/** Bytes that a pick keeps for each tyre in each tub: 2.8 GB for 20 tyres in 50 tubs, measured. */
const BYTES_A_PAIR = 2_800_000;
const GIGABYTE = 1e9;

/** Seconds that one core takes for a block of plain runs, every tyre in each, found by trying. */
const secondsPerBlock = (source: Case): number =>
  blockTimes(openStudy([{ label: source.name, source }])).plain;

/** Why so many runs are not taken, with what they would take here; undefined when they are. */
export function tooManyDraws(source: Case, draws: number, most: number, workers: number): string | undefined {
  if (draws <= most) return undefined;
  const each = secondsPerBlock(source);
  const time = (runs: number): string => durationText((blocksOf(runs) * each) / workers);
  const what = most === MOST_DRAWS ? 'simulated runs' : 'simulated runs of each setup';
  const rarest = Math.min(...source.tyres.map((tyre) => numbersIn(source, tyre).runRisk));
  return [
    `--draws: read "${draws}"; ${wholeText(most)} ${what} are the most.`,
    `${wholeText(draws)} would take about ${time(draws)} on ${coresText(workers)}, ${wholeText(most)} about ${time(most)}.`,
    `The risk that this case accepts asks for some ${wholeText(2 * drawsToSupport(rarest))}.`,
  ].join('\n');
}

/** What a pick of many runs or cars may take, in words; undefined when it is soon done. */
export function pickTime(source: Case, workers: number): string | undefined {
  const { draws, cars } = source.simulation;
  const seasons = seasonRuns(source);
  const pairs = source.tyres.length * source.tubs.length;
  if ((draws + seasons) * pairs < WORTH_A_WORD) return undefined;
  const seconds = (blocksOf(draws + seasons) * secondsPerBlock(source)) / workers;
  const bytes = pairs * BYTES_A_PAIR;
  const memory = bytes < GIGABYTE ? '' : `, and about ${(bytes / GIGABYTE).toFixed(1)} GB of memory`;
  const tyres = source.tyres.length === 1 ? '1 tyre' : `${source.tyres.length} tyres`;
  const tubs = source.tubs.length === 1 ? '1 tub' : `${source.tubs.length} tubs`;
  const size = `Up to ${wholeText(draws)} simulated runs and ${wholeText(cars)} cars, ${tyres} in ${tubs}`;
  return `${size}: at most about ${durationText(seconds)} on ${coresText(workers)}${memory}; it ends as soon as more runs could move no height by 1/16 in.`;
}
