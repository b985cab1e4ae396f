/** Something in what was asked for is to be mended; its lines say what, where and how. */
export class StudyFault extends Error {
  readonly lines: readonly string[];

  constructor(lines: readonly string[]) {
    super(lines.join('\n'));
    this.lines = lines;
  }
}
