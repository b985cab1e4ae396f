import { labelledBars, type Markup, markup } from '@tubgap/drawing';
import type { Result } from '@tubgap/results';
import { angleWords, chanceText } from '@tubgap/units';
import { carSpreadWords, inputNamed, inputWords } from '@tubgap/wording';
import { askedHeight, largerGrowthSentence } from '../change-words.ts';
import { figuresOf } from '../figures-of.ts';
import { LEARNED_BY } from '../learned-by.ts';
import { measuresOf, percent } from './measures.ts';
import { figure, list, table } from './parts.ts';

/** Inputs that are drawn, and measurements that are named: what a phone shows at once. */
const SHOWN = 5;
const NAMED = 6;

/** Least share of the spread in height that makes a measurement worth a name. */
export const WORTH_NAMING = 0.01;

const name = (row: { tyre: string; label: string }): string =>
  row.tyre === '' ? inputWords(row.label) : `${row.tyre}: ${inputWords(row.label)}`;

const GROUP_NAMES: Readonly<Record<string, string>> = {
  tyre: 'the tyre',
  car: 'the car',
  builder: 'how it is built and set',
  day: 'the day and the driver',
};

/** How the cars that fit the description differ; nothing when it was not looked for. */
function carsDiffer(result: Result): Markup | undefined {
  const { carSpread } = result;
  if (carSpread === undefined) return undefined;
  const which = carSpread === null ? '' : ' Measuring tells which one yours is.';
  return markup`<p>Cars that fit this description differ: ${carSpreadWords(carSpread)}.${which}</p>`;
}

/** What drives the risk: inputs by what they do to the height that is needed; undefined when it was not looked for. */
export function driversPart(result: Result): Markup | undefined {
  const { drivers, driverGroups = [] } = result;
  if (drivers === undefined || drivers.length === 0) return undefined;
  const shown = drivers.toSorted((a, b) => b.total.value - a.total.value).slice(0, SHOWN);
  const groups = driverGroups.map((row) => ({
    label: GROUP_NAMES[row.group] ?? row.group,
    bars: [row.first, row.total].map((part) => ({ ...part, text: percent(part.value) })),
  }));
  const svg = labelledBars({
    words: {
      id: 'drivers',
      title: 'What drives the height that is needed',
      description: `Largest first: ${shown.map((row) => `${name(row)} ${percent(row.total.value)}`).join(', ')}. ${groups
        .map((row) => `${row.label} ${row.bars[1]!.text}`)
        .join(', ')}.`,
    },
    series: ['alone', 'with the others'],
    rows: [
      ...shown.map((row) => ({
        label: name(row),
        bars: [row.first, row.total].map((part) => ({ ...part, text: percent(part.value) })),
      })),
      ...groups.map((row, i) => ({ ...row, apart: i === 0 })),
    ],
  });
  return markup`<p>How much of the spread of the height that a run needs each input makes. What is uncertain drives the risk, not what is
large: a big growth that is well known asks for height, but leaves little to chance.</p>${carsDiffer(result)}
${figure(
  svg,
  'Alone, and with what it does together with others; under the line the same by who has a hand in it. Thin lines: how far off a bar may be (95 %).',
)}`;
}

/** What would change the pick; undefined when nothing is known. */
export function changesPart(result: Result): Markup | undefined {
  const larger = result.chosen === null ? undefined : largerGrowthSentence(result);
  const growth =
    larger !== undefined &&
    markup`<p><b>${larger}.</b> No measured growth of a drag slick was found in open literature, so this is worth
knowing.</p>`;
  const { changes } = result;
  if (changes === undefined || changes.length === 0) return growth === false ? undefined : growth;
  return markup`${growth}${table({
    caption:
      'What a change would ask for in top height, and what it does to the risk when the height stays. From fewer runs than the risks above: compare the two.',
    head: [
      { text: 'change' },
      { text: 'top height needed', figure: true },
      { text: 'run too close, now', figure: true },
      { text: 'then', figure: true },
    ],
    rows: changes.map((change) => ({
      cells: [
        { text: figuresOf(result).wordsOf(change.label) },
        {
          text: askedHeight(change, figuresOf(result)),
          figure: true,
        },
        { text: chanceText(change.runRisk.before), figure: true },
        { text: chanceText(change.runRisk.after), figure: true },
      ],
    })),
  })}`;
}

/** What the notches of the tub to build cost; undefined when it has none. */
export function notchesPart(result: Result): Markup | undefined {
  const { both } = measuresOf(result);
  const { notches } = result;
  if (notches === undefined || notches.length === 0) return undefined;
  return table({
    caption:
      'What each notch of the tub to build costs in top height, and how deep it may be at the height above.',
    head: [
      { text: 'notch' },
      { text: 'depth', figure: true },
      { text: 'costs', figure: true },
      { text: 'deepest', figure: true },
    ],
    rows: notches.map((notch) => ({
      cells: [
        { text: angleWords(notch.angle) },
        { text: both(notch.depth, 'up'), figure: true },
        { text: notch.height > 0 ? both(notch.height, 'up') : 'nothing', figure: true },
        { text: both(notch.deepest, 'down'), figure: true },
      ],
    })),
  });
}

/** What to measure next, the most telling first; undefined when it was not looked for. */
export function measurePart(result: Result): Markup | undefined {
  const named = (result.measureNext ?? []).filter((row) => row.share >= WORTH_NAMING).slice(0, NAMED);
  if (named.length === 0) return undefined;
  return markup`<p>Learned of this car and written into the case, these take most of the doubt away:</p>
${list(named.map((row) => markup`<b>${inputNamed(row.label)}</b>: ${percent(row.share)} of the spread in height; ${LEARNED_BY[row.each]}`))}`;
}
