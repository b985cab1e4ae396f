import type { Case } from '@tubgap/casefile';
import type { AssumedChoice } from '@tubgap/simulation';
import type { Answers } from '../answers.ts';
import { possibleKinds } from '../kinds-of-car.ts';
import { toCase } from '../to-case.ts';
import { callFiles, readFiles } from './call-files.ts';

/** Name of the answer that says what kind of car it is. */
export const KIND = 'kind';

/** Chance that a car is of another kind than its tyres and speed point to, judgement. */
const ANOTHER = 1 / 3;

/**
 * What a call comes to for each other kind of car that its tyres allow, every prior and default of that kind in its place.
 * All are thought equally likely. Accepted risks and sample stay those of the case.
 * @param tubs  text of the shop's catalogue
 * @param tub  the one in question
 * @param book  text of the shop's priors; undefined: the program's own
 */
export function otherKinds(
  source: Case,
  answers: Answers,
  tubs: string,
  tub: string,
  book?: string,
): AssumedChoice['others'] {
  const taken = toCase(answers).kind.value;
  const kinds = possibleKinds(answers.tyres.map(({ build }) => build)).filter((kind) => kind !== taken);
  return kinds.map((kind) => {
    const filed = readFiles(
      callFiles({ ...toCase({ ...answers, kind }), ...(book === undefined ? {} : { book }) }, tubs, [tub]),
    );
    if ('faults' in filed)
      throw new TypeError(`a ${kind} car: ${filed.faults.map(({ words }) => words).join('; ')}`);
    const { accept, simulation } = source;
    return { source: { ...filed.source, accept, simulation }, chance: ANOTHER / kinds.length };
  });
}
