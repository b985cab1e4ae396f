import type { Learnt, Taught } from '../worker/learning.ts';
import { lessonLines, type TypedTables } from './lesson-lines.ts';
import { movedText } from './range-words.ts';
import { lengthText, type Units } from './words.ts';

/** Inputs named behind a change of height. */
const MOST_NAMED = 3;

function Stops({ lines }: { lines: readonly string[] }) {
  return (
    <>
      {lines.map((line) => (
        <p key={line}>
          <strong>{line}</strong>
        </p>
      ))}
    </>
  );
}

/** Why nothing was learned. @param stops  what stops the car, above all else */
export function Refused({ refused, stops = [] }: { refused: readonly string[]; stops?: readonly string[] }) {
  const [first, ...rest] = refused;
  return (
    <div class="lesson refused" role="status">
      <Stops lines={stops} />
      <p>
        <strong>Nothing was learned.</strong> {first}
      </p>
      {rest.map((line) => (
        <p key={line}>{line}</p>
      ))}
    </div>
  );
}

const heightText = (height: number | undefined, units: Units): string =>
  height === undefined ? 'none' : lengthText(height, 'up', units);

/** The tub to take and its lowest height, before and after. */
function decision({ heights, chosen }: Taught, units: Units): string {
  const of = (name: string | undefined, when: 'before' | 'after'): string => {
    const found = heights.find(({ tub }) => tub === name);
    return found === undefined ? 'none within your limits' : `${name} at ${heightText(found[when], units)}`;
  };
  const [before, after] = [of(chosen.before, 'before'), of(chosen.after, 'after')];
  return before === after ? `stays ${after}` : `before ${before}, after ${after}`;
}

function Reasons({ moved, units }: { moved: Taught['moved']; units: Units }) {
  if (moved.length === 0) return <p>Nothing that was assumed moved far enough to matter.</p>;
  return (
    <>
      <p>Why:</p>
      <ul>
        {moved.slice(0, MOST_NAMED).map((one) => (
          <li key={`${one.tyre} ${one.label}`}>{movedText(one, units)}</li>
        ))}
      </ul>
      {moved.length > MOST_NAMED && <p>and {moved.length - MOST_NAMED} more.</p>}
    </>
  );
}

/** What came of learning: the heights before and after, and why; or why nothing was learned. */
export function LessonWords({
  learnt,
  tables,
  units,
}: {
  learnt: Learnt;
  tables: TypedTables;
  units: Units;
}) {
  const { stops, remarks, refused } = lessonLines(learnt, tables);
  const { result } = learnt;
  if ('refusal' in result) return <Refused refused={[...remarks, ...refused]} stops={stops} />;
  const { heights, moved } = result.taught;
  return (
    <div class="lesson" role="status">
      <Stops lines={stops} />
      <p>
        Smallest tub within your limits: <strong>{decision(result.taught, units)}</strong>
      </p>
      <table>
        <caption>Lowest top height within your limits, all tyres</caption>
        <thead>
          <tr>
            <th scope="col">tub</th>
            <th scope="col">before</th>
            <th scope="col">after</th>
          </tr>
        </thead>
        <tbody>
          {heights.map(({ tub, before, after }) => (
            <tr key={tub}>
              <th scope="row">{tub}</th>
              <td>{heightText(before, units)}</td>
              <td>{heightText(after, units)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <Reasons moved={moved} units={units} />
      {remarks.length > 0 && <p>Also, read with care: {remarks.join(' ')}</p>}
      <p>
        A height from few measures is only as sure as they are. The sanctioning body’s rules, the tyre maker’s
        limits and a qualified chassis builder come first.
      </p>
    </div>
  );
}
