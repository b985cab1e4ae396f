import { type Markup, markup } from '@tubgap/drawing';
import { limitsOf, type Result } from '@tubgap/results';
import { chanceText, rareRun } from '@tubgap/units';
import { chosenTub } from '../sheets/chosen-tub.ts';
import { decisionPart } from './decision-part.ts';
import { cautionsPart, inputsPart, originPart } from './foundation-part.ts';
import { gapFigure } from './gap-figure.ts';
import { gapWayFigure } from './gap-way.ts';
import { hardPointsPart } from './hard-points-part.ts';
import { changesPart, driversPart, measurePart, notchesPart } from './outlook-part.ts';
import { type Chapter, chapter, figure, foldedChapter, list } from './parts.ts';
import { riskFigure } from './risk-figure.ts';
import { sideFigure } from './side-figure.ts';
import { STYLE } from './style.ts';
import { tubsPart } from './tubs-part.ts';

/** A chapter of its body; none when there is nothing to say. */
const made = (id: string, title: string, body: Markup | undefined): Chapter[] =>
  body === undefined ? [] : [{ id, title, body }];

function gapBody(result: Result): Markup | undefined {
  const svg = gapFigure(result);
  const way = gapWayFigure(result);
  if (svg === undefined) return undefined;
  return markup`<div class="pair">${figure(
    svg,
    'Gap from the tyre’s point at each angle at the axle straight to the nearest place of the tub. Hard points are left out.',
  )}${
    way !== undefined &&
    figure(
      way,
      `Where the gap goes in one run, ${rareRun(limitsOf(result, chosenTub(result)?.height.limitingTyre).runRisk)}: each bar begins where the one above it ends. Largest causes over all runs: shares.csv.`,
    )
  }</div>`;
}

/** What no height takes away in a tub, a hard point; and how often the tyre is wider than the tub between its legs. */
function wallWords(result: Result, t: number): string {
  const { all } = result.runs;
  const sides = all.tubs[t]!.legTouches;
  const points = result.hardPoints.flatMap((point, h) => {
    const touches = all.hardTouches[h]!;
    return touches > 0 ? [`${point.name} in ${chanceText(touches / all.events)} runs`] : [];
  });
  const beside =
    sides > 0
      ? ` In ${chanceText(sides / all.events)} runs the tyre comes too close to the tub’s sides, which only ends above the tyre’s shoulders mend.`
      : '';
  const helpless =
    points.length > 0 ? ` No height helps where the tyre comes too close to ${points.join(' and ')}.` : '';
  return `${beside}${helpless}`;
}

function riskBody(result: Result): Markup | undefined {
  const drawn = riskFigure(result);
  if (drawn === undefined) return undefined;
  const walls = result.tubs
    .map((_, t) => ({ t, words: wallWords(result, t) }))
    .filter(({ words }) => words !== '');
  return markup`<p>How often a run with any of the tyres leaves less than the gap to be kept, by the height of the tub’s top. One line of the scale up
is ten times the risk. Shaded: what the risk may be (95 %).</p>${figure(
    drawn.svg,
    drawn.away.length > 0 ? `Further off, and not drawn: ${drawn.away.join('; ')}.` : 'All tubs of the case.',
  )}${walls.length > 0 && list(walls.map(({ t, words }) => markup`<b>${result.tubs[t]!.name}</b>:${words}`))}`;
}

/** The chapters that stand open under the decision, a screen of a phone each; those without content left out. */
const openChapters = (result: Result): Chapter[] => [
  ...made('risk', 'Risk by height', riskBody(result)),
  ...made('drivers', 'What drives the risk', driversPart(result)),
  ...made('measure', 'What to measure next', measurePart(result)),
];

/** The chapters that are looked up. */
const folded = (result: Result): Chapter[] => [
  ...made('changes', 'What would change it', changesPart(result)),
  ...made('gaps', 'Gap and where it goes', gapBody(result)),
  ...made('hard-points', 'Hard points', hardPointsPart(result)),
  ...made('tubs', 'All tubs', tubsPart(result)),
  ...made('notches', 'Notches', notchesPart(result)),
  ...made('cautions', 'What these figures do not know', cautionsPart(result)),
  ...made('inputs', `All ${result.inputs.length} inputs and where they come from`, inputsPart(result)),
  ...made('origin', 'How this was made', originPart(result)),
];

/**
 * The report of one case as one HTML file: no network, no script, fit for a screen, a phone and paper. The same result
 * gives the same bytes.
 */
export function reportPage(result: Result): string {
  const { case: source } = result;
  const side = sideFigure(result);
  return markup`<!doctype html>
<html lang="en-GB">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>Tub report: ${source.title}</title>
<style>${{ markup: STYLE }}</style>
</head>
<body>
<header><h1>${source.title}</h1>${source.invented && markup`<p class="invented">Invented example, no real car</p>`}</header>
<main>
<div class="decision${side === undefined && ' alone'}">${decisionPart(result)}${
    side !== undefined &&
    figure(
      side,
      'To scale, seen from the car’s right side. The tyre’s outline stands still in space while the tyre turns inside it.',
    )
  }</div>
<div class="open">${openChapters(result).map(chapter)}</div>
<div class="folds">${folded(result).map(foldedChapter)}</div>
</main>
<footer><p>${result.madeBy}, case ${source.name}, seed ${String(result.seed)}. Tyre contact at speed can kill: the sanctioning body’s rules, the tyre
maker’s limits and a qualified chassis builder come first.</p></footer>
</body>
</html>
`.markup;
}
