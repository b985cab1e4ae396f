import type { PutQuestion } from './put-questions.ts';

/** What an answer is called in a list, by the name of its question; those that are told elsewhere have no name. */
const LABELS: Readonly<Record<string, string>> = {
  'tyres[].size': 'Tyre',
  'tyres[].build': 'Tyre is a',
  'tyres[].rollout': 'Rollout',
  'tyres[].pressure': 'Pressure, cold',
  'tyres[].widthIs': 'Width as printed',
  'tyres[].rimWidth': 'Rim width',
  'tyres[].runsPerSeason': 'Runs a season',
  'tyres[].speed': 'Speed on it',
  'tyres[].sixtyFoot': '60 ft on it',
  kind: 'Sort of car',
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

/** What the answer to a question is called in a list. */
export const questionLabel = ({ question }: PutQuestion): string | undefined => LABELS[question.id];
