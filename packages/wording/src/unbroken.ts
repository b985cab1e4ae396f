/** Keeps a figure and its unit on one line, '39 1/4 in' or '1 in 2,000', by no-break spaces. */
export const unbroken = (text: string): string =>
  text
    .replace(/(?<=\d) (?=\d+\/\d+ in\b|in\b|mm\b|psi\b|lb\b|mph\b|ft\b|%)/g, '\u00a0')
    .replace(/(?<=\b1\u00a0in) (?=[\d,]+\b)/g, '\u00a0');
