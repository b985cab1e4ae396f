import { markup } from '@tubgap/drawing';
import { type FirstTest, STEP_LIMIT, type TestStep } from '@tubgap/evidence';
import { sixteenths } from '@tubgap/wording';
import { CAUTION, listOf, pageOf, tableOf } from './page.ts';
import { chanceText, feet, labelled, mph, percent } from './words.ts';

/** What a plan is about. */
export interface PlanSubject {
  title: string;
  invented: boolean;
  name: string;
  runRisk: number;
  madeBy: string;
  /** Whether measurements of the car stand behind the case. */
  learned: boolean;
  /** m */
  reserve: number;
}

const angle = (radians: number): string => {
  const degrees = Math.round((radians * 180) / Math.PI);
  if (degrees === 0) return 'straight up';
  return `${Math.abs(degrees)}° ${degrees > 0 ? 'ahead of' : 'behind'} the top`;
};

const chanceWords = ({ under, underAtMost }: TestStep): string =>
  under === 0 ? `fewer than ${chanceText(underAtMost)}` : `at most ${chanceText(underAtMost)}`;

const MOMENT_WORDS: Readonly<Record<string, string>> = {
  finish: 'while it pulls',
  'after the lift': 'just after the lift',
  parachute: 'under the parachute',
};

const momentWords = ({ moment }: TestStep): string => MOMENT_WORDS[moment] ?? `at the ${moment}`;

/** What must be seen before the next step. */
export const goOnWords = ({ witness, passes }: TestStep, last: boolean): string => {
  if (witness === undefined) {
    return 'no witness makes the next step safe enough: stop here, raise the tub or the pressure, or measure first (tubgap learn)';
  }
  return `witnesses ${sixteenths(witness, 'up')} thick at 0°, 15°, 30° and 45° ahead untouched (${passes > 0.995 ? 'nearly all cars' : `${percent(passes)} of cars`} as believed leave them so)${last ? '' : ', then the next step'}`;
};

/** What to do where the plan's own risks are above what the shop accepts. */
export function advice({ steps, morePressure }: FirstTest, { runRisk }: PlanSubject): string[] {
  const bad = steps.filter(
    ({ underAtMost, under }) => under > 0 && underAtMost > Math.max(runRisk, STEP_LIMIT),
  );
  const psi = Math.round(morePressure / 6894.757);
  if (bad.length === 0) {
    return [
      `Run the first steps with ${psi} psi more than in the race, if the tyre maker allows it; let it down for the last step.`,
    ];
  }
  const helped = bad.every(({ underAtMostHarder }) => underAtMostHarder <= STEP_LIMIT);
  return [
    `From ${feet(bad[0]!.shutOff)} on the gap is too small for a first test: more than ${chanceText(STEP_LIMIT)} goes under the reserve.`,
    helped
      ? `${psi} psi more in the tyre brings every step under that, if the tyre maker allows it.`
      : 'More pressure alone does not mend it: raise the top, or the body on its springs for the test.',
  ];
}

const INSPECT: readonly string[] = [
  'Witnesses as thick as the step says (foam blocks, soft clay; they must not harm the tyre) inside both tubs, from straight up to 45° ahead, and one on every hard point. A marked one says that this car is not as believed: stop, and learn from the run before the next (tubgap learn).',
  'Tell-tale rings on both rear shocks, pushed to rest; write the travel down after every run.',
  'Chalk across tread and rim, to see the tyre turn on the rim; pressure cold and right after the run.',
  'Log car speed and driveshaft speed; after the lift let it roll as long as the track allows before the brakes.',
];

/** The plan as it is printed. @param place  of its folder; undefined when nothing was written */
export function planWords(plan: FirstTest, subject: PlanSubject, place: string | undefined): string {
  const { steps, tub, tyre, topHeight } = plan;
  const rows = steps.map((step, k) =>
    [
      labelled(
        `${k + 1} shut off`,
        `at ${feet(step.shutOff)}, about ${mph(step.speed)}${k === steps.length - 1 ? ' (the whole track)' : ''}`,
      ),
      labelled(
        '',
        `less than the ${sixteenths(subject.reserve, 'up')} to be kept: ${chanceWords(step)} runs; smallest gap of a middling run ${sixteenths(step.gapMiddle, 'down')}, of one in a hundred ${sixteenths(step.gapLow, 'down')}, ${angle(step.angle)}, ${momentWords(step)}`,
      ),
      labelled('  go on if', goOnWords(step, k === steps.length - 1)),
    ].join('\n'),
  );
  return [
    '',
    `  ${subject.title}${subject.invented ? ' [an invented car]' : ''}: first test`,
    '',
    labelled(
      'Car',
      `${tyre} in the ${tub} tub, top ${sixteenths(topHeight, 'up')} above the track; ${
        subject.learned ? 'with what was learned of this car' : 'as assumed, nothing learned of this car yet'
      }`,
    ),
    '',
    ...rows,
    '',
    ...INSPECT.map((words, i) => labelled(i === 0 ? 'Before it' : '', words)),
    ...advice(plan, subject).map((words, i) => labelled(i === 0 ? 'Advice' : '', words)),
    labelled(
      'Stop',
      'at any rub, any witness touched, any new noise, smoke or vibration, a tyre that turned on its rim: gaps again before another run',
    ),
    '',
    '  Tyre contact at speed can kill. A plan from a model clears no one to run: the sanctioning body, the tyre',
    '  maker and a qualified chassis builder do. Not in it: tyre shake, wheel-stands, a flat tyre, loose rubber.',
    ...(place === undefined ? [] : [`  Written to ${place}`]),
    '',
  ].join('\n');
}

/** The plan as a sheet to take along. */
export function planPage(plan: FirstTest, subject: PlanSubject): string {
  const { steps, tub, tyre, topHeight } = plan;
  const last = steps.length - 1;
  return pageOf(
    `First test: ${subject.title}`,
    subject.invented,
    markup`<div class="answer"><p class="first">${tyre} in the ${tub} tub, top ${sixteenths(topHeight, 'up')} above the track</p>
<p>${subject.learned ? 'With what was learned of this car.' : 'As assumed: nothing was learned of this car yet.'} Gap to be kept in every run: ${sixteenths(subject.reserve, 'up')}.</p></div>
${CAUTION}
<h2>Steps</h2>
${tableOf({
  caption:
    'Each step only after the one before was clean. Runs under the reserve: how many it may be at most (95 %), among cars that came through the steps before untouched.',
  head: [
    'step',
    'shut off at',
    'runs under the reserve',
    'with more pressure',
    'smallest gap, middling run',
    'smallest gap, one run in a hundred',
    'where',
    'go on if',
    'done',
  ],
  rows: steps.map((step, k) => [
    String(k + 1),
    `${feet(step.shutOff)}, about ${mph(step.speed)}`,
    chanceWords(step),
    `at most ${chanceText(step.underAtMostHarder)}`,
    sixteenths(step.gapMiddle, 'down'),
    sixteenths(step.gapLow, 'down'),
    `${angle(step.angle)}, ${momentWords(step)}`,
    goOnWords(step, k === last),
    '[  ]',
  ]),
})}
<p class="soft">More pressure: ${String(Math.round(plan.morePressure / 6894.757))} psi. A witness that is marked says that this car is not as believed: stop there, write the mark down (marks.csv) and learn from the run before the next.</p>
<h2>Before every run</h2>
${listOf(INSPECT)}
<h2>Advice</h2>
${listOf(advice(plan, subject))}
<h2>Stop</h2>
<p>At any rub, any witness touched, any new noise, smoke or vibration, a tyre that turned on its rim. Measure the gaps again before another run. Not in these figures: tyre shake, wheel-stands, a flat or burst tyre, loose rubber, a car out of the groove.</p>`,
    `${subject.madeBy}, case ${subject.name}. A plan from a model clears no one to run: the sanctioning body, the tyre maker and a qualified chassis builder do.`,
  );
}

const inches = (metres: number): number => Number((metres / 0.0254).toFixed(3));

/** The plan's numbers as a table. */
export const planSheet = ({ steps, tyre, tub, topHeight }: FirstTest) => ({
  header: [
    'step',
    'tyre',
    'tub',
    'top_height_in',
    'shut_off_ft',
    'speed_mph',
    'runs',
    'under_reserve',
    'under_reserve_at_most',
    'contact_at_most',
    'under_reserve_at_most_more_pressure',
    'gap_p50_in',
    'gap_p01_in',
    'tight_angle_deg',
    'moment',
    'witness_in',
    'stays_untouched',
  ],
  rows: steps.map((step, k) => [
    k + 1,
    tyre,
    tub,
    inches(topHeight),
    Math.round(step.shutOff / 0.3048),
    Number((step.speed / 0.44704).toFixed(1)),
    step.runs,
    step.under,
    Number(step.underAtMost.toPrecision(4)),
    Number(step.touchingAtMost.toPrecision(4)),
    Number(step.underAtMostHarder.toPrecision(4)),
    inches(step.gapMiddle),
    inches(step.gapLow),
    Math.round((step.angle * 180) / Math.PI),
    step.moment,
    step.witness === undefined ? '' : inches(step.witness),
    Number(step.passes.toFixed(4)),
  ]),
});
