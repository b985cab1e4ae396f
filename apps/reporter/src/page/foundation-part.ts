import { type Markup, markup } from '@tubgap/drawing';
import type { Result } from '@tubgap/results';
import { oneIn, shopWords, wholeText } from '@tubgap/units';
import { inputNamed, inputWords } from '@tubgap/wording';
import { figuresOf } from '../figures-of.ts';
import { measuresOf, percent } from './measures.ts';
import { type Cell, list, table } from './parts.ts';

/** What lies beyond the model, hard ends of laws, warnings of the case, and what is left out altogether. */
export function cautionsPart(result: Result): Markup {
  const { wordsOf } = figuresOf(result);
  const bounds = result.bounds.map(
    (bound) =>
      `The tightest runs of ${bound.tyre} lie at the ${bound.end} end of what the case allows for “${inputWords(bound.label)}”. That end decides; what lies past it is not known.`,
  );
  const left =
    'Left out of the model: tyre shake, a wheel-stand and its landing, load on wheelie bars, steering, a flat or burst tyre, a car ' +
    'out of the groove, and the stretch of new slicks over their first runs. Flex of the tub under air has to fit into the gap ' +
    'that is to be kept.';
  return list([
    ...bounds,
    ...result.cautions.map((caution) => wordsOf(caution.text)),
    ...result.warnings.map((text) => wordsOf(text)),
    left,
  ]);
}

const SOURCES = { case: 'case', catalogue: 'catalogue', assumed: 'assumed' } as const;

const source = (input: Result['inputs'][number]): string | Markup =>
  input.source === 'assumed'
    ? markup`<span class="assumed">assumed</span>: ${input.basis}`
    : `${SOURCES[input.source]}: ${input.basis}`;

function inputTable(result: Result, tyre: string, title: string): Markup {
  const inputs = result.inputs.filter((input) => input.tyre === tyre);
  return table({
    caption: title,
    look: 'inputs',
    head: [{ text: 'input' }, { text: 'value' }, { text: 'source' }],
    rows: inputs.map((input) => ({
      cells: [
        { text: inputNamed(input.label) },
        { text: shopWords(input.shown, result.case.units ?? 'inch', input.kind) },
        { text: source(input) },
      ],
    })),
  });
}

/** What is another in a tyre's class than in the case, inputs apart: they have a table of their own. */
function classText({ inClass }: Result['tyres'][number], result: Result): string {
  const { both, distance } = measuresOf(result);
  const told = [
    inClass?.tyre === undefined ? undefined : `the tyre is ${inClass.tyre}`,
    inClass?.distance === undefined ? undefined : `track ${distance(inClass.distance)}`,
    inClass?.gripLostChance === undefined ? undefined : `grip lost in ${percent(inClass.gripLostChance)}`,
    inClass?.reserve === undefined ? undefined : `to be kept ${both(inClass.reserve, 'up')}`,
    inClass?.acceptedRunRisk === undefined ? undefined : `accepted ${oneIn(inClass.acceptedRunRisk)} runs`,
  ].filter((one) => one !== undefined);
  return told.length === 0 ? '' : `; in its class ${told.join(', ')}`;
}

function fixedFacts(result: Result): Markup {
  const { alongBoth } = figuresOf(result);
  const { both, pressure, distance } = measuresOf(result);
  const rows: Cell[][] = [
    [{ text: 'build tyre' }, { text: result.build.tyre }],
    [{ text: 'pressure at the build' }, { text: pressure(result.build.pressure) }],
    [
      { text: 'axle above the track at rest' },
      {
        text: `${both(result.build.axleHeight, 'nearest')}, ${result.build.axleHeightMeasured ? 'measured' : 'reckoned from the tyre'}`,
      },
    ],
    [{ text: 'gap to be kept' }, { text: both(result.build.reserve, 'up') }],
    [{ text: 'track' }, { text: distance(result.track.distance) }],
    [{ text: 'runs that lose grip in mid-track' }, { text: percent(result.track.gripLostChance) }],
    ...result.tyres.map((tyre): Cell[] => [
      { text: tyre.name },
      {
        text: `${tyre.construction}, ${tyre.condition}, ${wholeText(tyre.runsPerSeason)} runs a season${classText(tyre, result)}`,
      },
    ]),
    ...result.tubs.map((tub): Cell[] => [
      { text: tub.name },
      {
        text: `${both(tub.diameter, 'down')} inside, ${both(tub.insideWidth, 'down')} wide, centre ${alongBoth(tub.centreForward)}`,
      },
    ]),
  ];
  return table({
    caption: 'Fixed in the case, without a spread',
    head: [{ text: 'what' }, { text: 'value' }],
    rows: rows.map((cells) => ({ cells })),
  });
}

/** Every input with its value and where it comes from. */
export const inputsPart = (result: Result): Markup =>
  markup`<p>What is marked <span class="assumed">assumed</span> was not measured on this car. Measure what matters and write it into the case. Mean and median are the middle; about two in three values lie within one “sd” of it, or within “cov”, a share of it.</p>
${fixedFacts(result)}${inputTable(result, '', 'Car, build, run and day')}${result.tyres
  .filter(({ name }) => result.inputs.some((input) => input.tyre === name))
  .map((tyre) => inputTable(result, tyre.name, `Tyre ${tyre.name}`))}`;

/** How the figures were made, so that they can be made again. */
export const originPart = (result: Result): Markup =>
  markup`<p>Made by ${result.madeBy} from ${result.case.file}: ${wholeText(result.draws)} runs and ${wholeText(result.cars)} seasons simulated, seed
${String(result.seed)}.${result.case.settings.map(({ path, value }) => ` In place of the file’s value: ${path} = ${value}.`).join('')} The same case file, catalogues, program and seed give the same page. Outlines and gaps by angle come from
${wholeText(result.outlines.runs)} of the runs. All heights are inside heights above the track, the car standing on the build tyre at build
pressure. Lengths are rounded to the ${result.case.units === 'mm' ? 'millimetre' : 'sixteenth of an inch'} on the safe side.</p>`;
