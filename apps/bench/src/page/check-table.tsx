import type { CheckedPlace, CheckedValue } from '@tubgap/evidence';
import { alongText, angleHeading } from '@tubgap/units';
import { unbroken } from '@tubgap/wording';
import type { CheckRow } from './check-rows.ts';
import { SIDES } from './measured-tables.ts';
import { lengthText, type Units } from './words.ts';

/** Nearer to what is to be seen than a tape can tell, m. */
const AS_EXPECTED = 0.0008;

/** How far a reading is from what is to be seen, in words. */
export function difference(value: number, expected: number | undefined, units: Units): string {
  if (expected === undefined) return '';
  const more = value - expected;
  if (Math.abs(more) < AS_EXPECTED) return 'as expected';
  return `${lengthText(Math.abs(more), more < 0 ? 'up' : 'down', units)} ${more < 0 ? 'LESS' : 'more'}`;
}

export const placeHeading = (place: CheckedPlace): string => {
  switch (place.kind) {
    case 'gap':
      return angleHeading(place.angle);
    case 'top height':
      return 'top above the track';
    case 'centre forward':
      return 'centre ahead of the axle';
    case 'hard point':
      return `to ${place.name}`;
  }
};

export const fieldName = (place: CheckedPlace, side: string): string =>
  place.kind === 'gap' || place.kind === 'hard point'
    ? `Measured gap ${side}, ${placeHeading(place)}`
    : `Measured ${placeHeading(place)}, ${side}`;

export function seeText(place: CheckedPlace, see: number | undefined, units: Units): string {
  if (see === undefined) return '';
  if (place.kind === 'gap') return lengthText(see, 'up', units);
  return place.kind === 'centre forward' ? unbroken(alongText(see, units)) : lengthText(see, 'down', units);
}

/** What passes, rounded to the careful side. */
export function passText({ place, least, most }: CheckRow, units: Units): string {
  if (place.kind === 'centre forward') {
    return least === undefined || most === undefined
      ? ''
      : `passes from ${lengthText(least, 'up', units)} to ${lengthText(most, 'down', units)}`;
  }
  return least === undefined ? '' : `passes at ${lengthText(least, 'up', units)}`;
}

/** Whether one value passes, in words; undefined where nothing was measured. */
export function judgedWords(
  row: CheckRow,
  judged: CheckedValue | undefined,
  units: Units,
): string | undefined {
  if (row.measured === undefined) return undefined;
  switch (judged?.judgement) {
    case 'fail':
      return `FAIL by ${lengthText(judged.outside, 'up', units)}`;
    case 'pass':
      return 'PASS';
    default:
      return 'not judged: no limit known';
  }
}

/** What is said of one value: that it cannot be, or whether it passes, and how far it is from what is to be seen. */
function ReadingRow({
  row,
  judged,
  expected,
  units,
}: {
  row: CheckRow;
  judged: CheckedValue | undefined;
  expected: number | undefined;
  units: Units;
}) {
  if (row.problem !== undefined) return <b class="differs fails">{row.problem}</b>;
  if (row.measured === undefined) return <span class="differs" />;
  const off = difference(row.measured, expected, units);
  return (
    <span class="differs">
      <b class={judged?.judgement === 'fail' ? 'fails' : ''}>{judgedWords(row, judged, units)}</b>
      {off === '' ? '' : `, ${off}`}
    </span>
  );
}

/** What is told of the check sheet and typed into it, whichever way it is laid out. */
export interface CheckProps {
  units: Units;
  /** Of the check sheet, left and right of each place one after the other. */
  rows: readonly CheckRow[];
  judged: ReadonlyMap<CheckRow, CheckedValue>;
  /** In the place shown, m; undefined where that is not known. */
  toSee: (place: CheckedPlace) => number | undefined;
  /** The same where the car was measured. */
  expected: (place: CheckedPlace) => number | undefined;
  /** Whether nothing can be typed in now. */
  locked: boolean;
  onType: (row: CheckRow, text: string) => void;
}

interface Props extends CheckProps {
  caption: string;
  /** Whether the tyre shown is the one that the sheet is filled in with. */
  typed: boolean;
}

/** The check sheet: what is to be seen, what passes, and room to type in what is measured. */
export function CheckTable({ caption, units, rows, judged, toSee, expected, typed, locked, onType }: Props) {
  const places = rows
    .filter((_, i) => i % SIDES.length === 0)
    .map((row, i) => ({ row, first: SIDES.length * i }));
  return (
    <table class="gaps">
      <caption>{caption}</caption>
      <thead>
        <tr>
          <th scope="col">from the hub</th>
          <th scope="col">to see</th>
          {typed &&
            SIDES.map((side) => (
              <th key={side} scope="col">
                measured {side}
              </th>
            ))}
        </tr>
      </thead>
      <tbody>
        {places.map(({ row, first }) => (
          <tr key={row.key}>
            <th scope="row">{placeHeading(row.place)}</th>
            <td>
              {seeText(row.place, toSee(row.place), units)}
              {typed && <span class="differs">{passText(row, units)}</span>}
            </td>
            {typed &&
              rows.slice(first, first + SIDES.length).map((one) => (
                <td key={one.key}>
                  <input
                    type="text"
                    inputMode="text"
                    autocomplete="off"
                    aria-label={fieldName(one.place, one.side)}
                    aria-invalid={one.problem !== undefined}
                    value={one.text}
                    readOnly={locked}
                    onInput={({ currentTarget }) => onType(one, currentTarget.value)}
                  />
                  <ReadingRow
                    row={one}
                    judged={judged.get(one)}
                    expected={expected(one.place)}
                    units={units}
                  />
                </td>
              ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
