import { labelAt } from '@tubgap/casefile';
import {
  type Answered,
  type InterviewedCase,
  KIND_WORDS,
  type PutQuestion,
  putQuestions,
} from '@tubgap/interview';
import type { AssumedCost } from '@tubgap/simulation';
import { SIXTEENTH, tapeText } from '@tubgap/units';
import { inputWords, unbroken } from '@tubgap/wording';
import { questionLabel } from './question-label.ts';
import type { KnownCall } from './use-call.ts';

/** A change of the height in sixteenths, with its sign: '+3/16 in'; the height falls where it is known to be less. */
function changeText(metres: number | null): string {
  if (metres === null) return 'no height';
  const count = Math.round(metres / SIXTEENTH);
  if (count === 0) return '0';
  return `${count > 0 ? '+' : '−'}${tapeText(Math.abs(count))} in`;
}

/** Less than this an answer moves no tape, m. */
const NOTHING = SIXTEENTH / 2;

/** The question whose answer would move the height most; undefined while nothing is known, or where none would. */
export function nextQuestion(
  { costs, costed, outdated }: KnownCall,
  answers: Answered,
): { put: PutQuestion; cost: AssumedCost } | undefined {
  if (outdated || costed === 'some') return undefined;
  const put = putQuestions(answers);
  const asked = costs.flatMap((cost) => {
    const its = put.find(({ id }) => id === cost.name);
    return its && cost.moves >= NOTHING ? [{ put: its, cost }] : [];
  });
  return asked.sort((a, b) => b.cost.moves - a.cost.moves)[0];
}

/** What the answer to a question would do to the height, in words. */
export const moveWords = ({ low, high }: AssumedCost): string =>
  unbroken(`could move the height by ${[low, high].map(changeText).sort().reverse().join(' to ')}`);

/** What is assumed and moves the height, in words, the dearest first. */
export const costlyNames = (costs: readonly AssumedCost[], answers: Answered): string[] =>
  costs
    .filter(({ moves }) => moves >= NOTHING)
    .sort((a, b) => b.moves - a.moves)
    .map(({ name }) => nameOf(name, answers));

interface Props {
  known: KnownCall;
  interviewed: InterviewedCase;
  answers: Answered;
}

/** What an item of the list of costs is called. */
function nameOf(name: string, answers: Answered): string {
  const put = putQuestions(answers).find(({ id }) => id === name);
  if (put) return questionLabel(put) ?? put.question.words;
  const parts = name
    .split(/[.[\]]+/)
    .flatMap((part) => (part === '' ? [] : [/^\d+$/.test(part) ? Number(part) : part]));
  return inputWords(labelAt(parts) ?? name);
}

/** Everything that is assumed, with what each costs. */
export function AssumedPart({ known, interviewed, answers }: Props) {
  const { costs, costed, found, outdated } = known;
  const { kind, assumed } = interviewed;
  const costly = costs.filter(({ moves }) => moves >= NOTHING).sort((a, b) => b.moves - a.moves);
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
            and low or high in what is usual
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
            {costly.map(({ name, middle, low, high }) => (
              <tr key={name}>
                <th scope="row">{nameOf(name, answers)}</th>
                {[middle, low, high].map((change, k) => (
                  <td key={k}>{unbroken(changeText(change))}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {found?.settled && (
        <p class="note" role="status">
          {costed === 'all'
            ? `${costs.length - costly.length} more move the height by less than 1/32 in.`
            : `Working out what each costs: ${costs.length} done…`}
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
