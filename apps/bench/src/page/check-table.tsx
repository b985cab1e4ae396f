import { GAP_ANGLES } from '@tubgap/simulation';
import { SIDES, typedLength } from './measured-tables.ts';
import { angleHeading, fineText, gapToSeeText, type Units } from './words.ts';

/** Nearer to what is to be seen than a tape can tell, m. */
const AS_EXPECTED = 0.0008;

/** How far a reading is from what is to be seen, in words. */
function difference(text: string, expected: number, units: Units): string {
  if (text.trim() === '') return '';
  const gap = typedLength(text, units);
  if (gap === undefined) return 'not a length';
  const more = gap - expected;
  if (Math.abs(more) < AS_EXPECTED) return 'as expected';
  return `${fineText(Math.abs(more), units)} ${more < 0 ? 'LESS' : 'more'}`;
}

interface Props {
  caption: string;
  units: Units;
  /** Gaps to see in the place shown, m, by GAP_ANGLES. */
  toSee: readonly number[];
  /** The same where the car was measured; undefined: the tyre shown is not the one that gaps are measured with. */
  expected: readonly number[] | undefined;
  /** As typed, by side and angle. */
  gaps: Readonly<Record<string, string>>;
  /** Whether nothing can be typed in now. */
  locked: boolean;
  onType: (key: string, text: string) => void;
}

/** The gaps to see, and room to type in what is measured. */
export function GapTable({ caption, units, toSee, expected, gaps, locked, onType }: Props) {
  return (
    <table class="gaps">
      <caption>{caption}</caption>
      <thead>
        <tr>
          <th scope="col">from the hub</th>
          <th scope="col">to see</th>
          {expected &&
            SIDES.map((side) => (
              <th key={side} scope="col">
                measured {side}
              </th>
            ))}
        </tr>
      </thead>
      <tbody>
        {GAP_ANGLES.map((degrees, i) => (
          <tr key={degrees}>
            <th scope="row">{angleHeading(degrees)}</th>
            <td>{gapToSeeText(toSee[i]!, units)}</td>
            {expected &&
              SIDES.map((side) => {
                const key = `${side} ${degrees}`;
                const text = gaps[key] ?? '';
                return (
                  <td key={side}>
                    <input
                      type="text"
                      inputMode="text"
                      autocomplete="off"
                      aria-label={`Measured gap ${side}, ${angleHeading(degrees)}`}
                      value={text}
                      readOnly={locked}
                      onInput={({ currentTarget }) => onType(key, currentTarget.value)}
                    />
                    <span class="differs">{difference(text, expected[i]!, units)}</span>
                  </td>
                );
              })}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
