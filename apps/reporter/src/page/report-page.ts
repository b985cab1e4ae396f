import { type Markup, markup } from '@tubgap/drawing';
import type { Result } from '@tubgap/results';
import { chanceText } from '@tubgap/units';
import { decisionPart } from './decision-part.ts';
import { cautionsPart, inputsPart, originPart } from './foundation-part.ts';
import { gapFigure } from './gap-figure.ts';
import { hardPointsPart } from './hard-points-part.ts';
import { changesPart, driversPart, measurePart, notchesPart } from './outlook-part.ts';
import { type Chapter, chapter, figure } from './parts.ts';
import { riskFigure } from './risk-figure.ts';
import { sharesFigure } from './shares-figure.ts';
import { sideFigure } from './side-figure.ts';
import { STYLE } from './style.ts';
import { tubsPart } from './tubs-part.ts';

/** A chapter of its body; none when there is nothing to say. */
const made = (id: string, title: string, body: Markup | undefined): Chapter[] =>
  body === undefined ? [] : [{ id, title, body }];

function gapBody(result: Result): Markup | undefined {
  const svg = gapFigure(result);
  const shares = sharesFigure(result);
  if (svg === undefined) return undefined;
  return markup`<div class="pair">${figure(
    svg,
    'Gap from the tyre’s point at each angle at the axle straight to the nearest place of the tub. Hard points are left out.',
  )}${
    shares !== undefined &&
    figure(
      shares.svg,
      `Where the gap of ${shares.tyre} goes (${shares.moment}). A bar to the left gives room back; parts under 1/16 in are left out. Ranked one by one, so the rows do not add up to the whole.`,
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
  const first = result.chosen;
  const order = result.tubs.map((_, t) => t).sort((a, b) => Number(b === first) - Number(a === first));
  const figures = order.flatMap((t) => {
    const svg = riskFigure(result, t);
    const place = t === first ? ', the tub to build.' : '.';
    return svg === undefined
      ? []
      : [figure(svg, markup`<b>${result.tubs[t]!.name}</b>${place}${wallWords(result, t)}`)];
  });
  if (figures.length === 0) return undefined;
  return markup`<p>How often a run leaves less than the gap to be kept, by the height of the tub’s top. One line of the scale up is ten times
the risk. Shaded: what the risk may be (95 %).</p><div class="pair">${figures}</div>`;
}

/** The chapters under the decision, those without content left out. */
const chapters = (result: Result): Chapter[] => [
  ...made('gaps', 'Gap and where it goes', gapBody(result)),
  ...made('hard-points', 'Hard points', hardPointsPart(result)),
  ...made('risk', 'Risk by height', riskBody(result)),
  ...made('tubs', 'All tubs', tubsPart(result)),
  ...made('notches', 'Notches', notchesPart(result)),
  ...made('drivers', 'What drives the risk', driversPart(result)),
  ...made('changes', 'What would change it', changesPart(result)),
  ...made('measure', 'What to measure next', measurePart(result)),
  ...made('cautions', 'What these figures do not know', cautionsPart(result)),
  ...made('inputs', 'All inputs and where they come from', inputsPart(result)),
  ...made('origin', 'How this was made', originPart(result)),
];

/**
 * The report of one case as one HTML file: no network, no script, fit for a screen, a phone and paper. The same result
 * gives the same bytes.
 */
export function reportPage(result: Result): string {
  const { case: source } = result;
  const side = sideFigure(result);
  const parts = chapters(result);
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
<nav aria-label="Chapters"><ul>${parts.map(({ id, title }) => markup`<li><a href="#${id}">${title}</a></li>`)}</ul></nav>
${parts.map(chapter)}
</main>
<footer><p>${result.madeBy}, case ${source.name}, seed ${String(result.seed)}. Tyre contact at speed can kill: the sanctioning body’s rules, the tyre
maker’s limits and a qualified chassis builder come first.</p></footer>
</body>
</html>
`.markup;
}
