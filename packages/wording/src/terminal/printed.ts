import { harmless } from '@tubgap/units';
import type { Block } from '../block.ts';
import { tableLines } from './table-lines.ts';
import type { Terminal } from './terminal.ts';
import { wrapped } from './wrapped.ts';

/** Columns of words: a longer line is not read well, however wide the terminal. */
const MOST = 100;
/** Columns of a label; where so few are left for words, the label stands above them. */
const LABEL = 16;
const LEAST_WORDS = 30;
const INDENT = '  ';

/** A row's lines: its label to the left of its words, or above them. */
function rowLines(label: string, text: string, width: number): string[] {
  if (width - LABEL < LEAST_WORDS) {
    const words = wrapped(text, width - 2 * INDENT.length).map((line) => INDENT + INDENT + line);
    return label === '' ? words : [INDENT + label.trim(), ...words];
  }
  return wrapped(text, width - LABEL).map((line, i) =>
    `${(i > 0 || label === '' ? '' : `${INDENT}${label}`).padEnd(LABEL)}${line}`.trimEnd(),
  );
}

function linesOf(block: Block, { width, bold }: Terminal): string[] {
  const words = Math.min(width, MOST);
  const shown = (lines: readonly string[], strong: boolean): string[] =>
    bold && strong ? lines.map((line) => (line === '' ? line : `\u001b[1m${line}\u001b[22m`)) : [...lines];
  switch (block.kind) {
    case 'line':
      return shown(wrapped(harmless(block.text), words), block.strong);
    case 'row':
      return shown(rowLines(harmless(block.label), harmless(block.text), words), block.strong);
    case 'paragraph':
      return wrapped(harmless(block.text), words - INDENT.length).map((line) => INDENT + line);
    case 'table': {
      const { head, rest } = tableLines(block, width);
      return [...shown(head, true), ...rest];
    }
  }
}

/** Blocks as a terminal shows them, a line end after each line; nothing in them can order the terminal about. */
export const printed = (blocks: readonly Block[], to: Terminal): string =>
  blocks.flatMap((block) => linesOf(block, to).map((line) => `${line}\n`)).join('');
