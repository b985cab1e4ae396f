import { useMemo, useState } from 'preact/hooks';
import { type Mark, type Measures, NO_MEASURES } from '../carried/measures.ts';
import { caseIn } from './bench-case.ts';
import { download } from './download.ts';
import { GapTable } from './gap-table.tsx';
import { LearnPart } from './learn-part.tsx';
import { MarkRows } from './mark-rows.tsx';
import { carOf, changedSince, measuredState, placeText, sameValues } from './measured-car.ts';
import { MeasuredPlace } from './measured-place.tsx';
import { isEmpty, measuredTables } from './measured-tables.ts';
import { type Standing, standingAt } from './shown.ts';
import type { Bench } from './use-bench.ts';
import { pressureText } from './words.ts';

const FIRST_MARK = { angle: '35', touched: false, runs: '1', thickness: '' };

interface Props {
  bench: Bench;
  standing: Standing;
  /** At which the gaps shown are seen, Pa. */
  pressure: number;
}

/** The gaps to see, room to type in what is measured, and marks found after runs: saved as tables, or learned from. */
export function MeasuresPart({ bench, standing, pressure }: Props) {
  const { history, now, carried } = bench;
  const state = history.now;
  const { units, measures } = state;
  const { source, tyre } = now;
  const [told, setTold] = useState('');
  const car = measures.car ?? carOf(state);
  const then = measuredState(state, car);
  const measured = useMemo(
    () => (measures.car === undefined ? now : caseIn(carried, then)),
    [carried, measures.car ?? now],
  );
  const changed = measured.ok ? changedSince(now, state, measured, then) : ['other values of the car'];
  const locked = changed.length > 0;
  const expected = useMemo(() => {
    if (!standing.builds) return undefined;
    if (!locked || !measured.ok) return standing.gaps;
    const { setup, tub } = measured;
    return standingAt({ setup, tub, tyre: setup.buildIndex, topHeight: car.topHeight }).gaps;
  }, [measured, locked, standing, car.topHeight]);

  const set = (what: string, changes: Partial<Measures>): void => {
    const next = { ...measures, ...changes };
    bench.set(what, { ...state, measures: isEmpty(next) ? NO_MEASURES : { ...next, car } });
  };
  const setMark = (index: number, changes: Partial<Mark>): void =>
    set(`mark ${index}`, {
      marks: measures.marks.map((mark, i) => (i === index ? { ...mark, ...changes } : mark)),
    });
  const built = measured.ok ? measured.source.tubs[measured.tub]! : source.tubs[now.tub]!;
  const tables = measuredTables(measures, units, {
    tub: built.name,
    topHeight: car.topHeight,
    centre: built.centreForward,
  });
  const save = (): void => {
    for (const [file, text] of Object.entries(tables)) download(file, text);
    const other =
      sameValues(state.values, car.values) && !changed.includes('another notch')
        ? ''
        : ' CASE must be the car as it was measured: show it and save that case too.';
    setTold(
      `Saved ${Object.keys(tables).join(', ')}. Put them into one folder and run: tubgap learn CASE --measured FOLDER.${other}`,
    );
  };
  const name = source.tyres[tyre]!.name;
  const others = standing.builds ? '' : '. Measures are typed in with the build tyre, at the build pressure';
  return (
    <>
      {!isEmpty(measures) && measured.ok && (
        <MeasuredPlace
          place={placeText(measured, then)}
          changed={changed}
          onShow={() => {
            const { learned } = state.values;
            const values = learned === undefined ? then.values : { ...then.values, learned };
            const problems = bench.set('', { ...then, values });
            if (problems.length > 0) bench.set('', then);
          }}
          onRebind={() => bench.set('', { ...state, measures: { ...measures, car: carOf(state) } })}
          onForget={() => bench.set('', { ...state, measures: NO_MEASURES })}
        />
      )}
      <GapTable
        caption={`From ${name} at ${pressureText(pressure, units)} straight to the tub, loaded as the case says, everything at its middle value${others}`}
        units={units}
        toSee={standing.gaps}
        expected={expected}
        gaps={measures.gaps}
        locked={locked}
        onType={(key, text) => set(key, { gaps: { ...measures.gaps, [key]: text } })}
      />
      <h3 class="marks-title">Marks on the tub, or on a witness stuck to it</h3>
      <MarkRows
        marks={measures.marks}
        tyres={source.tyres.map((one) => one.name)}
        units={units}
        locked={locked}
        onChange={setMark}
        onRemove={(index) => set('', { marks: measures.marks.filter((_, k) => k !== index) })}
      />
      <div class="row">
        <button
          type="button"
          disabled={locked}
          onClick={() => set('', { marks: [...measures.marks, { tyre: name, ...FIRST_MARK }] })}
        >
          Add a mark
        </button>
        <button type="button" disabled={isEmpty(measures)} onClick={save}>
          Save what was measured
        </button>
      </div>
      <LearnPart bench={bench} measured={measured} tables={tables} />
      {told !== '' && <p role="status">{told}</p>}
    </>
  );
}
