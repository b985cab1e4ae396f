import { type Markup, markup } from '@tubgap/drawing';
import { limitsOf, type Result } from '@tubgap/results';
import { chanceText, wholeText } from '@tubgap/units';
import { placesThatFit, reasonText } from '../best-place.ts';
import { ANEW, existingRows } from '../existing-tub.ts';
import { unknownTubs, unknownWords } from '../fit-words.ts';
import { decidingPoints } from '../hard-points/hard-sight.ts';
import { moveWords } from '../hard-points/hard-words.ts';
import { lowerWords, sizeWords, waysOut } from '../no-tub.ts';
import { CAUTION, type Decision, decisionOf, type Piece } from './decision-rows.ts';
import { measuresOf } from './measures.ts';
import { fold, list } from './parts.ts';

/** Accepted risks of classes that have one of their own. */
const ownAccepted = (result: Result): string =>
  result.tyres
    .filter(({ inClass }) => inClass?.acceptedRunRisk !== undefined)
    .map(({ name }) => `, with ${name} ${chanceText(limitsOf(result, name).runRisk)},`)
    .join('');

const caution = markup`<p class="caution"><b>${CAUTION.strong}</b> ${CAUTION.rest}</p>`;

const piece = (one: Piece): Markup =>
  typeof one === 'string' ? markup`${one}` : markup`<b>${one.strong}</b>`;

const lines = (rows: Decision['rows']): Markup =>
  markup`<dl>${rows.map(({ name, pieces }) => markup`<dt>${name}</dt><dd>${pieces.map(piece)}</dd>`)}</dl>`;

const picked = ({ headline, place, rows, more }: Decision): Markup =>
  markup`<div class="answer"><h2>${headline}</h2><p>${place}</p>${lines(rows)}${caution}${fold(
    'Why this tub',
    lines(more),
  )}<p class="more"><a href="at-the-car.html">Drag the tub and see the risk</a>: a page to take to the car.</p></div>`;

/** The tyres would fit, the car has no room: what would have to change, the least pain first. */
function withoutRoom(result: Result): Markup {
  const lower = lowerWords(result);
  const unknown = unknownWords(result);
  const places = placesThatFit(result);
  return markup`<div class="answer"><h2>No tub can be named</h2>
<p>No tub fits both the car and the tyres${places.length > 0 && ' where it stands'}.${places.length > 0 && ` At another place along the car: ${places.join('; ')}.`} What would have to change, the least first:</p>
<ol>${waysOut(result).map((way) => markup`<li>${way}.</li>`)}</ol>${
    lower !== undefined && markup`<p>Or, ${lower}.</p>`
  }${unknown !== undefined && markup`<p>Not known: ${unknown}.</p>`}${list(decidingPoints(result).map((sight) => moveWords(result, sight)))}${caution}</div>`;
}

/** What stands in the way of each tub, when none can be named. */
function withoutPick(result: Result): Markup {
  const { length } = measuresOf(result);
  if (result.nearest !== null) return withoutRoom(result);
  const draws = Math.max(...result.picks.map((pick) => pick.drawsNeeded));
  const cars = Math.max(...result.picks.map((pick) => pick.carsNeeded));
  const short = unknownTubs(result).length > 0;
  const told = result.picks.map((_, t) => reasonText(result, t));
  const reasons = [...new Set(told)].map((reason) => {
    const tubs = result.picks.filter((_, t) => told[t] === reason).map((pick) => pick.tub);
    return markup`<b>${tubs.join(', ')}</b>: ${reason || 'no height found'}.`;
  });
  const size = sizeWords(result);
  const mend = short
    ? [
        draws > 0 && `Simulate at least ${wholeText(draws)} runs (this one has ${wholeText(result.draws)}).`,
        cars > 0 && `Simulate at least ${wholeText(cars)} cars (this one has ${wholeText(result.cars)}).`,
      ].filter((line) => line !== false)
    : [
        ...placesThatFit(result).map((place) => `Build ${place}.`),
        'Put a wider or larger tub on the list, or move the centre of the tub along the car.',
        ...decidingPoints(result).map((sight) => `${moveWords(result, sight)}.`),
        'Measure the inputs marked assumed below: a narrower spread asks for less room.',
        'Lower speed, more pressure within the tyre maker’s limits, or a smaller tyre ask for less room.',
        'Accept a larger risk only with the chassis builder’s consent.',
      ];
  return markup`<div class="answer"><h2>No tub can be named</h2>
<p>${
    short
      ? 'Not known: too few runs were simulated to speak of the risk that you accept.'
      : 'None of these tubs keeps the risk that you accept.'
  } You accept ${chanceText(result.accept.runRisk)} a run${ownAccepted(result)} and ${chanceText(result.accept.seasonRisk)} a season of eating into the
${length(result.build.reserve, 'up')} to be kept.</p>
<h3>Why</h3>${list([...reasons, ...(short || size === undefined ? [] : [`In short: ${size}.`])])}<h3>What would help</h3>${list(mend)}${caution}</div>`;
}

/** The first thing on the page: what to build, how sure that is, and what it rests on. */
export function decisionPart(result: Result): Markup {
  const decision = decisionOf(result);
  const anew = decision === undefined ? withoutPick(result) : picked(decision);
  const [standing, ...rows] = existingRows(result);
  if (standing === undefined) return anew;
  return markup`<div class="answer"><h2>In the car: ${standing.text}</h2><dl>${rows.map(
    ({ label, text }) => markup`<dt>${label}</dt><dd>${text}</dd>`,
  )}</dl></div><h2>${ANEW}</h2>${anew}`;
}
