/** Text that is markup already and is put in as it stands. */
export interface Markup {
  readonly markup: string;
}

/** What may stand in a template; text is escaped, numbers are rounded, false and undefined leave nothing. */
type Part = string | number | Markup | readonly Markup[] | false | undefined;

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text for an element or a quoted attribute; characters that XML does not allow become �. */
export function escapeText(text: string): string {
  return text
    .replace(/[&<>"']/g, (character) => ENTITIES[character]!)
    .replace(/[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu, '\ufffd');
}

/** A number for an attribute: two decimals at most, never an exponent or a minus zero. */
export function shortNumber(value: number): string {
  if (!Number.isFinite(value))
    throw new RangeError(`a drawing came upon ${value}; finite numbers are needed.`);
  return String(Math.round(value * 100) / 100 + 0);
}

function partText(part: Part): string {
  if (part === false || part === undefined) return '';
  if (typeof part === 'string') return escapeText(part);
  if (typeof part === 'number') return shortNumber(part);
  if ('markup' in part) return part.markup;
  return part.map((one) => one.markup).join('');
}

/** Template tag for SVG and HTML: whatever is put in is escaped, unless it is markup itself. */
export function markup(strings: TemplateStringsArray, ...parts: readonly Part[]): Markup {
  let text = strings[0]!;
  parts.forEach((part, i) => {
    text += partText(part) + strings[i + 1]!;
  });
  return { markup: text };
}
