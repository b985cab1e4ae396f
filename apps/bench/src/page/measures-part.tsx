import { GAP_ANGLES } from '@tubgap/simulation';
import { useState } from 'preact/hooks';
import { download } from './download.ts';
import { LearnPart } from './learn-part.tsx';
import { type Mark, type Measures, measuredTables, SIDES, typedLength } from './measures.ts';
import type { Standing } from './shown.ts';
import type { Bench } from './use-bench.ts';
import { angleHeading, fineText, gapToSeeText, type Units } from './words.ts';

/** How far a reading is from what is to be seen, in words. */
function difference(text: string, expected: number, units: Units): string {
  if (text.trim() === '') return '';
  const gap = typedLength(text, units);
  if (gap === undefined) return 'not a length';
  const more = gap - expected;
  if (Math.abs(more) < 0.0008) return 'as expected';
  return `${fineText(Math.abs(more), units)} ${more < 0 ? 'LESS' : 'more'}`;
}

const FIRST_MARK: Mark = { angle: '35', touched: false, runs: '1', thickness: '' };

/** The gaps to see, room to type in what is measured, and marks found after runs: saved as tables to learn from. */
export function MeasuresPart({
  bench,
  standing,
  pressure,
}: {
  bench: Bench;
  standing: Standing;
  pressure: number;
}) {
  const { history, now } = bench;
  const state = history.now;
  const { units, measures } = state;
  const { source, tub, tyre } = now;
  const [told, setTold] = useState('');
  const name = source.tyres[tyre]!.name;
  const at =
    units === 'inch'
      ? `${(pressure / 6894.757293168361).toFixed(1)} psi`
      : `${(pressure / 1000).toFixed(0)} kPa`;
  const set = (what: string, changes: Partial<Measures>): void => {
    bench.set(what, { ...state, measures: { ...measures, ...changes } });
  };
  const setMark = (index: number, changes: Partial<Mark>): void =>
    set(`mark ${index}`, {
      marks: measures.marks.map((mark, i) => (i === index ? { ...mark, ...changes } : mark)),
    });
  const { name: tubName, centreForward } = source.tubs[tub]!;
  const tables = measuredTables(state, {
    tub: tubName,
    tyre: name,
    centre: centreForward,
    topHeight: state.topHeight,
  });
  const save = (): void => {
    for (const [file, text] of Object.entries(tables)) download(file, text);
    setTold(
      `Saved ${Object.keys(tables).join(', ')}. Put them into one folder and run: tubgap learn CASE --measured FOLDER`,
    );
  };
  return (
    <>
      <table class="gaps">
        <caption>
          From {name} at {at} straight to the tub, loaded as the case says, everything at its middle value
          {standing.builds ? '' : '. Measures are typed in with the build tyre, at the build pressure'}
        </caption>
        <thead>
          <tr>
            <th scope="col">from the hub</th>
            <th scope="col">to see</th>
            {standing.builds &&
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
              <td>{gapToSeeText(standing.gaps[i]!, units)}</td>
              {standing.builds &&
                SIDES.map((side) => {
                  const key = `${side} ${degrees}`;
                  const text = measures.gaps[key] ?? '';
                  return (
                    <td key={side}>
                      <input
                        type="text"
                        inputMode="text"
                        autocomplete="off"
                        aria-label={`Measured gap ${side}, ${angleHeading(degrees)}`}
                        value={text}
                        onInput={({ currentTarget }) =>
                          set(key, { gaps: { ...measures.gaps, [key]: currentTarget.value } })
                        }
                      />
                      <span class="differs">{difference(text, standing.gaps[i]!, units)}</span>
                    </td>
                  );
                })}
            </tr>
          ))}
        </tbody>
      </table>
      <h3 class="marks-title">Marks after runs with {name}</h3>
      {measures.marks.map((mark, i) => (
        <div class="mark row" key={i}>
          <label>
            angle, °
            <input
              type="text"
              value={mark.angle}
              onInput={({ currentTarget }) => setMark(i, { angle: currentTarget.value })}
            />
          </label>
          <label>
            mark
            <select
              value={mark.touched ? 'yes' : 'no'}
              onChange={({ currentTarget }) => setMark(i, { touched: currentTarget.value === 'yes' })}
            >
              <option value="no">not touched</option>
              <option value="yes">touched</option>
            </select>
          </label>
          <label>
            in runs
            <input
              type="text"
              inputMode="numeric"
              value={mark.runs}
              onInput={({ currentTarget }) => setMark(i, { runs: currentTarget.value })}
            />
          </label>
          <label>
            witness, {units === 'inch' ? 'in' : 'mm'} thick
            <input
              type="text"
              value={mark.thickness}
              onInput={({ currentTarget }) => setMark(i, { thickness: currentTarget.value })}
            />
          </label>
          <button type="button" onClick={() => set('', { marks: measures.marks.filter((_, k) => k !== i) })}>
            Remove
          </button>
        </div>
      ))}
      <div class="row">
        <button type="button" onClick={() => set('', { marks: [...measures.marks, FIRST_MARK] })}>
          Add a mark
        </button>
        <button
          type="button"
          disabled={
            measures.marks.length === 0 && Object.values(measures.gaps).every((text) => text.trim() === '')
          }
          onClick={save}
        >
          Save what was measured
        </button>
      </div>
      <LearnPart bench={bench} tables={tables} />
      {told !== '' && <p role="status">{told}</p>}
    </>
  );
}
