import {
  type Answered,
  changeText,
  costlyOf,
  costName,
  type InterviewedCase,
  KIND_WORDS,
} from '@tubgap/interview';
import { unbroken } from '@tubgap/wording';
import type { Units } from '../page/words.ts';
import type { KnownCall } from './use-call.ts';

interface Props {
  known: KnownCall;
  interviewed: InterviewedCase;
  answers: Answered;
  units: Units;
}

/** Everything that is assumed, with what each costs. */
export function AssumedPart({ known, interviewed, answers, units }: Props) {
  const { costs, costed, found, outdated } = known;
  const { kind, assumed } = interviewed;
  const costly = costlyOf(costs);
  return (
    <section class="assumed" aria-labelledby="assumed-title" aria-busy={outdated === true}>
      <h2 id="assumed-title">Assumed</h2>
      <p>
        Taken for a {KIND_WORDS[kind.value]}
        {kind.told ? '' : ', by its tyre and speed: say so if it is another'}.
      </p>
      {found?.settled && (
        <table>
          <caption>
            What not knowing costs: how the least height would change if it were known to lie in its middle,
            and low or high in what is usual; of the sort of car as taken, and at the least and the most of
            another
          </caption>
          <thead>
            <tr>
              <th scope="col">Not known</th>
              <th scope="col">Middle</th>
              <th scope="col">Low</th>
              <th scope="col">High</th>
            </tr>
          </thead>
          <tbody>
            {costly.map((cost) => (
              <tr key={cost.name}>
                <th scope="row">{costName(cost, answers)}</th>
                {[cost.middle, cost.low, cost.high].map((change, k) => (
                  <td key={k}>{unbroken(changeText(change, units))}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {found?.settled && (
        <p class="note" role="status">
          {costed !== 'all'
            ? `Working out what each costs: ${costs.length} done…`
            : costs.length > 0
              ? `${costs.length - costly.length} more move the height by less than ${units === 'mm' ? '1 mm' : '1/32 in'}.`
              : 'What each costs is not told: this tub is so near to its limit that so few runs do not tell its height.'}
        </p>
      )}
      <details>
        <summary>All {assumed.length} that are assumed, and why</summary>
        <ul class="all-assumed">
          {assumed.map(({ path, value, reason, mark }) => (
            <li key={path}>
              <b>{path}</b>: {typeof value === 'object' ? Object.values(value).join(', ') : String(value)} (
              {reason}; {mark})
            </li>
          ))}
        </ul>
      </details>
    </section>
  );
}
