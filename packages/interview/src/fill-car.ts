import type { LawText } from '@tubgap/casefile';
import { formatQuantity } from '@tubgap/units';
import type { Answers, Told } from './answers.ts';
import { type CaseDraft, type CaseValue, placeOf } from './case-draft.ts';
import type { KindOfCar } from './kind-ranges.ts';
import { carPriors } from './kinds-of-car.ts';
import { launchTold, massTold, speedTold } from './told-laws.ts';

/** What an answer puts into the case: one place, or those that stand for it. */
type Telling = readonly { path: string; value: CaseValue; words: string }[];

const WITH_SPREAD = 'told; spread: judgement';

function downforceTold({ force, at }: NonNullable<Answers['downforce']>): Telling {
  const middle = formatQuantity(force.value, 'force');
  const law: LawText =
    force.value > 0
      ? { law: 'log-normal', median: middle, cov: 0.15, each: 'car' }
      : { law: 'normal', mean: middle, sd: '50 lbf', each: 'car' };
  return [
    { path: 'aero.rearDownforce.force', value: law, words: WITH_SPREAD },
    { path: 'aero.rearDownforce.at', value: at.text, words: 'told' },
  ];
}

const travelTold = ({ text }: Told): LawText => ({
  law: 'truncated',
  mean: text,
  sd: '0.2 in',
  low: '0 in',
  each: 'car',
});

const rateTold = ({ text }: Told): LawText => ({ law: 'log-normal', median: text, cov: 0.08, each: 'car' });

/** What was told in place of the rows of priors, by the row's path. @param distance  of the track, m */
function tellings(answers: Answers, distance: number): Readonly<Record<string, Telling | undefined>> {
  const { mass, bumpTravel, wheelRate, downforce, antiRollBar } = answers;
  const one = (path: string, value: CaseValue, words: string): [string, Telling] => [
    path,
    [{ path, value, words }],
  ];
  const plain = (path: string, answer: Told | undefined) => (answer ? [one(path, answer.text, 'told')] : []);
  const launch = launchTold(answers, answers.speedIs ?? 'slip', distance);
  return Object.fromEntries([
    ...plain('car.wheelbase', answers.wheelbase),
    ...plain('car.rearShare', answers.rearShare),
    ...plain('run.distance', answers.distance),
    ...plain('accept.runRisk', answers.runRisk),
    ...plain('accept.seasonRisk', answers.seasonRisk),
    ...(mass ? [one('car.mass', massTold(mass), WITH_SPREAD)] : []),
    ...(bumpTravel ? [one('suspension.bumpTravel', travelTold(bumpTravel), WITH_SPREAD)] : []),
    ...(wheelRate ? [one('suspension.wheelRate', rateTold(wheelRate), WITH_SPREAD)] : []),
    ...(antiRollBar ? [one('suspension.antiRollBar', antiRollBar === 'yes', 'told')] : []),
    ...(launch ? [one('run.launchAcceleration', launch.law, launch.words)] : []),
    ...(downforce ? [['aero.downforceArea', downforceTold(downforce)] as const] : []),
  ]);
}

/** The car's part of a case: what was told, else the prior of its kind. @param distance  of the track, m */
export function fillCar(draft: CaseDraft, answers: Answers, kind: KindOfCar, distance: number): void {
  const { speed, wing, parachutes, axleHeight } = answers;
  const told = tellings(answers, distance);
  const named: Readonly<Record<string, string | undefined>> = {
    'aero.downforceArea': wing && 'wing',
    'run.chuteDeceleration': parachutes && 'parachutes',
  };
  for (const row of carPriors({ kind, speed: speed.value, wing, parachutes })) {
    const telling = told[row.path];
    const what = named[row.path];
    if (telling) for (const { path, value, words } of telling) draft.tell(path.split('.'), value, words);
    else if (what)
      draft.tell(placeOf(row), row.value, `told: ${what}, ${row.reason}; its figures: ${row.mark}`);
    else draft.assume(placeOf(row), row.value, row.reason, row.mark);
  }
  const { law, words } = speedTold(speed, answers.speedIs ?? 'slip', distance);
  draft.tell(['run', 'trapSpeed'], law, words);
  if (axleHeight) draft.tell(['build', 'axleHeight'], axleHeight.text, 'told');
}
