import { numbersIn } from '@tubgap/casefile';
import { countLeftOut, placeText, refusalWords } from '@tubgap/evidence';
import { chanceOfFew, figuresIn, percentText, wholeText } from '@tubgap/units';
import {
  BLANK,
  type Block,
  comesClose,
  heading,
  inputWords,
  line,
  paragraph,
  rowsOf,
  strongRow,
} from '@tubgap/wording';
import type { Learning } from './learning.ts';
import type { Outcome } from './outcome.ts';
import { folderReader, rejectedLines } from './rejected-words.ts';
import { standingRows } from './standing-words.ts';
import { type LabelledText, stopRows, stopText } from './stop-words.ts';

/** '1.47 in (1.32 to 1.62 in)' at the finish, before or after. */
function growthAt({ growth, finishSpeed, source, tyre }: Learning, which: 'before' | 'after'): string {
  const { fine, fineNumber } = figuresIn(source.units);
  const curve = growth.find((one) => one.tyre === source.tyres[tyre]!.name)!;
  const k = curve.speeds.reduce(
    (best, speed, i) =>
      Math.abs(speed - finishSpeed) < Math.abs(curve.speeds[best]! - finishSpeed) ? i : best,
    0,
  );
  const band = curve[which];
  return `${fine(band.middle[k]!)} (${fineNumber(band.low[k]!)} to ${fine(band.high[k]!)})`;
}

/** Build before and after, in words. */
export function buildWords({ source, before, after, tub }: Learning): string {
  const { length, more, tapeDifference } = figuresIn(source.units);
  const name = source.tubs[tub]!.name;
  const was = before.picks[tub]?.height?.topHeight;
  const is = after.picks[tub]?.height?.topHeight;
  const other =
    after.chosen !== undefined && after.chosen !== before.chosen ? source.tubs[after.chosen]! : undefined;
  const smaller =
    other === undefined
      ? ''
      : `; the tub to build is now ${other.name}, top ${length(after.picks[after.chosen!]!.height!.topHeight, 'up')}`;
  if (was === undefined && is === undefined)
    return `no tub of this case has a height, before or after${smaller}`;
  if (was === undefined) return `${name} tub: top ${length(is!, 'up')}; before there was none${smaller}`;
  if (is === undefined) return `${name} tub: no height any more; it was ${length(was, 'up')}${smaller}`;
  return `${name} tub: top ${length(is, 'up')}, was ${length(was, 'up')}: ${more(tapeDifference([is, 'up'], [was, 'up']))}${smaller}`;
}

/** Run risk of the limiting tyre at the height of before, in words. */
export function riskWords({ source, before, after, tub, tyre }: Learning): string | undefined {
  const height = before.picks[tub]?.height?.topHeight;
  if (height === undefined) return undefined;
  const at = (of: typeof before): string => {
    const { estimate, high } = of.risks[tub]!.touch[tyre]!;
    return estimate > 0 ? chanceOfFew(estimate) : `under ${chanceOfFew(high)}`;
  };
  const { reserve, runRisk } = numbersIn(source, source.tyres[tyre]!);
  return `at ${figuresIn(source.units).length(height, 'up')} a run ${comesClose(reserve, source.units)}: ${at(after)}, before ${at(before)} (accepted: ${chanceOfFew(runRisk)})`;
}

/** What each part taught, in words. */
export function contributionWords({ source, contributions, quickHolds }: Learning): string[] {
  const { step, more } = figuresIn(source.units);
  const left = (share: number): string => (share < 0.95 ? `, ${percentText(share)} of its spread left` : '');
  return contributions.parts
    .slice()
    .sort((a, b) => Math.abs(b.heightChange) - Math.abs(a.heightChange))
    .map(({ kind, label, spreadLeft, heightChange: change }) => {
      const what = `${inputWords(label)}${left(spreadLeft)}`;
      if (!quickHolds) return `${kind}: ${what}`;
      return `${kind}: ${more(change)}${Math.abs(change) < step / 2 ? ' height' : ''} alone (${what})`;
    });
}

/** What to measure next, in words; the first of those worth anything. */
export function worthWords({ source, worths, quickHolds }: Learning, most = 3): string {
  const { length, more, step } = figuresIn(source.units);
  if (!quickHolds)
    return 'not told: the height now hangs on where the legs of this tub end, and quick figures do not follow that';
  const known = worths.filter(({ expected }) => expected >= step / 4).slice(0, most);
  if (known.length === 0) return `nothing that would change the height by ${length(step, 'nearest')}`;
  return known
    .map(({ label, expected, low, high }) => {
      const gain =
        expected >= step / 2 ? `saves about ${length(expected, 'nearest')}` : 'saves little on average';
      return `${label}: ${gain} (between ${more(low)} and ${more(high)})`;
    })
    .join('; ');
}

/** How far the answer may be trusted, in words; the measures behind it stand in brackets. */
export function sureWords({ learned: { sampling } }: Learning): string {
  const { chains, worstRHat, leastEffectiveDraws, widened } = sampling;
  return `${chains} searches, each from a start of its own, end at the same answer; it rests on at least ${wholeText(leastEffectiveDraws)} different cars that fit the readings (R-hat ${worstRHat.toFixed(3)}, 1 at best; ${wholeText(leastEffectiveDraws)} effective draws)${
    widened > 1 ? `; ranges widened by ${percentText(widened - 1)}, so that no rare case comes out short` : ''
  }`;
}

/** What was learned and what a tub built anew would be, a row each. */
function learnedRows(learning: Learning): LabelledText[] {
  const { source, measured, conflicts, tyre } = learning;
  const { speedText } = figuresIn(source.units);
  const rows = learning.contributions.parts.reduce((sum, part) => sum + part.readings, 0);
  const left = countLeftOut(measured.rejected);
  const shown = measured.rejected.slice(0, 8);
  const risk = riskWords(learning);
  return [
    {
      label: 'LEARNED',
      text: `from ${measured.origins.length} ${measured.origins.length === 1 ? 'file' : 'files'}, ${rows} readings${
        left > 0 ? `; ${left} ${left === 1 ? 'row' : 'rows'} left out, see below` : '; no row left out'
      }`,
    },
    { label: 'Build anew', text: buildWords(learning) },
    ...(risk === undefined ? [] : [{ label: 'Risk', text: risk }]),
    {
      label: 'Growth',
      text: `${source.tyres[tyre]!.name} at ${speedText(learning.finishSpeed)}: ${growthAt(learning, 'after')}, was ${growthAt(learning, 'before')}; nine in ten lie between`,
    },
    ...contributionWords(learning).map((text, i) => ({ label: i === 0 ? 'What taught' : '', text })),
    { label: 'Measure next', text: worthWords(learning) },
    ...conflicts.map((conflict, i) => ({
      label: i === 0 ? 'Look again' : '',
      text: `${conflict.reading} sits badly with ${conflict.against} (1 time in ${Math.round(1 / conflict.chance)})`,
    })),
    ...shown.map((one, i) => ({ label: i === 0 ? 'Left out' : '', text: `${placeText(one)} ${one.reason}` })),
    ...(measured.rejected.length > shown.length
      ? [{ label: '', text: `and ${left - countLeftOut(shown)} more in rejected-rows.csv` }]
      : []),
    ...(measured.unknown.length > 0 ? [{ label: 'Not read', text: measured.unknown.join(', ') }] : []),
    { label: 'How sure', text: sureWords(learning) },
    {
      label: 'Use it',
      text: 'copy learned.yaml into the case’s folder, write the line "learned: learned.yaml" into the case, and run tubgap pick: only that height is one to build by',
    },
  ];
}

/** What a fabricator reads in ten seconds; what stops the car comes first. @param place  of the results folder */
export function learnWords(outcome: Outcome, place: string): Block[] {
  const { source, measured, stops, standing, result } = outcome;
  const stop = stopText(stops);
  const rows = [
    ...stopRows(stops, source.units),
    ...(standing === undefined ? [] : standingRows(source, standing, stops.rubs.length > 0)),
    ...('learning' in result
      ? learnedRows(result.learning)
      : [...rejectedLines(measured), ...refusalWords(result.refusal, folderReader(measured)).why].map(
          (text, i) => ({
            label: i === 0 ? 'Not learned' : '',
            text: text.trim(),
          }),
        )),
  ];
  return [
    ...(stop === undefined ? [] : [strongRow('DO NOT RUN', stop)]),
    BLANK,
    heading(`  ${source.title}${source.invented ? ' [an invented car]' : ''}`),
    BLANK,
    ...rowsOf(rows),
    BLANK,
    paragraph(
      'Tyre contact at speed can kill. Learned from this car alone and no better than its measurements; the ' +
        "sanctioning body's rules, the tyre maker's limits and a qualified chassis builder come first.",
    ),
    line(`  Written to ${place}`),
  ];
}
