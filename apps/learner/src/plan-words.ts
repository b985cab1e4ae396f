import type { FirstTest, StepFigures, TestStep } from '@tubgap/evidence';
import type { JudgedTub } from '@tubgap/simulation';
import {
  angleWords,
  type Figures,
  figuresIn,
  INCH,
  type LengthUnits,
  oneIn,
  PSI,
  percentText,
} from '@tubgap/units';
import {
  BLANK,
  type Block,
  closerThan,
  heading,
  line,
  paragraph,
  type ReportLine,
  riskWords,
  row,
  rowsOf,
  type SeasonRuns,
  verdictBlocks,
  verdictLines,
} from '@tubgap/wording';

/** What a plan is about. */
export interface PlanSubject {
  title: string;
  invented: boolean;
  name: string;
  madeBy: string;
  /** Whether measurements of the car stand behind the case. */
  learned: boolean;
  /** m */
  reserve: number;
  tyres: SeasonRuns;
  /** Of its case's papers. */
  units: LengthUnits;
  /** Who overruled the refusal of a tub that is not within what is accepted, and why; undefined: nobody had to. */
  overruled: string | undefined;
}

/** The verdict that a plan opens with, and that it was overruled where it was. */
export const openingLines = (judged: JudgedTub, subject: PlanSubject): ReportLine[] => {
  const { verdict, least, tight, carSpread } = judged;
  return [...verdictLines({ verdict, least, tight, carSpread }, subject), ...overruledLines(judged, subject)];
};

const overruledLines = ({ verdict }: JudgedTub, { overruled }: PlanSubject): ReportLine[] =>
  overruled === undefined
    ? []
    : [
        {
          label: 'OVERRULED',
          text: `planned although ${verdict.standing === 'not known' ? 'it is not known whether the tub is' : 'the tub is not'} within what is accepted: ${overruled}`,
        },
      ];

/** The same for a terminal, with what is read out first. */
function openingBlocks(judged: JudgedTub, subject: PlanSubject, third?: ReportLine): Block[] {
  const { verdict, least, tight, carSpread } = judged;
  return [
    ...verdictBlocks({ verdict, least, tight, carSpread }, subject, third),
    ...rowsOf(overruledLines(judged, subject)),
  ];
}

/** The first step, to read out: where to shut off, and what lets the test go on; none where the plan has no step. */
function firstStep(plan: FirstTest, subject: PlanSubject): ReportLine | undefined {
  const [step] = plan.steps;
  if (step === undefined) return undefined;
  const { distanceText, speedText } = figuresIn(subject.units);
  const isWhole = plan.isWhole && plan.steps.length === 1;
  return {
    label: 'FIRST STEP',
    text: `shut off at ${distanceText(step.shutOff)}, about ${speedText(step.speed)}; go on if ${goOnWords(step, plan, isWhole, subject)}`,
  };
}

/** What is said where no plan is made, to be read before a car runs on that tub. */
export const noPlanWords = (judged: JudgedTub, subject: PlanSubject): Block[] => [
  ...openingBlocks(judged, subject),
  row(
    'No test',
    'a first test is not planned above the risk that the case accepts, and nothing was written. Mend the tub; or who answers for the run may plan it all the same, and stands on its paper: --overrule "NAME: WHY"',
  ),
];

/** Words of an overrule as they go on paper: what a terminal would act on is left out; undefined when none are left. */
export function overruling(words: string | undefined): string | undefined {
  const kept = words?.replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]+/gu, ' ').trim();
  return kept === '' ? undefined : kept;
}

/** Where the runs of a step are tight, and when, by the moment's own name: of all such cars. */
export const tightWords = ({ overall: { angle, moment } }: TestStep): string =>
  `${angleWords(angle)}, ${moment}`;

/** Of a step's moments the one whose name says less than it is: a step ends where it is shut off. */
export const FINISH_NOTE = 'finish: the last moment under power, where the step is shut off';

/** A share of all such cars. */
export function shareText(share: number): string {
  if (share === 0) return 'none';
  if (share < 0.01) return oneIn(share);
  return share > 0.995 && share < 1 ? 'over 99 %' : percentText(share);
}

/** Angles at the axle in words: '10° behind the top, straight up and 10° ahead of the top'. */
function anglesWords(angles: readonly number[]): string {
  const words = angles.map(angleWords);
  return `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}

/**
 * A figure of a step: of all such cars first. Behind it that of the cars that came clean through the steps before, which
 * speaks of no car that has not done so; left out at a step that every car comes to.
 */
export function stepFigure({ comes, overall, passed }: TestStep, text: (of: StepFigures) => string): string {
  if (comes === 1) return text(overall);
  return `${text(overall)}; of the ${shareText(comes)} that came clean through every step before: ${text(passed)}`;
}

/** What must be seen before the next step. */
export function goOnWords(
  { witness }: TestStep,
  { limit }: FirstTest,
  isWhole: boolean,
  { units }: PlanSubject,
): string {
  const { length } = figuresIn(units);
  if (witness === undefined) {
    return `STOP here: no witness up to ${length(4 * INCH, 'nearest')} makes the next step’s risk, even of cars that pass this one, no more than ${oneIn(limit)}; raise the tub or the pressure, or measure first (tubgap learn)`;
  }
  return `every witness, ${length(witness, 'up')} thick, is untouched${isWhole ? '' : '; then the next step'}`;
}

/** What the test as a whole comes to. */
export function wholeWords(
  { steps, isWhole, refused, comesThrough, limit }: FirstTest,
  { units }: PlanSubject,
): string {
  const { distanceText } = figuresIn(units);
  if (refused !== undefined) {
    return `no step: already a run shut off at ${distanceText(refused.shutOff)} comes too close in ${riskWords(refused.risk, 'run')}; no more than ${oneIn(limit)} is accepted`;
  }
  if (!isWhole) {
    const { shutOff, comes } = steps.at(-1)!;
    return `ends at ${distanceText(shutOff)} for every car that comes so far (${shareText(comes)} of such cars)`;
  }
  return `${shareText(comesThrough)} of such cars come through all of it; the others are stopped on the way`;
}

/** More pressure, in whole psi or kPa. */
export const moreText = (pressure: number, { units }: PlanSubject): string =>
  units === 'mm' ? `${Math.round(pressure / 1000)} kPa` : `${Math.round(pressure / PSI)} psi`;

/** What to do beside the steps. */
export function advice({ morePressure, isWhole }: FirstTest, subject: PlanSubject): string[] {
  if (!isWhole) {
    return ['The test does not come to the end of the track: mend the tub first, as said above.'];
  }
  return [
    `Run the first steps with ${moreText(morePressure, subject)} more than in the race, if the tyre maker allows it; let it down for the last step.`,
  ];
}

/** What is done before every run. */
export const inspections = ({ witnessAngles }: FirstTest): string[] => [
  `Witnesses as thick as the step says (foam blocks, soft clay; they must not harm the tyre) inside both tubs where this car is tight: ${anglesWords(witnessAngles)}; and one on every hard point. A marked one says that this car is not as believed: stop, and learn from the run before the next (tubgap learn).`,
  'Tell-tale rings on both rear shocks, pushed to rest; write the travel down after every run.',
  'Chalk across tread and rim, to see the tyre turn on the rim; pressure cold and right after the run.',
  'Log car speed and driveshaft speed; after the lift let it roll as long as the track allows before the brakes.',
];

/** What a step stops, of all such cars. */
export const stopWords = ({ stops }: TestStep): string =>
  stops === 0 ? 'none of the simulated cars' : `${shareText(stops)} of all such cars`;

/** Gaps of the runs of a step. */
const gapsWords = ({ gapMiddle, gapLow, gapLeast }: StepFigures, { gapLeft }: Figures): string =>
  `ordinary run ${gapLeft(gapMiddle)}, one in a hundred ${gapLeft(gapLow)}, least of all simulated ${gapLeft(gapLeast)}`;

function stepLines(step: TestStep, k: number, plan: FirstTest, subject: PlanSubject): Block[] {
  const { reserve, units } = subject;
  const figures = figuresIn(units);
  const { distanceText, speedText } = figures;
  const isWhole = plan.isWhole && k === plan.steps.length - 1;
  return [
    row(
      `${k + 1} shut off`,
      `at ${distanceText(step.shutOff)}, about ${speedText(step.speed)}${isWhole ? ' (the whole track)' : ''}`,
    ),
    row(
      '  risk',
      `${closerThan(reserve, units)}: ${stepFigure(step, ({ underReserve }) => riskWords(underReserve, 'run'))}`,
    ),
    row('  gaps', `${stepFigure(step, (of) => gapsWords(of, figures))}; tight ${tightWords(step)}`),
    row('  go on if', goOnWords(step, plan, isWhole, subject)),
    row('  stops', stopWords(step)),
  ];
}

/** The plan as it is printed. @param place  of its folder; undefined when nothing was written */
export function planWords(
  plan: FirstTest,
  judged: JudgedTub,
  subject: PlanSubject,
  place: string | undefined,
): Block[] {
  const { steps, tyre } = plan;
  return [
    BLANK,
    heading(`  ${subject.title}${subject.invented ? ' [an invented car]' : ''}: first test`),
    BLANK,
    ...openingBlocks(judged, subject, firstStep(plan, subject)),
    BLANK,
    row(
      'Car',
      `${tyre}; ${
        subject.learned ? 'with what was learned of this car' : 'as assumed, nothing learned of this car yet'
      }`,
    ),
    row('The test', wholeWords(plan, subject)),
    BLANK,
    ...steps.flatMap((step, k) => stepLines(step, k, plan, subject)),
    BLANK,
    row('Moments', FINISH_NOTE),
    ...inspections(plan).map((words, i) => row(i === 0 ? 'Before it' : '', words)),
    ...advice(plan, subject).map((words, i) => row(i === 0 ? 'Advice' : '', words)),
    row(
      'Stop',
      'at any rub, any witness touched, any new noise, smoke or vibration, a tyre that turned on its rim: gaps again before another run',
    ),
    BLANK,
    paragraph(
      'Tyre contact at speed can kill. A plan from a model clears no one to run: the sanctioning body, the tyre ' +
        'maker and a qualified chassis builder do. Not in it: tyre shake, wheel-stands, a flat tyre, loose rubber.',
    ),
    ...(place === undefined ? [] : [line(`  Written to ${place}`)]),
  ];
}
