import { unbroken } from '../unbroken.ts';

const NO_BREAK = '\u00a0';

/** A text in lines of so many columns, figures and their units kept together; a longer word has a line of its own. */
export function wrapped(text: string, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of unbroken(text).split(' ')) {
    if (line !== '' && line.length + 1 + word.length > width) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  lines.push(line);
  return lines.map((one) => one.replaceAll(NO_BREAK, ' '));
}
