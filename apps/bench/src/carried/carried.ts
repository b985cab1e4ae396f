import type { Sample } from '@tubgap/results';

/** A case that a page carries with it: its file and every file that it names. */
export interface Carried {
  /** Name of the case file among `files`. */
  file: string;
  /** Texts by their path in the case's folder. */
  files: Readonly<Record<string, string>>;
  /** Where to begin, topHeight in m; what is left out the page finds itself. */
  start?: { tub?: string; tyre?: string; topHeight?: number; units?: 'inch' | 'mm' };
  /** What the pick's risks follow from, where the page is of just the case that was picked for. */
  sample?: Sample;
  /** The check sheet of the results that the page lies beside: its tables by file name, and the tub it is of. */
  sheet?: { tub: string; tables: Readonly<Record<string, string>> };
}

const PLACE = ['<div id="page" inert>', '</div>\n    <!-- end of the page -->'] as const;
const DEMO = ['<script type="application/json" id="demo">', '</script>'] as const;
const CASE = ['<script type="application/json" id="carried">', '</script>'] as const;

/** Text of a carried case, or of none, that can stand in a page: nothing in it ends the element around it. */
const carriedText = (carried: Carried | null): string =>
  JSON.stringify(carried)
    .replaceAll('<', '\\u003c')
    .replaceAll('\u2028', '\\u2028')
    .replaceAll('\u2029', '\\u2029');

/** A page with a text in place of what stands between two others. */
function withBetween(page: string, [opening, closing]: readonly [string, string], text: string): string {
  const start = page.indexOf(opening);
  if (start < 0) throw new Error('this page has no place for a case');
  const from = start + opening.length;
  return page.slice(0, from) + text + page.slice(page.indexOf(closing, from));
}

/** Whether a text is a page that carries a case. */
export const isPage = (text: string): boolean => text.includes(CASE[0]) && text.includes(PLACE[0]);

/**
 * A page with another case in place of the one it carries; null: with none, so that it begins with its questions.
 * @param still  the page as it first looks, as HTML
 * @throws Error when the page has no place for a case
 */
export const withCarried = (page: string, carried: Carried | null, still: string): string =>
  withBetween(withBetween(page, PLACE, still), CASE, carriedText(carried));

/** A page with the demo's case at hand for whoever wants to see one. @throws Error when the page has no place for it */
export const withDemo = (page: string, demo: Carried): string => withBetween(page, DEMO, carriedText(demo));

/** The demo's case that a page has at hand. */
export function demoIn(page: string): Carried {
  const from = page.indexOf(DEMO[0]) + DEMO[0].length;
  return JSON.parse(page.slice(from, page.indexOf(DEMO[1], from))) as Carried;
}
