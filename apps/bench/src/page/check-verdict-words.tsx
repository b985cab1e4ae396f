import { type CheckVerdict, checkSummary } from '@tubgap/evidence';
import type { Limits } from './check-rows.ts';

interface Props {
  verdict: CheckVerdict;
  from: Limits['from'];
  /** Whether the page has a lowest height to judge by. */
  known: boolean;
  tyre: string;
}

/** The filled check sheet as a whole, PASS or FAIL in words; a fail stops. */
export function CheckVerdictWords({ verdict, from, known, tyre }: Props) {
  const source =
    from === 'sheet'
      ? 'Limits of the check sheet that this page lies beside.'
      : known
        ? `Limits from the lowest height within your limits with ${tyre}, counted on this page. The check sheet of a pick has limits for the centre and for hard points too: make the page from its results folder.`
        : 'No limit is known yet: nothing is judged before the runs are counted, nor where no height keeps your limits.';
  if (verdict.whole === 'fail') {
    return (
      <div class="fault" role="alert">
        <p>
          <strong>STOP: the car does not run.</strong> {checkSummary(verdict)}.
        </p>
        <p>
          Tyre contact at speed can kill. Mend what fails and measure again; the sanctioning body’s rules, the
          tyre maker’s limits and a qualified chassis builder come first.
        </p>
        <p class="note">{source}</p>
      </div>
    );
  }
  return (
    <div class="sheet" role="status">
      <p>{checkSummary(verdict)}.</p>
      <p class="note">{source}</p>
    </div>
  );
}
