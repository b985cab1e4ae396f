import { type Markup, markup } from '@tubgap/drawing';
import { placeText, type Refusal, refusalWords } from '@tubgap/evidence';
import type { Outcome } from './outcome.ts';
import { CAUTION, listOf, pageOf } from './page.ts';
import { folderReader } from './rejected-words.ts';
import { standingRows } from './standing-words.ts';
import { stopRows, stopText, unpassed } from './stop-words.ts';

const rowText = ({ label, text }: { label: string; text: string }): Markup =>
  label === '' ? markup`${text}` : markup`<b>${label}:</b> ${text}`;

/** What is seen of the measured car itself, before anything learned: what stops it, its check sheet, the tub in it. */
export function seenPart({ source, stops, standing }: Outcome): Markup {
  const stop = stopText(stops);
  const values = unpassed(stops, source.units);
  return markup`${stop !== undefined && markup`<p class="caution"><b>Do not run:</b> ${stop}.</p>`}
${
  standing !== undefined &&
  markup`<div class="answer">${standingRows(source, standing, stops.rubs.length > 0).map((one) => markup`<p>${rowText(one)}</p>`)}</div>`
}
${stopRows(stops, source.units)
  .filter(({ label }) => label !== '')
  .map((one) => markup`<p>${rowText(one)}</p>`)}
${values.length > 0 && listOf(values)}`;
}

/** The page where nothing was learned: what stops the car, the tub in it, and why. */
export function refusedPage(outcome: Outcome, refusal: Refusal, madeBy: string): string {
  const { source, measured } = outcome;
  const body = markup`${seenPart(outcome)}
${CAUTION}
<h2>Why nothing was learned</h2>
${listOf(refusalWords(refusal, folderReader(measured)).why)}
${
  measured.rejected.length > 0 &&
  markup`<h2>Left out</h2>${listOf(measured.rejected.map((one) => `${placeText(one)}: ${one.reason}.`))}`
}`;
  return pageOf(`Measured: ${source.title}`, source.invented, body, `${madeBy}, case ${source.name}.`);
}
