import type { DecidedResult, Result } from '@tubgap/results';

type Verdict = Result['picks'][number]['verdict'];

/** A verdict on a tub as a table says it: what is not known is not "no". */
export const verdictWord = (verdict: Verdict): string =>
  verdict === 'fits' ? 'yes' : verdict === 'does not fit' ? 'no' : 'not known';

/** What stands in place of a height that a tub does not have. */
export const noHeightWord = (verdict: Verdict): string => (verdict === 'not known' ? 'not known' : 'none');

/** Names of the tubs of which too few runs were simulated to say whether they fit. */
export const unknownTubs = (result: DecidedResult): string[] =>
  result.picks.filter(({ verdict }) => verdict === 'not known').map(({ tub }) => tub);

/** What is not known of some tubs, as a sentence without its full stop; undefined when all are known. */
export function unknownWords(result: DecidedResult): string | undefined {
  const names = unknownTubs(result);
  if (names.length === 0) return undefined;
  return `too few runs to say whether ${names.length === 1 ? 'this tub keeps' : 'these tubs keep'} the accepted risk: ${names.join(', ')}`;
}
