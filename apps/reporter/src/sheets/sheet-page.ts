import { INK, type Markup, markup, SOFT_INK } from '@tubgap/drawing';
import type { Result } from '@tubgap/results';
import { wholeText } from '@tubgap/units';
import { unbroken } from '@tubgap/wording';

/**
 * One look for every sheet: black on white, grey only where nothing hangs on it, no script, no file from elsewhere.
 * A page of a printed sheet fits A4 and Letter: the smaller of both each way, less their margins.
 */
const STYLE = `
@page { margin: 7mm; }
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; }
body { margin: 0 auto; padding: 12px; max-width: 196mm; color: ${INK}; background: #fff;
  font: .8125rem/1.35 system-ui, -apple-system, 'Segoe UI', Roboto, 'Helvetica Neue', Arial, sans-serif; }
h1 { font-size: 1.25rem; margin: 0; line-height: 1.15; }
h2 { font-size: .8125rem; margin: 10px 0 3px; padding-bottom: 1px; border-bottom: 1.5px solid ${INK}; }
p { margin: 3px 0; }
small, .soft { color: ${SOFT_INK}; font-size: .75rem; }
.head { color: ${SOFT_INK}; font-size: .75rem; margin: 5px 0 1px; }
header { display: flex; flex-wrap: wrap; gap: 2px 16px; justify-content: space-between; align-items: end; }
header p { margin: 0; }
.fields { display: flex; flex-wrap: wrap; gap: 4px 14px; margin: 6px 0; }
.fields span { flex: 1 1 120px; border-bottom: 1px solid #767676; padding-top: 8px; color: ${SOFT_INK}; font-size: .75rem; }
.caution { border: 2px solid ${INK}; padding: 4px 8px; margin: 6px 0; font-weight: 600; }
.stop { border-left: 6px solid ${INK}; padding: 2px 8px; margin: 4px 0; }
.key { display: grid; grid-template-columns: repeat(auto-fit, minmax(150px, 1fr)); gap: 6px; margin: 6px 0; }
.key div { border: 1px solid #767676; padding: 4px 8px; }
.key b { display: block; font-size: 1.1875rem; line-height: 1.2; }
.wide { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; font-variant-numeric: tabular-nums; }
th, td { border: 1px solid #b5b5b5; padding: 1.5px 5px; text-align: left; vertical-align: top; }
th { font-weight: 600; background: #f1f1ef; }
td.n, th.n { text-align: right; }
td.n { white-space: nowrap; }
td.blank { min-width: 80px; }
.measures td, .measures th { padding-top: 2.1px; padding-bottom: 2.1px; }
.box { display: inline-block; width: 0.8em; height: 0.8em; border: 1px solid ${INK}; margin: 0 3px 0 8px; }
tr.main td { font-weight: 700; }
td b { white-space: nowrap; }
ol, ul { margin: 2px 0; padding-left: 18px; }
li { margin: 1px 0; }
.columns { display: grid; grid-template-columns: 2fr 1fr; gap: 0 14px; align-items: start; }
.columns > * { min-width: 0; }
/* So wide that a picture’s letters are 9 pt in print. */
.columns.tight { grid-template-columns: minmax(0, 1fr) 85mm; }
.file { white-space: nowrap; }
/* Read at arm's length: as wide as it is made for, whatever the screen. */
figure.sheet { overflow-x: auto; } figure.sheet svg { width: 195mm; }
figure { margin: 0; } figure svg { width: 100%; height: auto; display: block; }
footer { margin-top: 8px; border-top: 1px solid #b5b5b5; color: ${SOFT_INK}; font-size: .75rem; }
/* A screen too narrow for the columns: each row a block of its own, each cell under its column's head. */
@media screen and (max-width: 40em) {
  body { padding: 8px; font-size: .9375rem; overflow-wrap: anywhere; } h2 { font-size: 1rem; } li { margin: 3px 0; }
  .columns, .columns.tight { grid-template-columns: 1fr; }
  thead { position: absolute; clip-path: inset(50%); width: 1px; height: 1px; overflow: hidden; }
  table, tbody { display: block; }
  tr { display: flex; flex-wrap: wrap; border: 1px solid #b5b5b5; border-bottom: 0; }
  tr:last-child { border-bottom: 1px solid #b5b5b5; }
  tbody th, td, td.n { border: 0; flex: 1 1 45%; min-width: 0; text-align: left; white-space: normal; padding: 2px 6px; }
  tbody th { flex-basis: 100%; }
  td b { white-space: normal; }
  td[data-head]::before { content: attr(data-head); display: block; color: ${SOFT_INK}; font-size: .75rem; font-weight: 400; }
  td:empty:not(.blank) { display: none; }
  td.blank, td.blank ~ td { flex-basis: 28%; min-height: 3.2rem; border-top: 1px solid #b5b5b5; }
  td.blank + td { border-left: 1px solid #b5b5b5; }
}
@media print {
  body { padding: 0 1px; max-width: none; font-size: 10.3px; line-height: 1.24; }
  p, li { margin-top: 2px; margin-bottom: 2px; } h2 { margin: 5px 0 2px; }
  h1 { font-size: 16px; } h2 { font-size: 11px; } .key b { font-size: 15px; }
  small, .soft, .head, .fields span { font-size: 9.5px; } footer { font-size: 10px; }
  .measures td, .measures th { padding-top: 1.5px; padding-bottom: 1.5px; }
  .full .measures td, .full .measures th { padding-top: 0.6px; padding-bottom: 0.6px; }
  .wide { overflow: visible; } .fields { margin: 2px 0; } .caution { margin: 4px 0; padding: 2px 6px; } .key { margin: 3px 0; gap: 4px; }
  .next { break-before: page; }
  tr, .key div, .caution, .stop { break-inside: avoid; }
}
`;

/** A page of its own that needs nothing else. */
export function sheetPage(title: string, body: Markup): string {
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
${markup`<title>${title}</title>`.markup}
<style>${STYLE}</style>
</head>
<body>
${unbroken(body.markup)}
</body>
</html>
`;
}

const inventedMark = (result: Result): string => (result.case.invented ? ' [an invented car]' : '');

/** Head of a sheet: what it is, which car, and lines to fill in by hand. */
export function sheetHead(result: Result, name: string, fields: readonly string[]): Markup {
  return markup`<header><h1>${name}</h1><p>${result.case.title}${inventedMark(result)}</p></header>
<div class="fields">${fields.map((field) => markup`<span>${field}</span>`)}</div>`;
}

/** Foot of a sheet: where its figures come from. */
export function sheetFoot(result: Result): Markup {
  const assumed = result.inputs.filter((input) => input.source === 'assumed').length;
  return markup`<footer>Case ${result.case.name}, ${result.madeBy}, seed ${String(result.seed)}, ${wholeText(result.draws)} simulated runs; ${String(assumed)} of ${String(result.inputs.length)} inputs are assumed, not measured on this car (READ-ME.txt lists them).${result.book !== undefined && ` ${String(result.book.inputs)} start from the shop’s book (${result.book.file}).`}</footer>`;
}

/** A column's head; `number` stands right, `blank` is left for the pencil. */
interface Column {
  text: string;
  kind?: 'n' | 'blank';
}

/** A table under one line of explanation, its first column the row heads; `measures` leaves room for handwriting. */
export function sheetTable(
  about: string,
  head: readonly Column[],
  rows: readonly { cells: readonly (string | Markup)[]; main?: boolean }[],
  measures = false,
): Markup {
  const kind = (column: number): Markup | false => {
    const found = head[column]?.kind;
    return found !== undefined && markup` class="${found}"`;
  };
  const cell = (content: string | Markup, c: number): Markup =>
    c === 0
      ? markup`<th scope="row">${content}</th>`
      : markup`<td${kind(c)} data-head="${head[c]!.text}">${content}</td>`;
  return markup`<p class="head">${about}</p>
<div class="wide" tabindex="0" role="region" aria-label="${about}"><table${measures && markup` class="measures"`}>
<thead><tr>${head.map((column, c) => markup`<th scope="col"${kind(c)}>${column.text}</th>`)}</tr></thead>
<tbody>${rows.map(
    ({ cells, main }) =>
      markup`<tr${main === true && markup` class="main"`}>${cells.map(cell)}</tr>
`,
  )}</tbody></table></div>`;
}

/** What stands at the head of every sheet on which a number is acted on. */
export const SHEET_CAUTION: Markup = markup`<p class="caution">Tyre contact at speed can kill. These figures come from a model, not from this car. The sanctioning body’s rules, the tyre maker’s limits and a qualified chassis builder come first.</p>`;
