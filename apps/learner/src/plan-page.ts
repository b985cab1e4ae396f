import { markup } from '@tubgap/drawing';
import type { FirstTest, StepFigures } from '@tubgap/evidence';
import type { JudgedTub } from '@tubgap/simulation';
import { chanceCell, degreeCell, type Figures, figuresIn } from '@tubgap/units';
import {
  type Column,
  type ColumnName,
  columnsOf,
  madeColumn,
  riskWords,
  type SheetTable,
  SURELY,
} from '@tubgap/wording';
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

/** What is told of a step's runs, each with its column in the units of a case. @param of  whose figures, before each name */
function figuresOfStep(
  { units, cell }: Figures,
  step: StepFigures,
  [before, who]: readonly [string, string],
): Told[] {
  const told: readonly (readonly [ColumnName | readonly [string, string, string], string | number])[] = [
    ['run_risk', chanceCell(step.underReserve.estimate)],
    ['run_risk_high', chanceCell(step.underReserve.high)],
    ['contact_risk_high', chanceCell(step.contact.high)],
    [
      ['run_risk_high_more_pressure', '0 to 1', 'upper end of the run risk with more pressure'],
      chanceCell(step.underReserveHarder.high),
    ],
    ['gap_p50', cell(step.gapMiddle)],
    ['gap_p01', cell(step.gapLow)],
    [['gap_least', 'length', 'least gap of all runs that were simulated'], cell(step.gapLeast)],
    ['tight_angle_deg', degreeCell(step.angle)],
    ['tight_moment', step.moment],
  ];
  return told.map(([name, value]) => {
    const column = typeof name === 'string' ? columnsOf(units, name)[0]! : madeColumn(units, ...name);
    return [{ ...column, name: `${before}_${column.name}`, about: `${who}: ${column.about}` }, value];
  });
}

/** A cell with its column. */
type Told = readonly [Column, number | string];

/** The plan's numbers as a table, those for all such cars before those for the ones that come clean to the step. */
export function planSheet(
  { steps, tyre, tub, topHeight }: FirstTest,
  { verdict, least }: JudgedTub,
  { overruled, units }: PlanSubject,
): SheetTable {
  const figures = figuresIn(units);
  const { cell, speedNumber, distanceNumber } = figures;
  const own = (name: ColumnName, value: number | string): Told => [columnsOf(units, name)[0]!, value];
  const rows = steps.map((step, k): Told[] => [
    own('step', k + 1),
    own('tyre', tyre),
    own('tub', tub),
    own('at_height', cell(topHeight)),
    own('height_is', least === undefined ? 'given' : 'set out'),
    own('tub_is', verdict.standing),
    own('top_height', cell(verdict.heightNeeded)),
    own('overruled', overruled ?? ''),
    own('shut_off', Math.round(distanceNumber(step.shutOff))),
    own('speed', Number(speedNumber(step.speed).toFixed(1))),
    ...figuresOfStep(figures, step.overall, ['all_cars', 'of all cars']),
    own('share_that_comes_clean_so_far', Number(step.comes.toFixed(4))),
    ...figuresOfStep(figures, step.passed, ['cars_clean_so_far', 'of the cars that come clean to this step']),
    own('witness', cell(step.witness)),
    own('stops', Number(step.stops.toFixed(4))),
  ]);
  return {
    columns: rows[0]?.map(([column]) => column) ?? [],
    rows: rows.map((row) => row.map(([, value]) => value)),
  };
}
