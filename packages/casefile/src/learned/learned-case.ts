import { isSpread, type Law, type PlainLaw } from '@tubgap/statistics';
import { formatQuantity } from '@tubgap/units';
import type { Case, CaseTyre, Follows, UncertainInput } from '../case.ts';
import { withInputs } from '../case-inputs.ts';
import type { Problem } from '../issue.ts';
import { exactLawWords } from './law-words.ts';
import type { LearnedFile, LearnedInput } from './learned-file.ts';

const refusal = (reason: string): { problem: Problem } => ({
  problem: {
    code: 'contradiction',
    reason,
    hint: 'Put back what the case said, or leave out learned to try other values, or learn again (tubgap learn CASE --measured FOLDER)',
  },
});

/** A tyre's exact facts as a learned file keeps them: with others it would mean something else. */
export function learnedTyre(tyre: CaseTyre): LearnedFile['tyres'][number] {
  return {
    name: tyre.tyre,
    construction: tyre.construction,
    condition: tyre.condition,
    referencePressure: formatQuantity(tyre.referencePressure, 'pressure'),
    deflection: formatQuantity(tyre.deflection, 'length'),
    deflectionLoad: formatQuantity(tyre.deflectionLoad, 'force'),
  };
}

/** The inputs of a case that one learned input speaks of: the tyre's, or the car's with those of the tyres' classes. */
export function inputsOf(
  source: Case,
  { tyre, input }: Pick<LearnedInput, 'tyre' | 'input'>,
): { class?: string; input: UncertainInput }[] {
  if (tyre !== undefined) {
    const own = source.tyres.find((one) => one.tyre === tyre);
    const found = (own?.inputs as Record<string, UncertainInput> | undefined)?.[input];
    return found === undefined ? [] : [{ input: found }];
  }
  const car = (source.car as Record<string, UncertainInput>)[input];
  if (car === undefined) return [];
  const classes = source.tyres.flatMap(({ name, car: own }) => {
    const found = (own as Record<string, UncertainInput> | undefined)?.[input];
    return found === undefined ? [] : [{ class: name, input: found }];
  });
  return [{ input: car }, ...classes].filter(({ input: one }) => isSpread(one.law));
}

/** The law that an input had before anything was learned. */
export const plainLaw = (law: Law): PlainLaw => (law.kind === 'updated' ? law.from : law);

const placeWords = ({ tyre, label }: Pick<LearnedInput, 'tyre' | 'label'>): string =>
  tyre === undefined ? label : `${label} of ${tyre}`;

function tyreProblem(source: Case, learned: LearnedFile): string | undefined {
  for (const tyre of learned.tyres) {
    const own = source.tyres.find((one) => one.tyre === tyre.name);
    if (own === undefined) return `it was learned of the tyre ${tyre.name}, which this case does not run`;
    const now = learnedTyre(own);
    for (const [field, then] of Object.entries(tyre)) {
      const here = now[field as keyof typeof now];
      if (here !== then) return `it was learned of ${tyre.name} with ${field} ${then}; the case has ${here}`;
    }
  }
  return undefined;
}

function inputProblem(source: Case, learned: LearnedInput): string | undefined {
  const found = inputsOf(source, learned);
  const words = placeWords(learned);
  if (found.length === 0) return `it speaks of the ${words}, which this case takes as exact or has not`;
  if (found.some(({ input }) => input.each !== 'car')) {
    return `it speaks of the ${words} as fixed for the car; in the case it is new every run`;
  }
  const ofClass = (of: string | undefined): string => (of === undefined ? words : `${words} for ${of}`);
  for (const { class: of, law } of learned.startedFrom) {
    const input = found.find((one) => one.class === of)?.input;
    if (input === undefined)
      return `it speaks of the ${ofClass(of)}, which this case takes as exact or has not`;
    if (exactLawWords(input.law) === law) continue;
    const start = of === undefined ? ` starting from ${learned.before}` : '';
    return `the ${ofClass(of)} was learned${start}, and the case now starts from another (${input.shown})`;
  }
  const more = found.find((one) => !learned.startedFrom.some(({ class: of }) => of === one.class));
  return more && `the ${ofClass(more.class)} was exact or not there when the others were learned`;
}

/**
 * A case with what was learned in place of the priors, or why the file is not for this case: it must have started from
 * the same laws and the same tyres.
 * @param file  name of the learned file, or of the case that holds it, as bases call it
 */
export function learnedCase(source: Case, learned: LearnedFile, file: string): Case | { problem: Problem } {
  const wrong =
    tyreProblem(source, learned) ??
    learned.inputs.map((input) => inputProblem(source, input)).find((found) => found !== undefined);
  if (wrong !== undefined) return refusal(wrong);
  const streams = learned.inputs.map(({ tyre, input }) => (tyre === undefined ? { input } : { tyre, input }));
  const files = learned.evidence.map((one) => one.file);
  const from = files.length < 3 ? files.join(' and ') : `${files.length} files of measurements`;
  const updated = (input: UncertainInput, index: number): UncertainInput => {
    const { middle, spreadBelow, spreadAbove, together, after } = learned.inputs[index]!;
    const follows: Follows[] = together.flatMap((share, k) =>
      share === 0 ? [] : [{ ...streams[k]!, share }],
    );
    return {
      ...input,
      law: { kind: 'updated', from: plainLaw(input.law), middle, below: spreadBelow, above: spreadAbove },
      source: 'case',
      basis: `${file}, learned from ${from}`,
      shown: `learned: ${after}, one value per car`,
      ...(follows.length > 1 ? { follows } : {}),
    };
  };
  const indexOf = (tyre: string | undefined, input: string): number =>
    learned.inputs.findIndex((one) => one.tyre === tyre && one.input === input);
  const changed = withInputs(source, (input, name, tyre) => {
    const index = indexOf(tyre, name);
    return index < 0 || !isSpread(input.law) ? input : updated(input, index);
  });
  return { ...changed, learned: { file, from: files } };
}

/** A case as it was before anything was learned, of its own car or of its shop's others. */
export function withoutLearned(source: Case): Case {
  if (source.learned === undefined && source.book === undefined) return source;
  const { learned: _, book: __, ...rest } = source;
  return withInputs(rest, ({ follows: ___, ...input }) => ({ ...input, law: plainLaw(input.law) }));
}
