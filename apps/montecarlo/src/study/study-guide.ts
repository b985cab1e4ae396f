import { CASE_FILE, type Study } from '@tubgap/results';
import { figuresIn } from '@tubgap/units';

const FILES: Readonly<Record<Study['kind'], readonly string[]>> = {
  sweep: [
    'sweep.csv    every point with every tyre and tub: heights, risk, and both against the case as it stands',
    'summary.csv  the same for the whole car, ready to plot: one line a value',
    'sweep-*.svg  a picture for each input that was varied over numbers; of a grid maps of height and risk, of one at a time a tornado, of points parallel coordinates',
    'sweep.yaml   what was varied',
  ],
  setups: ['setups.csv   every setup with every tyre and tub: heights, risk, and both against the first'],
  classes: ['classes.csv  which tyre fits which tub at which height, and what each tyre adds to the car'],
  places: [
    'place.csv    every place that was tried, and the best of each tub',
    'place.svg    the same as a picture',
  ],
  optimum: [
    'optimum.csv  every place that was looked at, the best first, and what lies beyond the ends that hold it',
    'optimum.svg  the same as a picture, a line a place',
  ],
};

const TITLES: Readonly<Record<Study['kind'], string>> = {
  sweep: 'Sweep of',
  setups: 'Comparison with',
  classes: 'Classes of',
  places: 'Fore-aft places of',
  optimum: 'Best values of',
};

/** How a search is to be read. */
const OPTIMUM: readonly string[] = [
  'place             beyond: a step beyond the end of a range that holds the best, all else as there',
  'drawn_by          search: of another seed, and fewer; judged: of the seed above, which the search did not see, so that',
  '                  its end looks no better there than it is',
  'The search goes down from every valley that a coarse grid shows. A valley narrower than that grid may have been missed:',
  'no search on a grid proves that there is no better place.',
];

/** A word of a command line, quoted where a shell would take it apart. */
const quoted = (word: string): string =>
  /^[\w./-]+$/.test(word) ? word : `"${word.replace(/[\\"$`]/g, '\\$&')}"`;

/** The command that repeats a study in its folder, from verb and options as a command line there would have them. */
export function repeatStudy(
  { kind, draws, drawsAsked, cars, seed }: Study,
  [verb = '', ...words]: readonly string[],
): string {
  const runs = drawsAsked ? ['--draws', String(draws)] : [];
  const seasons = (kind === 'sweep' || kind === 'setups') && cars !== null ? ['--seasons'] : [];
  return ['tubgap', verb, CASE_FILE, ...words, ...runs, ...seasons, '--seed', String(seed)]
    .map(quoted)
    .join(' ');
}

/**
 * The page that explains a study's folder to whoever opens it.
 * @param words  verb and options that were given, as a command line in the folder would have them
 */
export function studyGuide(study: Study, words: readonly string[]): string {
  const { kind, draws, seed } = study;
  const { column } = figuresIn(study.case.units);
  const weighted = kind === 'classes' ? '' : ', and others moved to where touches are rare,';
  return [
    `${TITLES[kind]} the case ${study.case.name}${study.case.invented ? ' (an invented car)' : ''}`,
    study.case.title,
    '',
    `Made by ${study.madeBy}, seed ${seed}, ${draws} runs${weighted} of every setup.`,
    ...(kind === 'classes' || kind === 'places' || kind === 'optimum'
      ? []
      : [
          'All setups were run with the same random numbers: what is common to two of them drops out of their difference.',
        ]),
    'The same case file, catalogues and seed give the same files, byte for byte. In this folder:',
    `  ${repeatStudy(study, words)}`,
    ...study.settings.map(({ path, value }) => `In place of the case file's: ${path} = ${value}`),
    '',
    'study.json   everything that was found, in SI units; heights in m above the track with the build tyre at build pressure',
    'case/        the case file and the files that it names, as they were read',
    ...(words.includes('--against') ? ['against/     the same of the other case'] : []),
    ...FILES[kind],
    'columns.csv  what every column of the tables means, with its unit',
    'written.json what this program wrote here; what you change of it is kept',
    '',
    'In the tables, beside what columns.csv says:',
    'tyre any   the whole car: the height is for all its tyres, a risk that at least one of them comes too close',
    ...(kind === 'optimum' ? OPTIMUM : []),
    ...(kind === 'sweep' || kind === 'setups'
      ? [
          `risks and gaps are those at ${column('at_height')}, the height that the case as it stands asks for (or one asked for)`,
        ]
      : []),
    'An empty cell: no height keeps the accepted risk, or there are too few runs to tell.',
    ...study.notes.map((note) => `Note: ${note}`),
    '',
    ...(kind === 'optimum'
      ? [
          'Of the best alone the height heeds seasons too, and is the one of tubgap pick of the case with its values; all others are',
          'for comparing. Build by tubgap pick.',
        ]
      : [
          'These heights are for comparing: run_top_height heeds the risk of a run, not that of a season. Build by tubgap pick.',
        ]),
    'Tyre contact at speed can kill. These figures come from a model with assumed inputs, not from your car.',
    "They do not replace the sanctioning body's rules, the tyre maker's limits or the judgement of a qualified chassis",
    'builder. Check the static gaps on the car, look for marks after the first runs, and stop when you find one.',
    '',
  ].join('\n');
}
