import { BAD_INPUT } from '@tubgap/casefile/command-line';

/** Something in what was asked for is to be mended; its lines say what, where and how. */
export class StudyFault extends Error {
  readonly exitCode = BAD_INPUT;
  readonly lines: readonly string[];

  constructor(lines: readonly string[]) {
    super(lines.join('\n'));
    this.lines = lines;
  }
}
