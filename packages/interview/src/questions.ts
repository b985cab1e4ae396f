import { KINDS_OF_CAR } from './kind-ranges.ts';
import { KIND_WORDS, PARACHUTES, TYRE_BUILDS, WINGS } from './kinds-of-car.ts';

/** How a question is answered. */
export type AnswerKind = 'size' | 'quantity' | 'choice' | 'time' | 'distance' | 'text';

/** A question in a racer's words. */
export interface Question {
  /** Name of the answer: 'mass', 'tyres[].size', 'existing.topHeight'. */
  id: string;
  words: string;
  /** A word more: how it is found, or why it is asked. */
  about?: string;
  kind: AnswerKind;
  choices?: readonly { value: string; words: string }[];
  /** As it may be typed; and where that has a unit, as it may be in metric ones. */
  example?: string;
  metric?: string;
  /** An answer is needed; to all others "don't know" is one. */
  required?: true;
  /** Places of the case file that it fills or narrows; none for what no case holds yet. */
  fills: readonly string[];
}

const plain = (values: readonly string[]) => values.map((value) => ({ value, words: value }));

/** Every question, in the order in which a shop asks on the phone. */
export const QUESTIONS: readonly Question[] = [
  {
    id: 'tyres[].size',
    words: 'What is printed on the rear tyre?',
    about: 'As on the sidewall, or the rollout',
    kind: 'size',
    example: '33.5x17.0-16',
    required: true,
    fills: [
      'tyres[].tyre',
      'tyres[].referenceRadius',
      'tyres[].sectionWidth',
      'tyres[].treadWidth',
      'tyres[].mass',
    ],
  },
  {
    id: 'tyres[].build',
    words: 'Is it a bias slick, a radial slick, or a radial with tread?',
    kind: 'choice',
    choices: plain(TYRE_BUILDS),
    required: true,
    fills: ['tyres[].tyre', 'tyres[].coldPressure'],
  },
  {
    id: 'speed',
    words: 'How fast is it at the finish?',
    kind: 'quantity',
    example: '224 mph',
    metric: '360 km/h',
    required: true,
    fills: ['run.trapSpeed'],
  },
  {
    id: 'distance',
    words: 'Over which distance?',
    kind: 'distance',
    choices: [
      { value: 'eighth', words: 'eighth mile' },
      { value: 'thousand foot', words: '1,000 ft' },
      { value: 'quarter', words: 'quarter mile' },
    ],
    example: 'quarter',
    fills: ['run.distance', 'run.trapSpeed'],
  },
  {
    id: 'speedIs',
    words: 'Is that the speed on the slip, or at the line?',
    about: 'A slip has the mean over the last 66 ft; the car passes the line faster',
    kind: 'choice',
    choices: [
      { value: 'slip', words: 'on the slip' },
      { value: 'line', words: 'at the line' },
    ],
    fills: ['run.trapSpeed'],
  },
  {
    id: 'kind',
    words: 'What sort of car is it?',
    about: 'Sets what is assumed where you do not know',
    kind: 'choice',
    choices: KINDS_OF_CAR.map((value) => ({ value, words: KIND_WORDS[value] })),
    fills: ['suspension.antiRollBar', 'aero.dragArea', 'car.cgHeight'],
  },
  {
    id: 'tyres[].rollout',
    words: 'What does a tape show round the tyre, at its pressure?',
    about: 'A marking covers an inch of diameter; the tape ends that',
    kind: 'quantity',
    example: '105 7/8 in',
    metric: '2690 mm',
    fills: ['tyres[].rollout', 'tyres[].referenceRadius'],
  },
  {
    id: 'tyres[].pressure',
    words: 'What pressure does it run, cold?',
    kind: 'quantity',
    example: '6.5 psi',
    metric: '45 kPa',
    fills: ['build.pressure', 'tyres[].coldPressure'],
  },
  {
    id: 'tyres[].widthIs',
    words: 'Is the second figure of the size the tread or the section?',
    about: 'Of the tread that meets the track, or of the tyre at its widest',
    kind: 'choice',
    choices: plain(['tread', 'section']),
    fills: ['tyres[].sectionWidth', 'tyres[].treadWidth'],
  },
  {
    id: 'tyres[].rimWidth',
    words: 'How wide is the rim?',
    kind: 'quantity',
    example: '15 in',
    metric: '380 mm',
    fills: ['tyres[].sectionWidth', 'tyres[].treadWidth'],
  },
  {
    id: 'mass',
    words: 'What does it weigh with you in it?',
    kind: 'quantity',
    example: '2,480 lb',
    metric: '1125 kg',
    fills: ['car.mass'],
  },
  {
    id: 'rearShare',
    words: 'How much of that is on the rear axle?',
    kind: 'quantity',
    example: '52 %',
    fills: ['car.rearShare'],
  },
  {
    id: 'wheelbase',
    words: 'How long is the wheelbase?',
    kind: 'quantity',
    example: '108 in',
    metric: '2740 mm',
    fills: ['car.wheelbase'],
  },
  {
    id: 'wing',
    words: 'Is there a wing at the back?',
    kind: 'choice',
    choices: plain(WINGS),
    fills: ['aero.downforceArea'],
  },
  {
    id: 'downforce.force',
    words: 'How hard does it press down, if you know?',
    kind: 'quantity',
    example: '1,150 lb',
    metric: '5100 N',
    fills: ['aero.rearDownforce.force', 'aero.downforceArea'],
  },
  {
    id: 'downforce.at',
    words: 'At what speed is that?',
    kind: 'quantity',
    example: '220 mph',
    metric: '354 km/h',
    fills: ['aero.rearDownforce.at'],
  },
  {
    id: 'sixtyFoot',
    words: 'What is its 60-foot time?',
    about: 'Gives the launch',
    kind: 'time',
    example: '1.05',
    fills: ['run.launchAcceleration'],
  },
  {
    id: 'elapsed',
    words: 'And the elapsed time?',
    about:
      'With the speed it gives the launch where the 60-foot time is not known, and shows a slip that was mistyped',
    kind: 'time',
    example: '6.15',
    fills: [],
  },
  {
    id: 'axleHeight',
    words: 'How high is the middle of the axle above the track?',
    kind: 'quantity',
    example: '16 1/4 in',
    metric: '413 mm',
    fills: ['build.axleHeight'],
  },
  {
    id: 'bumpTravel',
    words: 'How far does the wheel come up until it stops?',
    kind: 'quantity',
    example: '2 in',
    metric: '50 mm',
    fills: ['suspension.bumpTravel'],
  },
  {
    id: 'wheelRate',
    words: 'How stiff are the springs, at the wheel?',
    kind: 'quantity',
    example: '190 lb/in',
    metric: '33 N/mm',
    fills: ['suspension.wheelRate'],
  },
  {
    id: 'antiRollBar',
    words: 'Is there an anti-roll bar on the rear axle?',
    about: 'Without one the body rolls under power, and one side drops more',
    kind: 'choice',
    choices: plain(['yes', 'no']),
    fills: ['suspension.antiRollBar'],
  },
  {
    id: 'parachutes',
    words: 'Does it stop with parachutes?',
    kind: 'choice',
    choices: plain(PARACHUTES),
    fills: ['run.chuteDeceleration'],
  },
  {
    id: 'tyres[].runsPerSeason',
    words: 'How many runs does it make in a season?',
    kind: 'quantity',
    example: '60',
    fills: ['tyres[].runsPerSeason'],
  },
  {
    id: 'tyres[].speed',
    words: 'How fast is it on this other tyre?',
    kind: 'quantity',
    example: '188 mph',
    metric: '303 km/h',
    fills: ['tyres[].class.run.trapSpeed'],
  },
  {
    id: 'tyres[].sixtyFoot',
    words: 'And its 60-foot time on it?',
    kind: 'time',
    example: '1.20',
    fills: ['tyres[].class.run.launchAcceleration'],
  },
  { id: 'tyres[].elapsed', words: 'And the elapsed time on it?', kind: 'time', example: '7.30', fills: [] },
  {
    id: 'runRisk',
    words: 'Which chance of a touch in a run is accepted?',
    kind: 'quantity',
    example: '1 in 2,000',
    fills: ['accept.runRisk'],
  },
  {
    id: 'seasonRisk',
    words: 'And in a season?',
    kind: 'quantity',
    example: '1 in 20',
    fills: ['accept.seasonRisk'],
  },
  {
    id: 'existing.diameter',
    words: 'Of a tub that is in the car already: how wide is it inside?',
    kind: 'quantity',
    example: '44 1/2 in',
    metric: '1130 mm',
    fills: [],
  },
  {
    id: 'existing.topHeight',
    words: 'How high is its top above the track?',
    kind: 'quantity',
    example: '39 1/4 in',
    metric: '997 mm',
    fills: [],
  },
  {
    id: 'existing.centreForward',
    words: 'How far is its middle ahead of the axle?',
    kind: 'quantity',
    example: '1/4 in',
    metric: '6 mm',
    fills: [],
  },
  { id: 'title', words: 'Whose car is it?', kind: 'text', fills: ['title'] },
];
