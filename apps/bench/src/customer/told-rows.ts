import { type Answered, answerTo, tyresOf } from '../ask/ask-state.ts';
import { putQuestions } from '../worker/assumed-items.ts';

/** What an answer is called on the sheet, by the name of its question; those that are told elsewhere are left out. */
const LABELS: Readonly<Record<string, string>> = {
  'tyres[].size': 'Tyre',
  'tyres[].build': 'Tyre is a',
  'tyres[].rollout': 'Rollout',
  'tyres[].pressure': 'Pressure, cold',
  'tyres[].widthIs': 'Width printed is of the',
  'tyres[].rimWidth': 'Rim width',
  'tyres[].runsPerSeason': 'Runs a season',
  'tyres[].speed': 'Speed on it',
  'tyres[].sixtyFoot': '60 ft on it',
  speed: 'Finish speed',
  distance: 'Distance',
  mass: 'Weight with driver',
  rearShare: 'On the rear axle',
  wheelbase: 'Wheelbase',
  wing: 'Wing',
  'downforce.force': 'Downforce',
  'downforce.at': 'at',
  sixtyFoot: '60 ft',
  elapsed: 'Elapsed time',
  axleHeight: 'Axle above track',
  bumpTravel: 'Travel to the stop',
  wheelRate: 'Wheel rate',
  parachutes: 'Parachutes',
  'existing.diameter': 'Tub in the car',
  'existing.topHeight': 'its top',
  'existing.centreForward': 'its centre ahead',
};

/** The car as told, row by row. */
export function toldRows(answers: Answered): { id: string; label: string; text: string }[] {
  const several = tyresOf(answers).length > 1;
  return putQuestions(answers).flatMap(({ question, id, tyre }) => {
    const label = LABELS[question.id];
    const text = answerTo(answers, id);
    if (label === undefined || typeof text !== 'string' || text.trim() === '') return [];
    const words = question.choices?.find(({ value }) => value === text)?.words ?? text;
    return [{ id, label: several && tyre !== undefined ? `${label} ${tyre + 1}` : label, text: words }];
  });
}
