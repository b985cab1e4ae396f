import { centreOption, topHeightOption } from '@tubgap/casefile/command-line';

/** Options of every verb that asks about the tub that stands: which, and where. */
export const TUB = [
  '--tub <name>',
  'tub that stands in the car; left out: the as-built table’s, the one that the case has in the car, its only one, else the pick’s',
] as const;
export const HEIGHT = [
  '--height <length>',
  'inside top of the tub above the track, such as "39 1/4 in"; left out: the as-built table’s or the case’s, else as that tub is set out',
  topHeightOption,
] as const;
export const CENTRE = [
  '--centre <length>',
  'centre of its arc ahead of the axle, "-1/2 in" is behind; left out: the as-built table’s, else the case’s',
  centreOption,
] as const;
export const MEASURED = [
  '--measured <folder>',
  'folder of measurements with as-built.csv; left out: none is read',
] as const;

/** How such a verb ends. */
export const STANDING_CODES =
  '\nExit codes: 0 within what is accepted; 4 not within; 3 not known, too few runs; 2 something in the input to mend';
