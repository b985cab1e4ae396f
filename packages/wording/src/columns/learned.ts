/** What the tables of learning and of the plan of a first test tell. */
export const LEARNED_COLUMNS = {
  of: ['', 'tub, tyre, moment, cars or tool that it is of'],
  quantity: ['', 'figure that is told, with its unit'],
  before: ['', 'before anything was learned'],
  after: ['', 'after it was'],

  measurement: ['', 'kind of measurement'],
  files: ['', 'files that it was read from'],
  readings: ['count', 'readings that were used'],
  rows_left_out: ['count', 'rows that were left out'],
  moved_most: ['', 'input that it moved most'],
  spread_left: ['0 to 1', 'share of the spread of that input that is left'],
  car_to_car_height_spread_taken_away: [
    '0 to 1',
    'share of the spread of the required height from car to car that it takes away',
  ],
  height_change_alone: ['length', 'what it changes the height by when it alone is taken'],

  speed: ['speed', 'speed of the car'],
  before_p05: ['length', 'growth of the radius before the measurements: 1 in 20 is less'],
  before_p50: ['length', 'the middle of it'],
  before_p95: ['length', '1 in 20 is more'],
  after_p05: ['length', 'growth of the radius after the measurements: 1 in 20 is less'],
  after_p50: ['length', 'the middle of it'],
  after_p95: ['length', '1 in 20 is more'],
  measured_sd: ['length', 'standard deviation of what was measured'],

  file: ['', 'file that it stands in'],
  line: ['count', 'line of that file'],
  column: ['', 'column of that file'],

  expected_height_saved: ['length', 'height that the measurement is expected to save'],
  outcome_p10: ['length', 'change of the height that 1 outcome in 10 is below'],
  outcome_p90: ['length', 'change of the height that 1 outcome in 10 is above'],

  least: ['length', 'the least that passes'],
  most: ['length', 'the most that passes'],
  judgement: ['', 'PASS, FAIL, or why it is not judged'],
  outside: ['length', 'how far it lies outside its limits; 0 inside'],

  step: ['count', 'step of the test, from 1'],
  height_is: ['given or set out', 'whether the height was given or is the one that is set out'],
  tub_is: ['', 'verdict on the tub at that height'],
  overruled: ['', 'what was overruled to make the plan'],
  shut_off: ['distance', 'where the car is shut off, from the start'],
  share_that_comes_clean_so_far: ['0 to 1', 'share of the cars that come clean through the steps before'],
  witness: ['length', 'thickness of the witness that this step is run with'],
  stops: ['0 to 1', 'share of the cars that the step stops'],
} as const;
