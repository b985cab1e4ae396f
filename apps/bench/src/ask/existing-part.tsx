import { unbroken, type VerdictReport, type VerdictSubject, verdictLines } from '@tubgap/wording';

/** How the tub that is in the car already stands, and what would bring it to where it must be. */
export function ExistingPart({ judged, subject }: { judged: VerdictReport; subject: VerdictSubject }) {
  return (
    <section class="answer call" aria-labelledby="existing-answer">
      <h2 id="existing-answer" class="quiet">
        The tub in the car
      </h2>
      <dl>
        {verdictLines(judged, subject).map(({ label, text }) => (
          <div class="line" key={`${label} ${text}`}>
            <dt>{label}</dt>
            <dd>{unbroken(text)}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}
