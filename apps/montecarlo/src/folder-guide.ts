import { bookInUseWords } from '@tubgap/casefile';
import type { Result } from '@tubgap/results';
import { figuresIn, SIXTEENTH, shopWords, wholeText } from '@tubgap/units';

/**
 * The page that explains a results folder to whoever opens it.
 * @param repeat  command that makes the same results again from this folder
 */
export function folderGuide(result: Result, repeat: string): string {
  const assumed = result.inputs.filter((input) => input.source === 'assumed');
  const { units = 'inch' } = result.case;
  const line = (input: Result['inputs'][number]): string =>
    `  ${input.tyre === '' ? '' : `${input.tyre}, `}${input.label}: ${shopWords(input.shown, units, input.kind)} (${input.basis})`;
  return [
    `Results of the case ${result.case.name}${result.case.invented ? ' (an invented car)' : ''}`,
    result.case.title,
    '',
    `Made by ${result.madeBy}, seed ${result.seed}, ${wholeText(result.draws)} runs and ${wholeText(result.cars)} seasons simulated.`,
    ...(result.draws < result.drawsAllowed
      ? [
          `Stopped after ${wholeText(result.draws)} of the ${wholeText(result.drawsAllowed)} runs allowed: by the weighted runs more could move no pick by more than ${figuresIn(units).length(SIXTEENTH, 'up')}.`,
        ]
      : []),
    ...result.case.settings.map(({ path, value }) => `In place of the case's own value: ${path} = ${value}`),
    ...(result.book === undefined ? [] : [`From the shop's book: ${bookInUseWords(result.book)}`]),
    `In this folder the following makes the same again: ${repeat}`,
    'The same case file, catalogues, settings and seed give the same files, byte for byte.',
    '',
    'result.json   everything that was found, in SI units; heights in m above the track with the build tyre at build pressure',
    'sample.json   the simulated runs and seasons, summed up: what the page at the car begins with',
    'case/         the case file as it was read, with the catalogues and other files that it names',
    'at-the-car.html  a page to drag the tub on and see the risk; it needs no network',
    'columns.csv   what every column of the tables means, with its unit',
    'risk.csv      risk of a run by tyre, tub and top height',
    'pick.csv      the lowest top height a tub may have, and what to measure',
    'shares.csv    where the gap goes, moment by moment',
    'hard-points.csv  gap, risk and share of each hard point, tyre by tyre',
    'drivers.csv   what drives the height needed, and what touching runs have in common',
    'changes.csv   what single changes would ask for or give',
    'measure-next.csv  which measurement takes away most of what is not known of the car',
    'written.json  what this program wrote here; what you fill in or change of it is kept',
    '',
    'In the tables:',
    'tyre any            the whole car: a risk is that at least one of its tyres comes too close',
    'run_risk in pick.csv, changes.csv  of the limiting tyre alone, as the accepted risk is held against each tyre by itself',
    'season_risk         of the whole car, all its tyres together',
    '',
    `Assumed, because the case does not say (${assumed.length} of ${result.inputs.length} inputs). Measure what matters and write it into the case:`,
    ...assumed.map(line),
    ...result.assumed.map((value) => `  ${value.label}: ${shopWords(value.shown, units)} (${value.basis})`),
    '',
    'Read from the case and its catalogues:',
    ...result.inputs.filter((input) => input.source !== 'assumed').map(line),
    '',
    'Tyre contact at speed can kill. These figures come from a model with assumed inputs, not from your car. They do not',
    "replace the sanctioning body's rules, the tyre maker's limits or the judgement of a qualified chassis builder. Check the",
    'static gaps on the car, look for marks after the first runs, and stop when you find one.',
    '',
  ].join('\n');
}
