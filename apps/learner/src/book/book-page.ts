import { growthPicture, type Markup, markup, reliabilityPicture } from '@tubgap/drawing';
import type { ModelGrowth } from '@tubgap/evidence';
import { percentText, wholeText } from '@tubgap/units';
import { MADE_BY } from '../made-by.ts';
import { listOf, pageOf, tableOf } from '../page.ts';
import { countsOf } from './counts.ts';
import { type Due, dueWords } from './due.ts';
import type { FoundBook } from './finish-book.ts';
import {
  apartWords,
  carGrowthWords,
  conflictWords,
  foundGroups,
  leadWords,
  modelWords,
  standingApart,
  WORTH_A_LOOK,
} from './found-words.ts';
import type { Book } from './read-book.ts';

const CAUTION = markup`<p class="caution"><b>Tyre contact at speed can kill.</b> What other cars of a shop taught is no measurement of the car in hand, and no better than what was entered. The sanctioning body’s rules, the tyre maker’s limits and a qualified chassis builder come first. Check the gaps on the car, look for marks after every run, and stop when you find one.</p>`;

/** Nine in ten lie within this many standard deviations of a normal law; the bars show two in three. */
const NINE_IN_TEN = 1.645;

/** Growth of a model by speed with the book's cars as dots. */
function growthFigure(growth: ModelGrowth, i: number): Markup {
  const { model, speeds, before, after, cars, finish } = growth;
  const svg = growthPicture({
    words: {
      id: `growth-${i}`,
      title: `Growth of ${model} by speed`,
      description: `${modelWords(growth)}. ${cars.map((car) => `${car.car}: ${carGrowthWords(car)}`).join('; ')}.`,
    },
    speeds,
    before,
    after,
    points: cars.map(({ speed, middle, low, high, apart }) => ({
      speed,
      value: middle,
      sd: (high - low) / (2 * NINE_IN_TEN),
      free: apart < WORTH_A_LOOK,
    })),
    finish,
    pointWords: {
      free: 'cars of the book at their own speed',
      other: 'may stand apart: another tyre or tape',
    },
  });
  return markup`<figure>${{ markup: svg }}<figcaption>${modelWords(growth)}; nine in ten lie between. A bar holds two in three.</figcaption></figure>${tableOf(
    {
      caption: `Cars with ${model}`,
      head: ['car', 'growth at its own speed', 'belongs to the others'],
      rows: cars.map((car) => [car.car, carGrowthWords(car), percentText(1 - car.apart)]),
    },
  )}`;
}

function reliabilityFigure({ reliability, brier, forecasts }: FoundBook): Markup {
  if (brier === undefined) return markup`<p>No runs were entered, so nothing was foretold.</p>`;
  const svg = reliabilityPicture({
    words: {
      id: 'reliability',
      title: 'What was foretold, and what came',
      description: reliability
        .map(
          ({ foretold, forecasts: all, happened }) =>
            `foretold about ${foretold.toPrecision(2)}: ${happened} of ${all} left a mark`,
        )
        .join('; '),
    },
    points: reliability.map(({ foretold, forecasts: all, happened, interval }) => ({
      foretold,
      share: happened / all,
      low: interval.low,
      high: interval.high,
    })),
  });
  return markup`<figure>${{ markup: svg }}<figcaption>Each entry of runs foretold from the other cars alone: ${wholeText(forecasts.length)} of them. Bars hold the true share in 95 of 100; hollow: none left a mark. Forecasts were off by ${brier.score.toPrecision(2)} in the mean square; the share of marks alone would be off by ${brier.uncertainty.toPrecision(2)}.</figcaption></figure>`;
}

const foretoldTable = ({ priors }: FoundBook): Markup =>
  tableOf({
    caption:
      'Each car foretold from the others: how much likelier what was seen of it is by them than by the program’s own prior. Below 1 they foretell it worse.',
    head: ['car', 'tyre', 'times as likely'],
    rows: priors.gains.map(({ car, tyre, gain }) => [car, tyre, Math.exp(gain).toPrecision(2)]),
  });

const carsTable = ({ cars }: Book): Markup =>
  tableOf({
    caption: 'Cars of the book',
    head: ['car', 'tyres', 'readings', 'runs without a mark', 'marks', 'newest'],
    rows: cars.map((car) => {
      const { readings, unmarkedRuns, marks, newest } = countsOf(car);
      const tyres = car.source.tyres.map(({ name }) => name).join(', ');
      return [car.name, tyres, wholeText(readings), wholeText(unmarkedRuns), wholeText(marks), newest || '–'];
    }),
  });

/** What stands in a part of its own. */
const SHOWN: readonly string[] = ['Growth', 'Foretold', 'At odds', 'Due'];

/** What a book found, on one page: no network, no script. */
export function bookPage(book: Book, found: FoundBook, due: readonly Due[]): string {
  const [first, ...rest] = leadWords(book, found);
  const apart = standingApart(found);
  const groups = foundGroups(book, found, due).filter(({ label }) => !SHOWN.includes(label));
  const body = markup`<section class="answer"><p class="first">${first.text}.</p>${rest.map(
    ({ text }) => markup`<p>${text}.</p>`,
  )}</section>
${CAUTION}
<h2>Growth of each tyre model</h2>${found.growth.map(growthFigure)}
<h2>Which cars stand apart</h2>${
    apart.length === 0
      ? markup`<p>None: every tyre belongs to the others of its model with at least ${percentText(1 - WORTH_A_LOOK)}.</p>`
      : listOf(apart.map((one) => `${apartWords(one)}.`))
  }
<h2>Readings at odds</h2>${
    found.conflicts.length === 0
      ? markup`<p>None that would come less than 1 time in 100.</p>`
      : listOf(found.conflicts.map((one) => `${conflictWords(one)}.`))
  }
<h2>Checked before it is trusted</h2>${foretoldTable(found)}
<h2>What was foretold, and what came</h2>${reliabilityFigure(found)}
<h2>In short</h2>${groups.map(({ label, texts }) =>
    texts.length === 1
      ? markup`<p><b>${label}.</b> ${texts[0]!}.</p>`
      : markup`<p><b>${label}</b></p>${listOf(texts.map((text) => `${text}.`))}`,
  )}
<h2>Due</h2>${due.length === 0 ? markup`<p>Nothing.</p>` : listOf(due.map((one) => `${one.car}: ${dueWords(one)}`))}
<h2>What it rests on</h2>${carsTable(book)}`;
  const { seed, sampling } = found.priors;
  return pageOf(
    `The book of ${book.book.name}`,
    book.book.invented,
    body,
    `Made by ${MADE_BY}, seed ${seed}; ${wholeText(sampling.chains)} chains of ${wholeText(sampling.draws)} draws. The same book and seed give the same page.`,
  );
}
