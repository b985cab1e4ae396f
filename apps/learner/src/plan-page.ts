import { markup } from '@tubgap/drawing';
import type { FirstTest } from '@tubgap/evidence';
import type { JudgedTub } from '@tubgap/simulation';
import { FOOT, feetText, INCH, MPH, mphText, PSI, sixteenths, wholeDegrees } from '@tubgap/units';
import { CAUTION, listOf, pageOf, tableOf } from './page.ts';
import {
  advice,
  gapWords,
  goOnWords,
  inspections,
  openingLines,
  type PlanSubject,
  stepRisk,
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
    'Each step only after the one before was clean. Runs under the reserve: of cars that came through the steps before untouched, and of all such cars whatever was seen before; at most is the upper end of a 95 % interval.',
  head: [
    'step',
    'shut off at',
    'runs under the reserve, cars that come so far',
    'the same, all such cars',
    'with more pressure',
    'smallest gap, middling run',
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
    stepRisk(step.passed),
    stepRisk(step.overall),
    stepRisk(step.passedHarder),
    gapWords(step.gapMiddle),
    gapWords(step.gapLow),
    gapWords(step.gapLeast),
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

const inches = (metres: number): number => Number((metres / INCH).toFixed(3));
const figure = (chance: number): number => Number(chance.toPrecision(4));

/** The plan's numbers as a table; the verdict on the tub stands in every row. */
export const planSheet = (
  { steps, tyre, tub, topHeight }: FirstTest,
  { verdict }: JudgedTub,
  { overruled }: PlanSubject,
) => ({
  header: [
    'step',
    'tyre',
    'tub',
    'top_height_in',
    'tub_is',
    'top_needed_in',
    'overruled',
    'shut_off_ft',
    'speed_mph',
    'all_cars_under_reserve',
    'all_cars_under_reserve_at_most',
    'cars_that_come',
    'under_reserve',
    'under_reserve_at_most',
    'contact_at_most',
    'under_reserve_at_most_more_pressure',
    'gap_p50_in',
    'gap_p01_in',
    'gap_least_in',
    'tight_angle_deg',
    'moment',
    'witness_in',
    'stops',
  ],
  rows: steps.map((step, k) => [
    k + 1,
    tyre,
    tub,
    inches(topHeight),
    verdict.standing,
    verdict.heightNeeded === undefined ? '' : inches(verdict.heightNeeded),
    overruled ?? '',
    Math.round(step.shutOff / FOOT),
    Number((step.speed / MPH).toFixed(1)),
    figure(step.overall.estimate),
    figure(step.overall.high),
    Number(step.comes.toFixed(4)),
    figure(step.passed.estimate),
    figure(step.passed.high),
    figure(step.contact.high),
    figure(step.passedHarder.high),
    inches(step.gapMiddle),
    inches(step.gapLow),
    inches(step.gapLeast),
    wholeDegrees(step.angle),
    step.moment,
    step.witness === undefined ? '' : inches(step.witness),
    Number(step.stops.toFixed(4)),
  ]),
});
