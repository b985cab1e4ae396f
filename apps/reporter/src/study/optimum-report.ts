import type { StudyCell } from '@tubgap/results';
import { type Figures, oneIn, tapeText } from '@tubgap/units';
import { BLANK, type Block, figureTable, limitWords, line, row, strongRow } from '@tubgap/wording';
import { figuresOf } from '../figures-of.ts';
import type { Optimum, OptimumRange } from './optimum-tables.ts';
import { changeText, decidedWords, ending, headline, heightText, listText, tubText } from './study-words.ts';
import { valueText } from './sweep-effects.ts';

/** Places in the printed table at most; the CSV has all. */
const MOST_ROWS = 8;

export const whole = (cells: readonly StudyCell[]): StudyCell => cells.at(-1)!;

/** A value as a sentence takes it: inches as a tape shows them, where they are on it. */
function told(text: string): string {
  const plain = valueText(text);
  const parts = /^([+-]?)(\d+(?:\.\d+)?) in$/.exec(plain);
  const sixteenths = parts === null ? Number.NaN : 16 * Number(parts[2]);
  return Number.isInteger(sixteenths) ? `${parts![1]}${tapeText(sixteenths)} in` : plain;
}

const bestText = ({ texts, best }: OptimumRange): string => told(texts[best]!);

/** 'cold pressure, every tyre 9 psi' */
export const chosenText = (range: OptimumRange): string => `${range.label} ${bestText(range)}`;

/** What the height is that was found, and what it was. */
function heightFound({ best, own, tubs, tub }: Optimum, figures: Figures): string {
  const name = tubText(figures, tubs[tub]!);
  if (best.topHeight === null) return `${name}: no height to be told: ${best.reason}`;
  const stands =
    own.topHeight === null
      ? 'as the case stands it has none'
      : `as the case stands ${figures.length(own.topHeight, 'up')}`;
  return `${name}: top at least ${figures.length(best.topHeight, 'up')} (${stands})`;
}

/** What was found of the goal. */
function goalText(study: Optimum, figures: Figures): string {
  const { goal, does, mostHeight, tubs, tub, limits } = study;
  if (goal === 'speed' && limits !== null) {
    const name = tubText(figures, tubs[tub]!);
    return `${name}, top ${figures.length(mostHeight!, 'down')}: ${limitWords(limits.best)}; as the case stands ${limitWords(limits.own)}`;
  }
  const found = heightFound(study, figures);
  if (goal === 'tub' && !does)
    return `none of those asked for does with a top of ${figures.length(mostHeight!, 'down')}; ${found}`;
  return found;
}

const GOALS: Readonly<Record<Optimum['goal'], string>> = {
  height: 'LOWEST TOP',
  tub: 'SMALLEST TUB',
  speed: 'HIGHEST SPEED',
};

/** What holds the best value of an input: '9 psi, the end of its range: 10 psi would give 1/16 in more off the height'. */
function heldText(range: OptimumRange, figures: Figures, best: StudyCell): string {
  const { label, heldBy, texts, from, to, beyond } = range;
  const between = `from ${told(texts[from]!)} to ${told(texts[to]!)}`;
  switch (heldBy) {
    case 'single value':
      return `${label}: one value was given`;
    case 'not told':
      return `${label}: no value ${between} is told apart from the best, others at their best`;
    case 'inside':
      return `${label}: the best lies inside; ${from === to ? 'every other value looked at is surely worse' : `${between} is not told apart from it`}`;
    default: {
      const end = `${label}: held by the ${heldBy} of its range, ${bestText(range)}`;
      const alike = from === to ? '' : `; ${between} is not told apart from it`;
      if (beyond === null) return `${end}${alike}; the case takes nothing further`;
      const cell = whole(beyond.cells);
      const change = changeText(figures, cell, best);
      return `${end}${alike}; ${told(beyond.text)} would need ${change === '' ? 'a height that is not told' : `${change} of height`}`;
    }
  }
}

/** What is held, in a few words to be read out. */
function heldInShort({ ranges }: Optimum): string {
  const held = ranges.filter(({ heldBy }) => heldBy === 'low end' || heldBy === 'high end');
  const inside = ranges.filter(({ heldBy }) => heldBy === 'inside');
  const open = ranges.filter(({ heldBy }) => heldBy === 'not told');
  const parts = [
    ...(held.length === 0
      ? []
      : [`the end of its range holds ${listText(held.map((range) => chosenText(range)))}`]),
    ...(inside.length === 0 ? [] : [`inside lies ${listText(inside.map((range) => chosenText(range)))}`]),
    ...(open.length === 0 ? [] : [`no difference to be told in ${listText(open.map(({ label }) => label))}`]),
  ];
  return parts.join('; ') || 'one value of each was given';
}

const LIMITED: Readonly<Record<NonNullable<Optimum['best']['limitedBy']>, string>> = {
  'run risk': 'the risk of a run',
  'season risk': 'the risk of a season',
  rest: 'clearance at rest',
};

/** Which tyre, when and by what sets the height. */
function decidesText({ best, places }: Optimum): string {
  if (best.limitedBy === null) return best.reason;
  const { decidedBy, hardPoint } = whole(places[0]!.cells);
  const what = decidedWords({ decidedBy, hardPoint });
  return `${best.limitingTyre}, tightest at ${best.moment}; by ${LIMITED[best.limitedBy]}${decidedBy === 'arc' ? '' : `; ${what} is what it nears`}`;
}

function riskRow({ goal, best }: Optimum, figures: Figures): Block[] {
  if (best.runRisk === null || best.seasonRisk === null) return [];
  if (goal === 'speed') {
    const { topHeight } = best;
    return [row('As slow', `at the speed of the case a top of ${figures.length(topHeight!, 'up')} would do`)];
  }
  const text = `there a run comes too close surely no more often than ${oneIn(best.runRisk.high)}, a season than ${oneIn(best.seasonRisk.high)}: by runs that the search did not see`;
  return [row('Risk', text)];
}

function placesTable(study: Optimum): Block[] {
  const figures = figuresOf(study);
  const { ranges, places } = study;
  const again = places.filter(({ isAgain }) => isAgain);
  const best = whole(places[0]!.cells);
  const rows = again
    .slice(0, MOST_ROWS)
    .map(({ at, isApart, cells }, p) => [
      ...ranges.map(({ texts }, v) => told(texts[at[v]!]!)),
      heightText(figures, whole(cells)),
      p === 0 ? '' : changeText(figures, whole(cells), best),
      p === 0 ? 'best' : isApart ? 'worse' : 'not told apart',
    ]);
  const left = places.length - rows.length;
  return [
    figureTable([...ranges.map(({ label }) => label), 'top by runs', 'against the best', 'stands'], rows),
    ...(left > 0 ? [line(`  ${left} more in optimum.csv`)] : []),
  ];
}

/** The best values in words: three lines to read out first, then what holds each, and what it was told apart from. */
export function optimumWords(study: Optimum): Block[] {
  const figures = figuresOf(study);
  const { ranges, places, tried, tubs, own } = study;
  const best = whole(places[0]!.cells);
  const ownCell = own.cells === null ? undefined : whole(own.cells);
  const against = ownCell === undefined ? '' : changeText(figures, ownCell, best);
  return [
    ...headline(study),
    strongRow(GOALS[study.goal], goalText(study, figures)),
    strongRow('WITH', listText(ranges.map(chosenText))),
    strongRow('HELD BY', heldInShort(study)),
    BLANK,
    row('Decides', decidesText(study)),
    ...riskRow(study, figures),
    ...ranges.map((range, i) => row(i === 0 ? 'Holds it' : '', heldText(range, figures, best))),
    ...(against === ''
      ? []
      : [
          row(
            'Gains',
            `as it stands the case needs ${against} of height${study.goal === 'speed' ? ' at that speed' : ''}, by the risk of a run`,
          ),
        ]),
    ...(tried.length < 2
      ? []
      : [
          row(
            'Judged',
            tried
              .map(
                ({ tub, topHeight }) =>
                  `${tubs[tub]!.name} ${topHeight === null ? 'has no height' : figures.length(topHeight, 'up')}`,
              )
              .join(', '),
          ),
        ]),
    row(
      'Looked at',
      `${places.length} places of a grid, down from each of its valleys; one narrower than the grid may have been missed`,
    ),
    BLANK,
    ...placesTable(study),
    BLANK,
    ...ending(study),
  ];
}
