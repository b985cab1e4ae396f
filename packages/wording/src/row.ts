import { unbroken } from './unbroken.ts';

const NO_BREAK = '\u00a0';
/** Columns of a terminal, and those that a label takes. */
const WIDTH = 100;
const LABEL = 16;

/** Breaks a text into lines that fit a terminal, figures and their units kept together, later lines indented. */
export function wrapped(text: string, indent: string): string {
  const lines: string[] = [];
  let line = '';
  for (const word of unbroken(text).split(' ')) {
    if (line !== '' && line.length + 1 + word.length > WIDTH - indent.length) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  lines.push(line);
  return lines.join(`\n${indent}`).replaceAll(NO_BREAK, ' ');
}

/** A row of a decision in a terminal: its label, then its text. */
export const row = (label: string, text: string): string =>
  `${(label === '' ? '' : `  ${label}`).padEnd(LABEL)}${wrapped(text, ' '.repeat(LABEL))}`;
