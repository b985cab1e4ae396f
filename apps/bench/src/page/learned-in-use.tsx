import { bookInUseWords, type Case } from '@tubgap/casefile';

interface Props {
  source: Case;
  /** Whether it was learned on this page. */
  typed: boolean;
}

/** Says on the first screen that figures which were learned, of this car or of others, stand in place of assumed ones. */
export function LearnedInUse({ source, typed }: Props) {
  if (source.book !== undefined) {
    return (
      <p class="learned-in-use">
        <b>From the shop’s book:</b> {bookInUseWords(source.book)}.
      </p>
    );
  }
  if (source.learned === undefined) return null;
  return (
    <p class="learned-in-use">
      <b>Learned figures in use:</b> every figure here counts with what was learned from{' '}
      {typed ? 'what was measured at this car' : source.learned.file}.
    </p>
  );
}
