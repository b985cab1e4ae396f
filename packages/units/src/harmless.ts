/** What a terminal would act on, or what would turn a line's order round. */
const UNSHOWN = /[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/gu;

/** A text of somebody else's as one line that orders a terminal nothing: each letter of that kind becomes a dot. */
export const harmless = (text: string): string => text.replace(UNSHOWN, '\u00b7');

/** The same of a text whose line ends are meant. */
export const harmlessLines = (text: string): string => text.split('\n').map(harmless).join('\n');
