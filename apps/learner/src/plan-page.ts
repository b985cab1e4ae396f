import { markup } from '@tubgap/drawing';
import type { FirstTest, StepFigures } from '@tubgap/evidence';
import type { JudgedTub } from '@tubgap/simulation';
import { chanceCell, degreeCell, type Figures, figuresIn } from '@tubgap/units';
import { riskWords, type SheetTable, SURELY } from '@tubgap/wording';
import { CAUTION, listOf, pageOf, tableOf } from './page.ts';
import {
  advice,
  FINISH_NOTE,
  goOnWords,
  inspections,
  moreText,
  openingLines,
  type PlanSubject,
  stepFigure,
  stopWords,
  tightWords,
  wholeWords,
} from './plan-words.ts';

/** The plan as a sheet to take along. */
export function planPage(plan: FirstTest, judged: JudgedTub, subject: PlanSubject): string {
  const { steps, tyre } = plan;
  const { length, gapLeft, speedText, distanceText } = figuresIn(subject.units);
  const [first, ...rest] = openingLines(judged, subject);
  const isWhole = (k: number): boolean => plan.isWhole && k === steps.length - 1;
  return pageOf(
    `First test: ${subject.title}`,
    subject.invented,
    markup`<div class="answer"><p class="first">${first!.text}</p>
${rest.map(({ label, text }) => markup`<p>${label === '' ? '' : `${label}: `}${text}</p>`)}
<p>With ${tyre}. ${subject.learned ? 'With what was learned of this car.' : 'As assumed: nothing was learned of this car yet.'} Gap to be kept in every run: ${length(subject.reserve, 'up')}.</p></div>
${CAUTION}
<h2>Steps</h2>
<p>${wholeWords(plan, subject)}.</p>
${tableOf({
  caption:
    'Each step only after the one before was clean. Every figure is first of all such cars, whatever was seen before; behind it, where it says so, of those alone that came clean through every step before. Surely is ' +
    `${SURELY}. ${FINISH_NOTE}.`,
  head: [
    'step',
    'shut off at',
    'runs too close',
    'the same with more pressure',
    'smallest gap, ordinary run',
    'one run in a hundred',
    'least of all simulated',
    'where',
    'go on if',
    'stops',
    'done',
  ],
  rows: steps.map((step, k) => [
    String(k + 1),
    `${distanceText(step.shutOff)}, about ${speedText(step.speed)}${isWhole(k) ? ' (the whole track)' : ''}`,
    stepFigure(step, ({ underReserve }) => riskWords(underReserve, 'run')),
    stepFigure(step, ({ underReserveHarder }) => riskWords(underReserveHarder, 'run')),
    ...(['gapMiddle', 'gapLow', 'gapLeast'] as const).map((which) =>
      stepFigure(step, (of) => gapLeft(of[which])),
    ),
    tightWords(step),
    goOnWords(step, plan, isWhole(k), subject),
    stopWords(step),
    '[  ]',
  ]),
})}
<p class="soft">More pressure: ${moreText(plan.morePressure, subject)}. A witness that is marked says that this car is not as believed: stop there, write the mark down (marks.csv) and learn from the run before the next.</p>
<h2>Before every run</h2>
${listOf(inspections(plan))}
<h2>Advice</h2>
${listOf(advice(plan, subject))}
<h2>Stop</h2>
<p>At any rub, any witness touched, any new noise, smoke or vibration, a tyre that turned on its rim. Measure the gaps again before another run. Not in these figures: tyre shake, wheel-stands, a flat or burst tyre, loose rubber, a car out of the groove.</p>`,
    `${subject.madeBy}, case ${subject.name}. A plan from a model clears no one to run: the sanctioning body, the tyre maker and a qualified chassis builder do.`,
  );
}

/** What is told of a step's runs, each with its column and its value in the units of a case. */
const figuresOfStep = ({ column, cell }: Figures, of: StepFigures): readonly [string, number | string][] => [
  ['too_close', chanceCell(of.underReserve.estimate)],
  ['too_close_at_most', chanceCell(of.underReserve.high)],
  ['contact_at_most', chanceCell(of.contact.high)],
  ['too_close_at_most_more_pressure', chanceCell(of.underReserveHarder.high)],
  [column('gap_p50'), cell(of.gapMiddle)],
  [column('gap_p01'), cell(of.gapLow)],
  [column('gap_least'), cell(of.gapLeast)],
  ['tight_angle_deg', degreeCell(of.angle)],
  ['moment', of.moment],
];

/** The plan's numbers as a table, those for all such cars before those for the ones that come clean to the step. */
export function planSheet(
  { steps, tyre, tub, topHeight }: FirstTest,
  { verdict, least }: JudgedTub,
  { overruled, units }: PlanSubject,
): SheetTable {
  const figures = figuresIn(units);
  const { column, cell, speedColumn, speedNumber, distanceColumn, distanceNumber } = figures;
  const rows = steps.map((step, k): [string, number | string][] => [
    ['step', k + 1],
    ['tyre', tyre],
    ['tub', tub],
    [column('top_height'), cell(topHeight)],
    ['height_is', least === undefined ? 'given' : 'set out'],
    ['tub_is', verdict.standing],
    [column('top_needed'), cell(verdict.heightNeeded)],
    ['overruled', overruled ?? ''],
    [distanceColumn('shut_off'), Math.round(distanceNumber(step.shutOff))],
    [speedColumn('speed'), Number(speedNumber(step.speed).toFixed(1))],
    ...figuresOfStep(figures, step.overall).map(([name, value]): [string, number | string] => [
      `all_cars_${name}`,
      value,
    ]),
    ['share_that_comes_clean_so_far', Number(step.comes.toFixed(4))],
    ...figuresOfStep(figures, step.passed).map(([name, value]): [string, number | string] => [
      `cars_clean_so_far_${name}`,
      value,
    ]),
    [column('witness'), cell(step.witness)],
    ['stops', Number(step.stops.toFixed(4))],
  ]);
  return {
    header: rows[0]?.map(([name]) => name) ?? [],
    rows: rows.map((row) => row.map(([, value]) => value)),
  };
}
