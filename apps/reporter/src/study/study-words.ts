import type { Study, StudyCell } from '@tubgap/results';
import { type Figures, oneIn, wholeText } from '@tubgap/units';
import { BLANK, type Block, heading, line, row } from '@tubgap/wording';
import { figuresOf } from '../figures-of.ts';
import { hasSeasons } from './study-cells.ts';

type Difference = NonNullable<StudyCell['heightDifference']>;

/**
 * What a cell asks for beside another, m: what their heights differ by as a tape shows them, so that figures side by side
 * subtract; the estimate from the same draws where one of them has no height. Undefined where that is not known either.
 */
function heightBeside({ tapeDifference }: Figures, cell: StudyCell, other: StudyCell): number | undefined {
  if (cell.heightDifference === null) return undefined;
  return cell.topHeight === null || other.topHeight === null
    ? cell.heightDifference.estimate
    : tapeDifference([cell.topHeight, 'up'], [other.topHeight, 'up']);
}

/** The same in words: '1/8 in more'; undefined where it is not known. */
export function moreBeside(figures: Figures, cell: StudyCell, other: StudyCell): string | undefined {
  const difference = heightBeside(figures, cell, other);
  return difference === undefined ? undefined : figures.more(difference);
}

/** The same with its interval where that is wider than a tape shows; empty where it is not known. */
export function changeText(figures: Figures, cell: StudyCell, other: StudyCell): string {
  const { heightDifference: change } = cell;
  if (change === null) return '';
  const half = 0.5 * (change.high - change.low);
  const words = moreBeside(figures, cell, other) ?? '';
  return half < 0.5 * figures.step ? words : `${words} (± ${figures.length(half, 'up')})`;
}

/** Of so many runs how many more or fewer: '3.1 more of 10,000 runs come too close (2.8 to 3.4)'. */
export function riskChangeText(change: Difference | null): string {
  if (change === null) return '';
  const { estimate, low, high } = change;
  if (estimate === 0 && low === 0 && high === 0) return 'the same risk';
  const size = Math.max(Math.abs(estimate), 0.1 * Math.max(Math.abs(low), Math.abs(high)));
  const of = 10 ** Math.max(2, Math.ceil(-Math.log10(size)));
  const runs = (share: number): string =>
    String(Number((share * of).toPrecision(Math.abs(share * of) < 10 ? 2 : 3)));
  if (low <= 0 && high >= 0) {
    return `no difference to be told: surely no more than ${runs(Math.max(-low, high))} of ${wholeText(of)} runs either way`;
  }
  const [least, most] = estimate > 0 ? [low, high] : [-high, -low];
  return `${runs(Math.abs(estimate))} ${estimate > 0 ? 'more' : 'fewer'} of ${wholeText(of)} runs come too close (${runs(least)} to ${runs(most)})`;
}

/** Whether a height is there to be found, but too few runs stand behind it. */
export const isTooFew = ({ topHeight, heightAtRisk }: StudyCell): boolean =>
  topHeight === null && heightAtRisk !== null;

/** A height for the table; why there is none. */
export function heightText({ length }: Figures, cell: StudyCell): string {
  if (cell.topHeight !== null) return length(cell.topHeight, 'up');
  if (isTooFew(cell)) return 'too few runs';
  return cell.decidedBy === 'arc' ? 'none' : `none: ${decidedText(cell)} in the way`;
}

/** A height in a sentence; why there is none. */
export function heightWords({ length }: Figures, cell: StudyCell): string {
  if (cell.topHeight !== null) return `top at least ${length(cell.topHeight, 'up')}`;
  if (isTooFew(cell)) return 'too few runs to support the accepted risk: give more --draws';
  return `no height keeps the accepted risk: ${noHeight(cell)}`;
}

/** Head and cell of the height that keeps the accepted season risk too; none where no seasons were run. */
export const seasonHeads = (study: Study): string[] => (hasSeasons(study) ? ['season too'] : []);
export const seasonTexts = (study: Study, { seasonTopHeight = null }: StudyCell): string[] =>
  hasSeasons(study)
    ? [seasonTopHeight === null ? 'none found' : figuresOf(study).length(seasonTopHeight, 'up')]
    : [];

/** Heads of what is told beside the run risk at one height in a printed table: by a pick's words. */
export const besideHeads = (study: Study): string[] => [
  'real contact',
  ...(hasSeasons(study) ? ['a season'] : []),
  'gap, 1 run in 100',
];

/** The same of a cell; of one that has no such height nothing. */
export const besideTexts = (study: Study, compared: StudyCell['compared'][number] | undefined): string[] => [
  riskText(compared?.contact),
  ...(hasSeasons(study) ? [riskText(compared?.season)] : []),
  compared === undefined ? '' : figuresOf(study).gapLeft(compared.gaps.atSpeed.p01),
];

/** A risk for the table: its upper bound where nothing touched. */
export function riskText(risk: Readonly<{ estimate: number; high: number }> | undefined): string {
  if (risk === undefined) return '';
  const { estimate, high } = risk;
  return estimate === 0 ? `under ${oneIn(high)}` : oneIn(estimate);
}

type Deciding = Pick<StudyCell, 'decidedBy' | 'hardPoint'>;

/** What decides a height, as a table says it: 'arc', 'leg', or the hard point by its name. */
export const decidedText = ({ decidedBy, hardPoint }: Deciding): string =>
  decidedBy === 'hard point' ? hardPoint : decidedBy;

/** The same in a sentence. */
export function decidedWords({ decidedBy, hardPoint }: Deciding): string {
  if (decidedBy === 'hard point') return `the hard point ${hardPoint}`;
  return decidedBy === 'leg' ? 'a leg' : 'the arc';
}

/** Why there is no height at a place or in a setup. */
export function noHeight({ decidedBy, hardPoint }: Deciding): string {
  if (decidedBy === 'arc') return 'the arc is too small there';
  const what = decidedBy === 'leg' ? 'a leg of the tub' : `the hard point ${hardPoint}`;
  return `${what} is in the way, which no height helps`;
}

/** The case's title, and that it is invented. */
export const headline = (study: Study): Block[] => [
  BLANK,
  heading(`${study.case.title}${study.case.invented ? '  [an invented car]' : ''}`),
  ...study.settings
    .filter(() => study.kind !== 'setups')
    .map(({ path, value }) => line(`with ${path} = ${value}`)),
  BLANK,
];

const COMPARED =
  'these heights are for comparing; they heed the risk of a run, not of a season. Build by tubgap pick';
/** What the heights of each kind of study heed, and what builds the tub. */
const HEEDED: Record<Study['kind'], string> = {
  classes: 'build by tubgap pick, which heeds the season too',
  places:
    'the best place and its height are the ones that tubgap pick finds, seasons included; what other places cost heeds the risk of a run alone. Build by tubgap pick',
  setups: COMPARED,
  optimum:
    'the height of the best is the one that tubgap pick finds with its values, seasons included; all others heed the risk of a run alone. Build by tubgap pick',
  sweep: COMPARED,
};

/** What every study ends with. */
export const ending = (study: Study): Block[] => [
  ...study.notes.map((note) => row('Note', figuresOf(study).wordsOf(note))),
  row(
    'Mind',
    `${HEEDED[study.kind]}. Tyre contact at speed can kill: the sanctioning body’s rules, the tyre maker’s limits and a qualified chassis builder come first.`,
  ),
];

/** 'street-42 (42 1/2 in inside)' */
export const tubText = ({ length }: Figures, { name, diameter }: Study['tubs'][number]): string =>
  `${name} (${length(diameter, 'down')} inside)`;

/** 'a, b and c' */
export const listText = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
