import type { Case } from '../case.ts';
import { lastPart, pathProblem } from '../catalogue/catalogue-file.ts';
import type { Problem } from '../issue.ts';
import { bookCase } from './book-case.ts';
import { learnedCase } from './learned-case.ts';
import { checkLearned, readLearned } from './learned-file.ts';
import { readShopPriors } from './shop-priors.ts';

type Load = (relativePath: string) => string | undefined;

/** Why what was learned cannot be read, and what gives it anew. */
const unlearned = (reason: string): { problem: Problem } => ({
  problem: {
    code: 'file',
    reason,
    hint: 'Change nothing in it by hand: mend the measurement in its own table and learn again (tubgap learn CASE --measured FOLDER), or leave out learned to go by the case alone',
  },
});

/** The case with what was learned, in itself or in the file that it names, in place of its priors; or why that cannot be. */
function withLearned(
  value: Case,
  path: string | Record<string, unknown>,
  load: Load,
): Case | { problem: Problem } {
  if (typeof path !== 'string') {
    const learned = checkLearned(path);
    return 'problem' in learned ? unlearned(learned.problem) : learnedCase(value, learned, value.file);
  }
  const outside = pathProblem(path, 'a learned file', 'learned.yaml');
  if (outside) return { problem: outside };
  const text = load(path);
  if (text === undefined) {
    const hint = 'tubgap learn writes it; put it beside the case';
    return { problem: { code: 'file', reason: "there is no such file in the case file's folder", hint } };
  }
  const learned = readLearned(text);
  if ('problem' in learned) return unlearned(learned.problem);
  return learnedCase(value, learned, lastPart(path));
}

/** The case with its shop's priors in place of the program's, or why that cannot be. */
function withBook(
  value: Case,
  path: string,
  builder: string | undefined,
  load: Load,
): Case | { problem: Problem } {
  const outside = pathProblem(path, "a file of a shop's priors", 'shop-priors.yaml');
  if (outside) return { problem: outside };
  const text = load(path);
  if (text === undefined) {
    const hint = 'tubgap book learn writes it; put it beside the case';
    return { problem: { code: 'file', reason: "there is no such file in the case file's folder", hint } };
  }
  const priors = readShopPriors(text);
  if ('problem' in priors) {
    const hint =
      'Change nothing in it by hand: put entries into the book and run tubgap book learn again, or leave out book to go by the program’s own priors';
    return { problem: { code: 'file', reason: priors.problem, hint } };
  }
  return bookCase(value, priors, lastPart(path), builder);
}

const BOTH: Problem = {
  code: 'contradiction',
  reason: 'a case starts from its shop’s book or from what was learned of its own car, not from both',
  hint: 'A car of the book has a learned file of its own, which holds what the book says too: name that one under learned and leave out book',
};

/**
 * A case with what its own car or its shop's other cars taught in place of its priors, where it names such a file; or which
 * field is at fault, and why.
 */
export function withTaught(
  value: Case,
  {
    learned,
    book,
    builder,
  }: {
    learned?: string | Record<string, unknown> | undefined;
    book?: string | undefined;
    builder?: string | undefined;
  },
  load: Load,
): Case | { field: 'learned' | 'book'; problem: Problem } {
  if (learned !== undefined && book !== undefined) return { field: 'book', problem: BOTH };
  if (learned === undefined && book === undefined) return value;
  const field = learned === undefined ? 'book' : 'learned';
  const taught =
    learned === undefined ? withBook(value, book!, builder, load) : withLearned(value, learned, load);
  return 'problem' in taught ? { field, ...taught } : taught;
}
