import type { CheckedValue } from '@tubgap/evidence';
import { useState } from 'preact/hooks';
import type { CheckRow } from './check-rows.ts';
import { type CheckProps, difference, judgedWords, passText, placeHeading, seeText } from './check-table.tsx';
import { fractionText, type Key, pressed } from './keypad.ts';
import { SIDES } from './measured-tables.ts';

interface Props extends CheckProps {
  /** The build tyre, with which the sheet is filled in. */
  tyre: string | undefined;
}

const DIGITS = [1, 2, 3, 4, 5, 6, 7, 8, 9, 0];
const SIXTEENTHS = Array.from({ length: 16 }, (_, count) => count);

/** How a place stands, for the row of places: a letter that is read without its colour. */
function stateOf(row: CheckRow, judged: CheckedValue | undefined): { sign: string; words: string } {
  if (row.problem !== undefined) return { sign: '?', words: 'cannot be' };
  if (row.measured === undefined) return { sign: '', words: 'not measured' };
  if (judged?.judgement === 'fail') return { sign: '✗', words: 'FAIL' };
  return judged?.judgement === 'pass' ? { sign: '✓', words: 'PASS' } : { sign: '•', words: 'not judged' };
}

const shortPlace = ({ place, side }: CheckRow): string =>
  `${place.kind === 'top height' ? 'top' : place.kind === 'centre forward' ? 'centre' : placeHeading(place)}, ${side}`;

/** The check sheet for a thumb: one place at a time, a keypad, and whether it passes, at once. */
export function MeasurePad({ units, rows, judged, toSee, expected, locked, tyre, onType }: Props) {
  const [at, setAt] = useState(0);
  const row = rows[Math.min(at, rows.length - 1)];
  if (row === undefined) {
    return <p class="pad">Show {tyre ?? 'the build tyre'}: measures are typed in with the build tyre.</p>;
  }
  const { place, side, text, problem } = row;
  const own = judged.get(row);
  const verdict = problem ?? judgedWords(row, own, units);
  const off = row.measured === undefined ? '' : difference(row.measured, expected(place), units);
  const see = seeText(place, toSee(place), units);
  const limit = passText(row, units);
  const key = (words: string, what: Key, label = words) => (
    <button
      key={label}
      type="button"
      disabled={locked}
      aria-label={label}
      onClick={() => onType(row, pressed(text, what, units))}
    >
      {words}
    </button>
  );
  const go = (by: number): void => setAt((at + by + rows.length) % rows.length);
  return (
    <section class="pad" aria-label="One place at a time">
      <label class="place">
        {Math.min(at, rows.length - 1) + 1} of {rows.length}
        <select value={row.key} onChange={({ currentTarget }) => setAt(currentTarget.selectedIndex)}>
          {rows.map((one) => {
            const { sign, words } = stateOf(one, judged.get(one));
            return (
              <option key={one.key} value={one.key}>
                {`${shortPlace(one)}: ${sign} ${words}`}
              </option>
            );
          })}
        </select>
      </label>
      <p class="asked">
        {see !== '' && (
          <>
            to see <b>{see}</b>
          </>
        )}
        {limit !== '' && `${see === '' ? '' : ', '}${limit}`}
      </p>
      <output class={`reading ${own?.judgement ?? ''}`} aria-label={`Reading, ${shortPlace(row)}`}>
        <span class="figure">
          {text === '' ? '–' : `${text}${/[a-z"″]/i.test(text) ? '' : ` ${units === 'inch' ? 'in' : 'mm'}`}`}
        </span>
        <span class="word">
          {verdict ?? `${side}: not measured`}
          {off === '' ? '' : <small>{off}</small>}
        </span>
      </output>
      <div class="keys digits">
        {DIGITS.map((digit) => key(String(digit), { kind: 'digit', digit }))}
        {units === 'mm' && key('.', { kind: 'point' }, 'point')}
        {place.kind === 'centre forward' && key('±', { kind: 'sign' }, 'behind the axle')}
      </div>
      {units === 'inch' && (
        <div class="keys sixteenths">
          {SIXTEENTHS.map((count) =>
            key(
              fractionText(count) || '0',
              { kind: 'sixteenths', count },
              count === 0 ? 'no sixteenths' : fractionText(count),
            ),
          )}
        </div>
      )}
      <div class="keys turns">
        <button type="button" onClick={() => go(-1)}>
          Back
        </button>
        {key('Clear', { kind: 'clear' })}
        <button type="button" class="strong" onClick={() => go(1)}>
          Next: {SIDES[(at + 1) % SIDES.length]}
        </button>
      </div>
    </section>
  );
}
