import { type Markup, markup } from '@tubgap/drawing';
import type { Result } from '@tubgap/results';
import { angleHeading, angleWords, type Figures, SIXTEENTH } from '@tubgap/units';
import { existingLead } from '../existing-tub.ts';
import { figuresOf } from '../figures-of.ts';
import { nearestSights } from '../hard-points/hard-sight.ts';
import { buildCondition } from './build-condition.ts';
import { type ChosenTub, chosenTub } from './chosen-tub.ts';
import { gapChecks } from './gap-checks.ts';
import { limitText, toleranceText } from './lengths.ts';
import { SHEET_CAUTION, sheetFoot, sheetHead, sheetPage, sheetTable } from './sheet-page.ts';
import { standingDrawing } from './side-drawing.ts';

const FIELDS = ['Car', 'Measured by', 'Date', 'Tyres, serial or date code', 'Pressure left / right'];

const BLANK = markup``;
const PASSED = markup`<span class="box"></span>L<span class="box"></span>R`;

/** Measures of the tub itself, before any gap. */
function placeRows({ tub, setOut, passes, allowed }: ChosenTub, figures: Figures): Markup {
  const { length, both, alongBoth } = figures;
  return sheetTable(
    'The tub’s own place, from the track and the axle centre',
    [
      { text: 'measure' },
      { text: 'set out at' },
      { text: 'passes at' },
      { text: 'left', kind: 'blank' },
      { text: 'right', kind: 'blank' },
    ],
    [
      {
        cells: [
          'top inside over track',
          both(setOut, 'up'),
          markup`<b>${length(passes, 'up')}</b> and over`,
          BLANK,
          BLANK,
        ],
      },
      {
        cells: [
          'centre, along the car',
          alongBoth(tub.centreForward),
          `ahead by ${toleranceText(allowed?.ahead ?? 0, figures)}, back by ${toleranceText(allowed?.back ?? 0, figures)}`,
          BLANK,
          BLANK,
        ],
      },
    ],
    true,
  );
}

function gapRows(result: Result): Markup {
  const { both } = figuresOf(result);
  return sheetTable(
    'Gap standing still: from the tyre’s point at that angle straight to the nearest place of the tub. Turn the tyre by thirds, write down the smallest.',
    [
      { text: 'tyre’s point' },
      { text: 'gap to see', kind: 'n' },
      { text: 'passes at', kind: 'n' },
      { text: 'left', kind: 'blank' },
      { text: 'right', kind: 'blank' },
      { text: 'passed' },
    ],
    gapChecks(result).map(({ angle, gap, limit }) => ({
      cells: [
        angleHeading(angle),
        both(gap, 'up'),
        markup`<b>${limitText(limit, figuresOf(result))}</b>`,
        BLANK,
        BLANK,
        PASSED,
      ],
    })),
    true,
  );
}

/** Hard points that the page has room for, the nearest in a run first; check-hard-points.csv holds all. */
const MOST_POINTS = 3;

function hardPointRows(result: Result): Markup | false {
  const { both } = figuresOf(result);
  const all = nearestSights(result);
  if (all.length === 0) return false;
  const more = all.length - MOST_POINTS;
  return sheetTable(
    `Hard points: the shortest way from the tyre to the point. They stay where they are when the tub goes up${more > 0 ? `; ${more} more in check-hard-points.csv` : ''}.`,
    [
      { text: 'hard point' },
      { text: 'gap to see', kind: 'n' },
      { text: 'passes at', kind: 'n' },
      { text: 'left', kind: 'blank' },
      { text: 'right', kind: 'blank' },
      { text: 'passed' },
    ],
    all.slice(0, MOST_POINTS).map(({ name, atRest, atRestAngle, limit }) => ({
      cells: [
        `${name}, ${angleHeading(atRestAngle)}`,
        both(atRest, 'up'),
        markup`<b>${limitText(limit, figuresOf(result))}</b>`,
        BLANK,
        BLANK,
        PASSED,
      ],
    })),
    true,
  );
}

/** Tyres that the page has room for. */
const MOST_PLACES = 3;

/** Where the first marks are to be looked for: the tightest runs of each tyre. */
function expectedMarks(result: Result, index: number): string {
  const places = result.tyres.flatMap((tyre, i) => {
    const gap = result.pickGaps[i]?.[index];
    return gap == null ? [] : [`${tyre.name} ${angleWords(gap.tightestAngle)} (${gap.tightestMoment})`];
  });
  const more = places.length - MOST_PLACES;
  return [...places.slice(0, MOST_PLACES), ...(more > 0 ? [`${more} more in the report`] : [])].join('; ');
}

const STOP_RULES = [
  'a gap or a height below its pass limit, on either side',
  'a fresh rub mark on the tub, a polished or blue-black streak, or rubber dust in it',
  'a crack, a white or soft spot in the skin, a loose leg or flange',
  'another tyre, pressure, spring, bump stop, wing or ride height than this sheet says: measure again, run the case again',
  'chunks, blisters or a split in the tyre, or a shake at speed that was not there before',
] as const;

function afterRuns(result: Result, index: number): Markup {
  return markup`<ul>
<li><b>Before:</b> a stripe of chalk or grease paint across the inside of the tub every 15°, or a strip of masking tape; wipe the tub clean so that a mark is a new one.</li>
<li><b>After each of the first three runs:</b> read the stripes with a light and write down angle, length and side of every mark. First places by the tightest simulated runs: ${expectedMarks(result, index)}. A wipe ahead of the top comes from the launch, one near the top from the finish, one low at the side from a narrow or displaced tub.</li>
<li><b>Debris:</b> stones, screws and rubber crumbs between tyre and tub eat the reserve; clean the tub before every run.</li>
<li><b>Rubber build-up:</b> peel it by hand while it is warm; what stays is rolled off with a thumb or pushed with a plastic scraper held flat. No blade, no grinder, no torch, no solvent that the resin’s maker does not allow: a skin that is cut or softened lets go at speed. Then tap the place: a dull sound is a skin that has come loose.</li>
</ul>
<p class="soft">Marks, their causes and the cleaning: common practice, no source.</p>`;
}

/** One page for the tape and the feeler: how to set the car, what to measure, what passes, what to look at afterwards. */
export function checkSheet(result: Result): string | undefined {
  const chosen = chosenTub(result);
  if (chosen === undefined) return undefined;
  const { tub } = chosen;
  const figures = figuresOf(result);
  const { units, length } = figures;
  return sheetPage(
    `Check sheet: ${result.case.title}`,
    markup`${sheetHead(result, 'Check sheet', FIELDS)}
${SHEET_CAUTION}
<main${result.existing !== undefined && markup` class="full"`}>
${existingLead(result)}
<div class="columns tight"><div>
<h2>1 Set the car: ${tub.name}, ${length(tub.diameter, 'down')} inside</h2>
<ol>
${buildCondition(result).map((line) => markup`<li>${line}</li>`)}
<li>On its springs at ride height. Bump stops or spacers must not touch: look. Both axle centres at the same height within ${length(2 * SIXTEENTH, 'down')}.</li>
<li>With the dummy of the template: springs out, or a spacer of the stop’s height in its place, and the body let down until the stop just touches; stands under the frame before anyone reaches in.</li>
</ol>
<h2>2 Measure, both sides</h2>
${placeRows(chosen, figures)}
<p class="soft">A gap passes at its limit or over: the gap to see less ${toleranceText(chosen.allowed?.gapLess ?? 0, figures)} all round, which the accepted risk allows at this height. ${units === 'mm' ? 'Millimetres are rounded up.' : 'Inches are rounded up; where only a sixteenth is missing, go by millimetres.'} Everything passes, or the car does not run. Type the measures back, in ${units === 'mm' ? 'millimetres' : 'inches'}, into <span class="file">check-sheet.csv</span>, <span class="file">check-tub.csv</span>${
      result.hardPoints.length > 0 && markup` and <span class="file">check-hard-points.csv</span>`
    }: <i>tubgap learn</i> says of each whether it passes${
      result.hardPoints.length > 0 && markup`; gaps to hard points only pass or fail the car`
    }.</p></div>
<figure>${standingDrawing(result, chosen)}</figure></div>
${gapRows(result)}
${hardPointRows(result)}
<div class="columns"><div>
<h2>3 After the first runs</h2>
${afterRuns(result, chosen.index)}
</div><div>
<h2>4 Stop running when you find</h2>
<ul>${STOP_RULES.map((rule) => markup`<li>${rule}</li>`)}</ul>
<p class="stop"><b>Do not run again</b> until the cause is found and the gaps are measured anew. When in doubt, a qualified chassis builder decides.</p>
</div></div>
</main>
${sheetFoot(result)}`,
  );
}
