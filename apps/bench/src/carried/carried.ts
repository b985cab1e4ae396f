/** A case that a page carries with it: its file and every file that it names. */
export interface Carried {
  /** Name of the case file among `files`. */
  file: string;
  /** Texts by their path in the case's folder. */
  files: Readonly<Record<string, string>>;
  /** Where to begin, topHeight in m; what is left out the page finds itself. */
  start?: { tub?: string; tyre?: string; topHeight?: number };
}

const OPENING = '<script type="application/json" id="carried">';
const CLOSING = '</script>';

/** Text of a carried case that can stand in a page: nothing in it ends the element around it. */
export const carriedText = (carried: Carried): string =>
  JSON.stringify(carried)
    .replaceAll('<', '\\u003c')
    .replaceAll('\u2028', '\\u2028')
    .replaceAll('\u2029', '\\u2029');

/** A page with another case in place of the one it carries. @throws Error when the page has no place for one */
export function withCarried(page: string, text: string): string {
  const start = page.indexOf(OPENING);
  if (start < 0) throw new Error('this page has no place for a case');
  const from = start + OPENING.length;
  return page.slice(0, from) + text + page.slice(page.indexOf(CLOSING, from));
}
