import { INK, type Markup, markup, RUST, SOFT_INK } from '@tubgap/drawing';
import { unbroken } from '@tubgap/wording';

/** One sheet's only style: dark on white, one column on a phone, whole tables on paper. */
const STYLE = `
:root { color-scheme: light; --ink: ${INK}; --soft: ${SOFT_INK}; --rule: #c9c9c4; --rust: ${RUST}; }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 58rem; padding: 1rem 1rem 3rem; color: var(--ink); background: #fff;
  font: 1rem/1.45 system-ui, -apple-system, 'Segoe UI', Roboto, 'Helvetica Neue', Arial, 'Open Sans', sans-serif; }
h1 { font-size: 1.25rem; margin: 0; }
h2 { font-size: 1.12rem; margin: 2rem 0 .5rem; padding-top: .5rem; border-top: 2px solid var(--ink); }
p, li { max-width: 44rem; }
p { margin: .5rem 0; }
.invented { display: inline-block; margin: .4rem 0 0; padding: .1rem .5rem; border: 1px solid var(--rust); color: var(--rust); font-weight: 600; }
.caution { border-left: .35rem solid var(--rust); background: #faf1ec; padding: .5rem .8rem; margin: .8rem 0 0; max-width: none; }
.answer { border: 2px solid var(--ink); padding: .7rem .9rem; margin-top: .8rem; }
.answer p { margin: .25rem 0; max-width: none; }
.answer .first { font-size: 1.3rem; font-weight: 700; }
.soft { color: var(--soft); }
figure { margin: 1rem 0; }
figure svg { display: block; width: 100%; height: auto; max-width: 36rem; }
figcaption { color: var(--soft); font-size: .92rem; max-width: 36rem; }
table { border-collapse: collapse; font-size: .93rem; margin: .6rem 0; }
caption { text-align: left; color: var(--soft); padding-bottom: .3rem; }
th, td { text-align: left; vertical-align: top; padding: .28rem .8rem .28rem 0; border-bottom: 1px solid var(--rule); }
thead th { border-bottom: 1.5px solid var(--ink); }
.scroll { overflow-x: auto; }
footer { margin-top: 2.4rem; border-top: 1px solid var(--rule); color: var(--soft); font-size: .9rem; }
@media screen and (max-width: 34rem) {
  table, tbody, tr, th, td, caption { display: block; border: 0; padding: .05rem 0; }
  thead { position: absolute; clip-path: inset(50%); width: 1px; height: 1px; overflow: hidden; }
  tr { padding: .4rem 0; border-bottom: 1px solid var(--rule); }
  td[data-head]::before { content: attr(data-head) ': '; color: var(--soft); }
  td:empty { display: none; }
}
@page { margin: 14mm 13mm; }
@media print {
  body { max-width: none; padding: 0; font-size: 10pt; }
  h2 { break-after: avoid; margin-top: 1.2rem; }
  figure, tr, .answer, .caution, li { break-inside: avoid; }
  table { font-size: 8.5pt; }
  figure svg { max-width: 120mm; }
  figcaption, footer { font-size: 8.5pt; }
}
`;

export interface TableWords {
  caption: string;
  head: readonly string[];
  rows: readonly (readonly string[])[];
}

/** A table whose first column heads its rows; rows become blocks on a phone. */
export const tableOf = ({ caption, head, rows }: TableWords): Markup =>
  markup`<div class="scroll"><table><caption>${caption}</caption><thead><tr>${head.map(
    (cell) => markup`<th scope="col">${cell}</th>`,
  )}</tr></thead><tbody>${rows.map(
    ([first, ...rest]) =>
      markup`<tr><th scope="row">${first!}</th>${rest.map((cell, i) => markup`<td data-head="${head[i + 1]!}">${cell}</td>`)}</tr>`,
  )}</tbody></table></div>`;

export const listOf = (items: readonly (string | Markup)[]): Markup =>
  markup`<ul>${items.map((item) => markup`<li>${item}</li>`)}</ul>`;

export const CAUTION = markup`<p class="caution"><b>Tyre contact at speed can kill.</b> These figures are a model’s, no better than its assumptions and what was measured on this car. The sanctioning body’s rules, the tyre maker’s limits and a qualified chassis builder come first. Check the gaps on the car, look for marks after every run, and stop when you find one.</p>`;

/** A page of its own: no network, no script. */
export const pageOf = (title: string, invented: boolean, body: Markup, foot: string): string =>
  markup`<!doctype html>
<html lang="en-GB">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${title}</title>
<style>${{ markup: STYLE }}</style>
</head>
<body>
<header><h1>${title}</h1>${invented && markup`<p class="invented">Invented example, no real car</p>`}</header>
<main>
${{ markup: unbroken(body.markup) }}
</main>
<footer><p>${foot}</p></footer>
</body>
</html>
`.markup;
