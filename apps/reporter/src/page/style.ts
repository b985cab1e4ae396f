import { BLUE, INK, RUST, SOFT_INK } from '@tubgap/drawing';

/** The page's only style: dark on white, one column on a phone, whole figures on paper. */
export const STYLE = `
:root { color-scheme: light; --ink: ${INK}; --soft: ${SOFT_INK}; --rule: #c9c9c4; --pale: #f3f3ef; --rust: ${RUST}; }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 62rem; padding: 1rem 1rem 3rem; color: var(--ink); background: #fff;
  font: 1rem/1.45 system-ui, -apple-system, 'Segoe UI', Roboto, 'Helvetica Neue', Arial, 'Open Sans', sans-serif; }
h1 { font-size: 1.2rem; line-height: 1.25; margin: 0; font-weight: 600; }
h2 { font-size: 1.15rem; line-height: 1.25; margin: 2.2rem 0 .6rem; padding-top: .5rem; border-top: 2px solid var(--ink); }
h3 { font-size: 1rem; margin: 1.2rem 0 .3rem; }
p { margin: .5rem 0; max-width: 42rem; }
ul { max-width: 42rem; padding-left: 1.2rem; margin: .5rem 0; }
li { margin: .3rem 0; }
a { color: ${BLUE}; }
.invented { display: inline-block; margin: .4rem 0 0; padding: .1rem .5rem; border: 1px solid var(--rust); color: var(--rust); font-weight: 600; }
.decision { display: grid; grid-template-columns: minmax(0, 1fr); gap: 1rem 1.6rem; margin-top: .8rem; }
.answer { container-type: inline-size; border: 2px solid var(--ink); padding: .7rem .9rem .8rem; }
.answer h2 { border: 0; margin: 0; padding: 0; font-size: 1.5rem; line-height: 1.15; }
.answer > p { margin: .35rem 0 0; }
.answer dl { margin: .5rem 0 0; display: grid; grid-template-columns: auto 1fr; gap: .22rem .7rem; line-height: 1.35; }
.answer dt { color: var(--soft); }
.answer dd { margin: 0; }
.answer b { font-weight: 700; }
/* Letters twice as large leave no room for two columns. */
@container (max-width: 16rem) { .answer dl { display: block; } .answer dd { margin-bottom: .3rem; } }
.caution { border-left: .35rem solid var(--rust); background: #faf1ec; padding: .5rem .8rem; margin: .8rem 0 0; max-width: none; }
details { border-top: 1px solid var(--rule); }
summary { padding: .65rem 0; cursor: pointer; font-weight: 600; }
summary h2 { display: inline; border: 0; margin: 0; padding: 0; font-size: 1.05rem; }
.answer details { margin-top: .5rem; }
.answer summary { padding: .4rem 0; }
.folds { margin-top: 2.2rem; border-top: 2px solid var(--ink); }
.folds section { padding-bottom: 1rem; }
figure { margin: 1rem 0; }
figure svg { display: block; width: 100%; height: auto; max-width: 34rem; }
figcaption { color: var(--soft); font-size: .92rem; max-width: 34rem; margin-top: .3rem; }
.pair { display: grid; grid-template-columns: minmax(0, 1fr); gap: 0 2rem; }
table { border-collapse: collapse; font-size: .92rem; margin: .6rem 0; }
caption { text-align: left; color: var(--soft); padding-bottom: .3rem; }
th, td { text-align: left; vertical-align: top; padding: .28rem .7rem .28rem 0; border-bottom: 1px solid var(--rule); }
thead th { border-bottom: 1.5px solid var(--ink); font-weight: 600; }
tbody th { font-weight: 600; }
td.figure, th.figure { text-align: right; font-variant-numeric: tabular-nums; }
td.figure, tbody th { white-space: nowrap; }
.inputs tbody th { white-space: normal; }
@media (min-width: 58rem) { .noted td:last-child { min-width: 15rem; } }
tr.chosen > * { background: var(--pale); }
.inputs td:nth-child(2) { min-width: 13rem; }
.assumed { color: var(--rust); font-weight: 600; }
footer { margin-top: 2.4rem; border-top: 1px solid var(--rule); color: var(--soft); font-size: .9rem; }
@media (min-width: 52rem) {
  .decision { grid-template-columns: minmax(0, 1.15fr) minmax(0, 1fr); align-items: start; }
  .decision.alone { grid-template-columns: minmax(0, 1fr); }
  .pair { grid-template-columns: minmax(0, 1fr) minmax(0, 1fr); }
  .decision figure { margin: 0; }
  .open { display: grid; grid-template-columns: minmax(0, 1fr) minmax(0, 1fr); gap: 0 2rem; align-items: start; }
  #measure { grid-column: 1 / -1; }
}
@media screen and (max-width: 58rem) {
  .noted thead { position: absolute; clip-path: inset(50%); width: 1px; height: 1px; overflow: hidden; }
  .noted, .noted tbody, .noted caption { display: block; }
  .noted tr { display: block; padding: .4rem 0; border-bottom: 1px solid var(--rule); }
  .noted th, .noted td { display: block; border: 0; padding: .05rem 0; }
  .noted td.figure { text-align: left; white-space: normal; }
  .noted td[data-head]::before { content: attr(data-head) ': '; color: var(--soft); font-weight: 400; }
  .noted td:empty { display: none; }
}
@media screen and (max-width: 30rem) {
  .stacked thead { position: absolute; clip-path: inset(50%); width: 1px; height: 1px; overflow: hidden; }
  .stacked, .stacked tbody, .stacked caption { display: block; }
  .stacked tr { display: block; padding: .4rem 0; border-bottom: 1px solid var(--rule); }
  .stacked th, .stacked td { display: block; border: 0; padding: .05rem 0; }
  .stacked td.figure, .stacked th { text-align: left; white-space: normal; overflow-wrap: anywhere; }
  .stacked td[data-head]::before { content: attr(data-head) ': '; color: var(--soft); font-weight: 400; }
  .stacked td:empty { display: none; }
  .inputs td:nth-child(2) { min-width: 0; }
}
@media screen and (max-width: 30rem) {
  body { padding: .6rem .7rem 2rem; }
  h1 { font-size: 1.05rem; }
  .answer { padding: .5rem .6rem .2rem; }
  section > h2 { margin-top: 1.4rem; }
  .answer h2 { font-size: 1.3rem; }
  .answer > p, .answer dl, .caution { font-size: .93rem; }
  .caution { margin-top: .5rem; padding: .4rem .6rem; line-height: 1.35; }
}
@page { margin: 12mm 9mm; }
@media print {
  body { max-width: none; padding: 0; font-size: 10pt; }
  .more { display: none; }
  details { border: 0; }
  details::details-content { content-visibility: visible; block-size: auto; }
  summary { list-style: none; padding: 0; margin-top: 1.4rem; break-after: avoid; }
  .answer summary { margin-top: .5rem; }
  a { color: inherit; text-decoration: none; }
  h2, h3, caption, section > p { break-after: avoid; }
  table { font-size: 8.5pt; }
  table:not(.inputs) { break-inside: avoid; }
  th, td { padding-right: .5rem; }
  .noted td { font-size: 8pt; }
  figure, tr, .answer, .caution, li, p { break-inside: avoid; }
  h2 { margin-top: 1.4rem; }
  figure { margin: .5rem 0; }
  figcaption, footer { font-size: 8.5pt; }
  figure svg { max-width: 125mm; max-height: 230mm; }
  .decision, .open { display: block; }
  .decision figure { margin-top: 4mm; }
  .decision figure svg { max-width: 108mm; }
  .pair { display: grid; grid-template-columns: 1fr 1fr; gap: 0 4mm; }
  .pair figure svg { max-width: 94mm; }
  thead { display: table-header-group; }
}
`;
