import { type Markup, markup } from '@tubgap/drawing';

/** A drawing in the page with the words under it. */
export const figure = (svg: string, caption: string | Markup): Markup =>
  markup`<figure>${{ markup: svg }}<figcaption>${caption}</figcaption></figure>`;

/** A chapter of the page; its id is what links point to. */
export interface Chapter {
  id: string;
  title: string;
  body: Markup;
}

export const chapter = ({ id, title, body }: Chapter): Markup =>
  markup`<section id="${id}" aria-labelledby="${id}-heading"><h2 id="${id}-heading">${title}</h2>${body}</section>`;

/** What is opened by a tap, without a script; on paper it stands open. */
export const fold = (title: string | Markup, body: Markup): Markup =>
  markup`<details><summary>${title}</summary>${body}</details>`;

/** A chapter that is folded. A link to its id opens it, for the id stands inside. */
export const foldedChapter = ({ id, title, body }: Chapter): Markup =>
  fold(markup`<h2>${title}</h2>`, markup`<section id="${id}" aria-label="${title}">${body}</section>`);

/** A cell of a table: text, or markup; figures are set to the right. */
export interface Cell {
  text: string | Markup;
  figure?: boolean;
}

export interface TableParts {
  caption: string;
  head: readonly Cell[];
  rows: readonly { cells: readonly Cell[]; chosen?: boolean }[];
  /** Adds to the table's look. */
  look?: string;
}

const aligned = (cell: Cell): Markup => (cell.figure ? markup` class="figure"` : markup``);

const headText = (cell: Cell): string => (typeof cell.text === 'string' ? cell.text : '');

/** A table whose first column heads its rows. Rows become blocks of their own on a narrow screen. */
export function table({ caption, head, rows, look = '' }: TableParts): Markup {
  const body = rows.map(({ cells, chosen }) => {
    const [first, ...rest] = cells;
    const others = rest.map(
      (cell, i) => markup`<td${aligned(cell)} data-head="${headText(head[i + 1]!)}">${cell.text}</td>`,
    );
    return markup`<tr${chosen === true && markup` class="chosen"`}><th scope="row"${aligned(first!)}>${first!.text}</th>${others}</tr>`;
  });
  return markup`<table class="stacked ${look}"><caption>${caption}</caption><thead><tr>${head.map(
    (cell) => markup`<th scope="col"${aligned(cell)}>${cell.text}</th>`,
  )}</tr></thead><tbody>${body}</tbody></table>`;
}

export const list = (items: readonly (string | Markup)[]): Markup =>
  markup`<ul>${items.map((item) => markup`<li>${item}</li>`)}</ul>`;
