import { markup } from '@tubgap/drawing';
import type { FirstTest, StepFigures, TestStep } from '@tubgap/evidence';
import type { JudgedTub } from '@tubgap/simulation';
import {
  chanceCell,
  degreeCell,
  FOOT,
  feetText,
  gapWords,
  inchCell,
  MPH,
  mphText,
  PSI,
  sixteenths,
} from '@tubgap/units';
import { riskWords, SURELY } from '@tubgap/wording';
import { CAUTION, listOf, pageOf, tableOf } from './page.ts';
import {
  advice,
  FINISH_NOTE,
  goOnWords,
  inspections,
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
  const [first, ...rest] = openingLines(judged, subject);
  const isWhole = (k: number): boolean => plan.isWhole && k === steps.length - 1;
  return pageOf(
    `First test: ${subject.title}`,
    subject.invented,
    markup`<div class="answer"><p class="first">${first!.text}</p>
${rest.map(({ label, text }) => markup`<p>${label === '' ? '' : `${label}: `}${text}</p>`)}
<p>With ${tyre}. ${subject.learned ? 'With what was learned of this car.' : 'As assumed: nothing was learned of this car yet.'} Gap to be kept in every run: ${sixteenths(subject.reserve, 'up')}.</p></div>
${CAUTION}
<h2>Steps</h2>
<p>${wholeWords(plan)}.</p>
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
    `${feetText(step.shutOff)}, about ${mphText(step.speed)}${isWhole(k) ? ' (the whole track)' : ''}`,
    stepFigure(step, ({ underReserve }) => riskWords(underReserve, 'run')),
    stepFigure(step, ({ underReserveHarder }) => riskWords(underReserveHarder, 'run')),
    ...(['gapMiddle', 'gapLow', 'gapLeast'] as const).map((which) =>
      stepFigure(step, (of) => gapWords(of[which])),
    ),
    tightWords(step),
    goOnWords(step, plan, isWhole(k)),
    stopWords(step),
    '[  ]',
  ]),
})}
<p class="soft">More pressure: ${String(Math.round(plan.morePressure / PSI))} psi. A witness that is marked says that this car is not as believed: stop there, write the mark down (marks.csv) and learn from the run before the next.</p>
<h2>Before every run</h2>
${listOf(inspections(plan))}
<h2>Advice</h2>
${listOf(advice(plan))}
<h2>Stop</h2>
<p>At any rub, any witness touched, any new noise, smoke or vibration, a tyre that turned on its rim. Measure the gaps again before another run. Not in these figures: tyre shake, wheel-stands, a flat or burst tyre, loose rubber, a car out of the groove.</p>`,
    `${subject.madeBy}, case ${subject.name}. A plan from a model clears no one to run: the sanctioning body, the tyre maker and a qualified chassis builder do.`,
  );
}

/** Columns of what is told of a step's runs, each with its value. */
const FIGURES = {
  under_reserve: ({ underReserve }) => chanceCell(underReserve.estimate),
  under_reserve_at_most: ({ underReserve }) => chanceCell(underReserve.high),
  contact_at_most: ({ contact }) => chanceCell(contact.high),
  under_reserve_at_most_more_pressure: ({ underReserveHarder }) => chanceCell(underReserveHarder.high),
  gap_p50_in: ({ gapMiddle }) => inchCell(gapMiddle),
  gap_p01_in: ({ gapLow }) => inchCell(gapLow),
  gap_least_in: ({ gapLeast }) => inchCell(gapLeast),
  tight_angle_deg: ({ angle }) => degreeCell(angle),
  moment: ({ moment }) => moment,
} satisfies Record<string, (of: StepFigures) => number | string>;

/** The columns for all such cars stand before those for the ones that come clean to the step. */
const WHOSE = { all_cars: 'overall', cars_clean_so_far: 'passed' } as const satisfies Record<
  string,
  keyof TestStep
>;
const figureColumns = (whose: keyof typeof WHOSE): string[] =>
  Object.keys(FIGURES).map((name) => `${whose}_${name}`);
const figureCells = (step: TestStep, whose: keyof typeof WHOSE): (number | string)[] =>
  Object.values(FIGURES).map((value) => value(step[WHOSE[whose]]));

/** The plan's numbers as a table; the verdict on the tub stands in every row. */
export const planSheet = (
  { steps, tyre, tub, topHeight }: FirstTest,
  { verdict, least }: JudgedTub,
  { overruled }: PlanSubject,
) => ({
  header: [
    'step',
    'tyre',
    'tub',
    'top_height_in',
    'height_is',
    'tub_is',
    'top_needed_in',
    'overruled',
    'shut_off_ft',
    'speed_mph',
    ...figureColumns('all_cars'),
    'share_that_comes_clean_so_far',
    ...figureColumns('cars_clean_so_far'),
    'witness_in',
    'stops',
  ],
  rows: steps.map((step, k) => [
    k + 1,
    tyre,
    tub,
    inchCell(topHeight),
    least === undefined ? 'given' : 'set out',
    verdict.standing,
    verdict.heightNeeded === undefined ? '' : inchCell(verdict.heightNeeded),
    overruled ?? '',
    Math.round(step.shutOff / FOOT),
    Number((step.speed / MPH).toFixed(1)),
    ...figureCells(step, 'all_cars'),
    Number(step.comes.toFixed(4)),
    ...figureCells(step, 'cars_clean_so_far'),
    step.witness === undefined ? '' : inchCell(step.witness),
    Number(step.stops.toFixed(4)),
  ]),
});
