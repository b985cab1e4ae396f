import { readFileSync } from 'node:fs';
import { EXIT_CODES, openProgram } from '@tubgap/casefile/command-line';
import { VERBS } from './verbs.ts';

const codes = Object.values(EXIT_CODES)
  .map(({ code, means }) => `  ${code} ${means}`)
  .join('\n');

const HELP = `
Examples:
  tubgap ask                                               a case from what a caller knows, question by question
  tubgap pick datasets/demo/case.yaml                      which tub, at which height, with which risk
  tubgap pick mycar.yaml --draws 1000000                   the same with a million simulated runs
  tubgap judge mycar.yaml --tub street-42 --height "38 5/8 in"   whether the tub that stands is within what is accepted
  tubgap show mycar.yaml                                   a page to drag the tub on, at the desk or at the car
  tubgap sweep mycar.yaml --vary "run.trapSpeed = 200 mph to 240 mph by 10 mph"   what moves the height
  tubgap sweep mycar.yaml --file sweep.yaml --shard 3/10   one shard of ten; tubgap merge puts them together
  tubgap compare mycar.yaml                                which tyre fits which tub, what each tyre costs
  tubgap compare mycar.yaml --set "tyres[0].coldPressure=~7 psi"   two setups side by side
  tubgap place mycar.yaml                                  the best fore-aft place of the tub
  tubgap draws mycar.yaml --format parquet                 the simulated runs themselves, for tools of your own
  tubgap report results/winged-door-car                    tables and papers again, from finished results
  tubgap year results/car-a results/car-b                  all cars of a year on one page
  tubgap revision old/mycar results/mycar                  what changed, and what it asks for
  tubgap learn mycar.yaml --measured measurements          what tape, scale and run logs teach of this car
  tubgap plan mycar.yaml                                   a first test in steps, and what lets it go on
  tubgap state mycar.yaml --moment launch --height "40 in" one state, every value, to check by hand

Exit codes:
${codes}
  130 or 143 stopped by hand (128 and the signal's number)

Tyre contact at speed can kill. The sanctioning body's rules, the tyre maker's limits and a qualified chassis builder
come first.`;

/** Version of this program, as its manifest has it. */
const { version } = JSON.parse(readFileSync(new URL('../package.json', import.meta.url), 'utf8'));

/** The command `tubgap` with every verb. */
export const frontDoor = () =>
  openProgram(
    'tubgap',
    'How much room a drag-race car’s rear tyre needs inside its wheel tub, and how sure one can be.',
    VERBS,
  )
    .version(`tubgap ${version}`, '--version', 'print the version')
    .addHelpText('after', HELP);
