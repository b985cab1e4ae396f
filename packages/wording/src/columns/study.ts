/** What the tables of sweeps, comparisons, classes and places tell beside what those of a pick do. */
export const STUDY_COLUMNS = {
  point: ['count', 'number of the point; 0: the case as it stands'],
  as_in_case: ['yes or no', 'whether it is the case as it stands'],
  run_top_height: [
    'length',
    'lowest inside top, on the next sixteenth, at which the upper 95 % bound of the run risk alone is accepted; of any: for all tyres',
  ],
  even_height: [
    'length',
    'height at which the estimate of the run risk is what is accepted: without steps, for curves',
  ],
  height_change: [
    'length',
    'of that height against the case as it stands, or of a search against the best, by the same runs',
  ],
  height_change_low: ['length', 'lower end of its 95 % interval'],
  height_change_high: ['length', 'upper end of its 95 % interval'],
  required_height_p50: ['length', 'height that every other run requires more than'],
  required_height_p99: ['length', 'height that 1 run in 100 requires more than'],
  decided_by: ['', 'what decides the height: arc, leg or a hard point by its name; of classes the risk'],
  run_risk_change: ['0 to 1', 'of the run risk against the case as it stands, by the same runs'],
  run_risk_change_low: ['0 to 1', 'lower end of its 95 % interval'],
  run_risk_change_high: ['0 to 1', 'upper end of its 95 % interval'],
  varied: ['', 'place in the case of the input along which the row stands'],
  others_at: ['', 'what the other inputs are held at'],
  value: ['', 'value of the input, in its unit'],
  unit: ['', 'unit of the value; in columns.csv of the column, or what its cells may be'],
  tub_to_build: ['', 'tub to build there; empty when none can be named'],

  setup: ['', 'letter of the setup; A: the case as it stands'],
  what: ['', 'what the row is of, in words'],

  adds_to_others: [
    'length',
    'height that the tyre adds to what the others ask for; empty where either is not known',
  ],
  run_top_height_all: ['length', 'run_top_height of the whole car'],
  all_tyres_fit: ['yes, no or not known', 'whether the tub takes all tyres'],
  why_not: ['', 'why the tyre does not go in'],

  place: [
    '',
    'what the place is: best, as in the case, or looked at on the way; of a search over several inputs its number, 0 the best, or beyond a range',
  ],
  stands: ['', 'beside the best: best, as good (not told apart from it), or worse (surely asks for more)'],
  drawn_by: ['', 'search: by the draws of the search; judged: by those of the best, which it did not see'],
  above_best: ['length', 'even_height of the whole car above that at the best place'],
} as const;
