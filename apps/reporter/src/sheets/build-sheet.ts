import { type Markup, markup } from '@tubgap/drawing';
import { limitsOf, type Result } from '@tubgap/results';
import { angleWords, oneIn, wholeDegrees } from '@tubgap/units';
import { boundWords, comesClose } from '@tubgap/wording';
import { reasonText } from '../best-place.ts';
import { existingLead } from '../existing-tub.ts';
import { figuresOf } from '../figures-of.ts';
import { unknownWords } from '../fit-words.ts';
import { buildCondition } from './build-condition.ts';
import { type ChosenTub, chosenTub, isSetHigher } from './chosen-tub.ts';
import { tubFits } from './envelope.ts';
import { envelopeSection } from './envelope-section.ts';
import { materialSection } from './material-section.ts';
import { setOutOrder } from './set-out-order.ts';
import { SHEET_CAUTION, sheetFoot, sheetHead, sheetPage } from './sheet-page.ts';
import { toleranceSection } from './tolerance-section.ts';
import { tubDrawing } from './tub-drawing.ts';

const FIELDS = ['Car', 'Builder', 'Date', 'Tyres, serial or date code', 'Drawn from issue'];

function keyNumbers(result: Result, { tub, height, setOut, passes }: ChosenTub): Markup {
  const { length, other, alongOther } = figuresOf(result);
  const widest = result.tyres.reduce((a, b) => (b.widthNeeded > a.widthNeeded ? b : a));
  const spare = tub.insideWidth - widest.widthNeeded;
  const extent = wholeDegrees(2 * tub.halfExtent);
  return markup`<div class="key">
<div>Tub<b>${tub.name}</b>${length(tub.diameter, 'down')} inside, bare skin; ${String(extent)}° of arc</div>
<div>Top, inside: set out at<b>${length(setOut, 'up')}</b>${other(setOut, 'up')} above the track; least ${length(height.topHeight, 'up')}; as built and measured never under ${length(passes, 'up')}${
    tub.liner > 0 && `. To the liner: bare skin ${length(tub.liner, 'up')} higher`
  }</div>
<div>Centre of the arc<b>${length(Math.abs(tub.centreForward), 'nearest')}</b>${alongOther(tub.centreForward)}</div>
<div>Width inside, at least<b>${length(widest.widthNeeded, 'up')}</b>for ${widest.name}; the tub has ${length(tub.insideWidth, 'down')}${
    spare > 0 ? `, of which ${length(spare, 'down')} may be trimmed` : ', which is too little'
  }</div>
</div>`;
}

function riskLine(result: Result, chosen: ChosenTub): Markup {
  const { length } = figuresOf(result);
  const { index, height, setOut, asSetOut } = chosen;
  const isHigher = isSetHigher(chosen);
  const limiting = result.tyres.findIndex((tyre) => tyre.name === height.limitingTyre);
  const { reserve, runRisk } = limitsOf(result, asSetOut.limitingTyre);
  const gap = result.pickGaps[limiting]?.[index];
  return markup`<p><b>Risk at ${length(setOut, 'up')}${isHigher && markup`, and in brackets at ${length(height.topHeight, 'up')}`}:</b> a run ${comesClose(reserve, result.case.units)} ${boundWords(asSetOut.runRisk.high)}${isHigher && ` (${oneIn(height.runRisk.high)})`}, accepted: ${oneIn(runRisk)}; it really touches ${boundWords(asSetOut.contactRisk.high)}${isHigher && ` (${oneIn(height.contactRisk.high)})`}; a season has a run too close ${boundWords(asSetOut.seasonRisk.high)}${isHigher && ` (${oneIn(height.seasonRisk.high)})`}, accepted: ${oneIn(result.accept.seasonRisk)}. ${
    gap != null &&
    `Tightest: ${height.limitingTyre}, ${gap.tightestMoment}, ${angleWords(gap.tightestAngle)}.`
  }</p>`;
}

/** Tyres that the page has room for; the side rooms of all are in the report. */
const MOST_TYRES = 3;

function sides(result: Result): Markup {
  const { length } = figuresOf(result);
  const known = result.tyres.filter((tyre) => tyre.innerGap !== null && tyre.outerGap !== null);
  const rooms = known
    .slice(0, MOST_TYRES)
    .map(
      (tyre) =>
        `${tyre.name} ${length(tyre.innerGap!, 'down')} to the inner panel, ${length(tyre.outerGap!, 'down')} to the body side`,
    );
  return markup`<p><b>Both sides alike:</b> the case knows one side, the worse one where driveshaft torque drops the frame.${
    rooms.length > 0 && ` Room at the sides, axle at the end of its play: ${rooms.join('; ')}.`
  }</p>`;
}

/** Whether the case has no limits of the car: nothing is said then of what they leave. */
const roomLeft = ({ envelope }: Result): boolean => Object.keys(envelope).length === 0;

/** Said before any number where the car has no room for the tub of the sheet. */
function roomWarning(result: Result, { index }: ChosenTub): Markup | false {
  const fit = tubFits(result)[index]!;
  return (
    !roomLeft(result) &&
    !fit.fitsBoth &&
    markup`<p class="stop"><b>Do not build this yet: the car has no room for it.</b> See “Room on the car”.</p>`
  );
}

/** Two pages for the bench: the drawing; and how to set it out, how exactly, from how much material, and whether the car takes it. */
export function buildSheet(result: Result): string {
  const chosen = chosenTub(result);
  const title = `Build sheet: ${result.case.title}`;
  if (chosen === undefined) {
    const unknown = unknownWords(result);
    return sheetPage(
      title,
      markup`${sheetHead(result, 'Build sheet', FIELDS)}
${SHEET_CAUTION}
<main>${existingLead(result)}<p class="stop">${
        unknown === undefined
          ? markup`<b>Nothing to build.</b> None of these tubs can be recommended for the accepted risk.`
          : markup`<b>Not known yet what to build:</b> ${unknown}. Cut nothing by this sheet; simulate more runs.`
      }</p>
<ul>${result.picks.map((pick, t) => markup`<li><b>${pick.tub}</b>: ${reasonText(result, t) || 'fits, but was not chosen'}</li>`)}</ul>
${envelopeSection(result)}</main>
${sheetFoot(result)}`,
    );
  }
  return sheetPage(
    title,
    markup`${sheetHead(result, 'Build sheet', FIELDS)}
${SHEET_CAUTION}
<main>
${existingLead(result)}
${roomWarning(result, chosen)}
${keyNumbers(result, chosen)}
<figure class="sheet" tabindex="0" role="region" aria-label="Drawing of the tub">${tubDrawing(result, chosen)}</figure>
<p><b>Measured with:</b> ${buildCondition(result).join(' ')}</p>
${riskLine(result, chosen)}
${sides(result)}
<h2 class="next">Set out in this order</h2>
${setOutOrder(result, chosen)}
<h2>How exactly</h2>
${toleranceSection(result, chosen)}
<h2>Material, one tub</h2>
${materialSection(result, chosen)}
<h2>Room on the car</h2>
${envelopeSection(result)}
</main>
${sheetFoot(result)}`,
  );
}
