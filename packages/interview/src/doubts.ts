import { diameterPrior } from '@tubgap/casefile';
import type { Construction } from '@tubgap/core';
import { formatQuantity } from '@tubgap/units';
import type { Answers, TyreAnswers } from './answers.ts';
import { wholeRun } from './slip.ts';
import { CONSTRUCTION_OF } from './tyre-priors.ts';

/** What in the answers does not go together; the case can be read all the same. `tyre`: its position in the answers. */
export type Doubt =
  | { code: 'slip'; tyre: number /** s·mph, of a quarter mile. */; product: number }
  | { code: 'rollout-outside-marking'; tyre: number; rollout: number; least: number; most: number }
  | { code: 'construction'; tyre: number; told: Construction; marking: Construction };

function slipDoubt(answers: Answers, its: TyreAnswers, tyre: number, distance: number): Doubt[] {
  const own = its.speed !== undefined;
  const elapsed = its.elapsed ?? (own || tyre > 0 ? undefined : answers.elapsed);
  if (elapsed === undefined) return [];
  const { product, plausible } = wholeRun(elapsed.value, (its.speed ?? answers.speed).value, distance);
  return plausible ? [] : [{ code: 'slip', tyre, product }];
}

function sizeDoubts({ size, rollout, build }: TyreAnswers, tyre: number): Doubt[] {
  if (size === undefined || size.form === 'rollout') return [];
  const told = CONSTRUCTION_OF[build];
  const found: Doubt[] = [];
  // A hyphen is written before the rim of radials too: only an R says something.
  if (size.construction === 'radial' && told !== 'radial') {
    found.push({ code: 'construction', tyre, told, marking: size.construction });
  }
  const { low, high } = diameterPrior(size, told);
  const [least, most] = [Math.PI * low, Math.PI * high];
  if (rollout && (rollout.value < least || rollout.value > most)) {
    found.push({ code: 'rollout-outside-marking', tyre, rollout: rollout.value, least, most });
  }
  return found;
}

/** Everything that is doubtful. @param distance  of the track, m */
export const doubtsOf = (answers: Answers, distance: number): Doubt[] =>
  answers.tyres.flatMap((its, tyre) => [
    ...slipDoubt(answers, its, tyre, distance),
    ...sizeDoubts(its, tyre),
  ]);

/** A doubt as a sentence. */
export function doubtText(doubt: Doubt): string {
  switch (doubt.code) {
    case 'slip':
      return `Elapsed time and speed do not belong to one full run: together ${Math.round(doubt.product)} s·mph, 1,300 to 1,800 are usual. One of them is mistyped, or the run was lifted.`;
    case 'construction':
      return 'The size has an R in it, as radials have, but a bias slick was told: one of the two is wrong.';
    case 'rollout-outside-marking': {
      const [rollout, least, most] = [doubt.rollout, doubt.least, doubt.most].map((length) =>
        formatQuantity(length, 'length'),
      );
      return `The rollout of ${rollout} is not of such a size, which has ${least} to ${most}: tape it again, or look at the size again. The rollout is taken.`;
    }
  }
}
