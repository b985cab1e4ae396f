import { type Case, everyInput, type Issue, issueLines, parseCase, withInputs } from '@tubgap/casefile';
import type { Law } from '@tubgap/statistics';

/** A case that cannot be read: every fault with file, line, column, path and what to do. */
export class CaseFault extends Error {
  readonly issues: readonly Issue[];

  constructor(issues: readonly Issue[]) {
    super(issueLines(issues).join('\n'));
    this.issues = issues;
  }
}

/** What stands beside the text of a case. */
export interface CaseFiles {
  /** Text of the files that it names, such as its catalogues, by their names. */
  files?: Readonly<Record<string, string>>;
  /** Values in place of the text's, by path: { 'run.trapSpeed': '~230 mph' }; with ~ the middle moves and the spread stays. */
  set?: Readonly<Record<string, string>>;
}

/**
 * Reads a case from its text, SI inside.
 * @throws CaseFault with all that is to mend
 */
export function openCase(text: string, { files = {}, set = {} }: CaseFiles = {}): Case {
  const settings = Object.entries(set).map(([path, value]) => ({ path, value }));
  const read = parseCase({ file: 'case.yaml', text, load: (name) => files[name], set: settings });
  if (read.ok) return read.value;
  throw new CaseFault(read.issues);
}

/**
 * The case with another law for an input, wherever one comes from: an empirical fit, another program.
 * @param path  as the case file has it: 'run.trapSpeed', 'tyres[0].coldPressure'
 * @param law  SI
 * @throws RangeError when no input stands there
 */
export function withLaw(source: Case, path: string, law: Law): Case {
  if (!everyInput(source).some((input) => input.path === path)) {
    throw new RangeError(`the case has no uncertain input ${path}`);
  }
  return withInputs(source, (input) =>
    input.path === path
      ? { ...input, law, source: 'case', basis: 'given by a program', shown: law.kind }
      : input,
  );
}
