import { type CheckedPlace, judgeChecks } from '@tubgap/evidence';
import { GAP_ANGLES, middleStaticGaps } from '@tubgap/simulation';
import { wholeDegrees } from '@tubgap/units';
import { useMemo, useState } from 'preact/hooks';
import { type Mark, type Measures, NO_MEASURES } from '../carried/measures.ts';
import { caseIn } from './bench-case.ts';
import { type CheckRow, checkRows, pageLimits, sheetLimits } from './check-rows.ts';
import { CheckTable } from './check-table.tsx';
import { CheckVerdictWords } from './check-verdict-words.tsx';
import { download } from './download.ts';
import { LearnPart } from './learn-part.tsx';
import { MarkRows } from './mark-rows.tsx';
import { MeasurePad } from './measure-pad.tsx';
import { carOf, changedSince, measuredState, placeText, sameValues } from './measured-car.ts';
import { MeasuredPlace } from './measured-place.tsx';
import { isEmpty, measuredTables } from './measured-tables.ts';
import { lowestWithin } from './risks.ts';
import type { Standing } from './shown.ts';
import type { Bench } from './use-bench.ts';
import { pressureText } from './words.ts';

const FIRST_MARK = { angle: '', runs: '', thickness: '' };

const degreesOf = ({ angle }: Extract<CheckedPlace, { kind: 'gap' }>): number => wholeDegrees(angle);

/** Gaps by hub angle in degrees. */
const gapsBy = (angles: readonly number[], gaps: readonly number[]): ReadonlyMap<number, number> =>
  new Map(angles.map((angle, i) => [angle, gaps[i]!]));

interface Props {
  bench: Bench;
  standing: Standing;
  /** At which the gaps shown are seen, Pa. */
  pressure: number;
}

/** The gaps to see, room to type in what is measured, and marks found after runs: saved as tables, or learned from. */
export function MeasuresPart({ bench, standing, pressure }: Props) {
  const { history, now, carried, known } = bench;
  const state = history.now;
  const { units, measures } = state;
  const { source, tyre } = now;
  const [report, setReport] = useState('');
  const car = measures.car ?? carOf(state);
  const then = measuredState(state, car);
  const measured = useMemo(
    () => (measures.car === undefined ? now : caseIn(carried, then)),
    [carried, measures.car ?? now],
  );
  const changed = measured.ok ? changedSince(now, state, measured, then) : ['other values of the car'];
  const locked = changed.length > 0;
  const there = measured.ok ? measured : now;
  const own = there.source.tubs[there.tub]!;
  const within = useMemo(() => lowestWithin(known, source.accept), [known.runs, known.seasons]);
  const { sheet } = carried;
  // The sheet is of one tub of the case as it was picked; the page's own count is of what is shown.
  const picked = car.tub === sheet?.tub && Object.keys({ ...car.values, ...car.notches }).length === 0;
  const lowest = locked || !standing.builds ? undefined : within;
  const limits = useMemo(
    () =>
      picked && sheet !== undefined
        ? sheetLimits(sheet, there.source, there.setup)
        : pageLimits(there.setup, there.tub, lowest),
    [sheet, picked, there, lowest],
  );
  const names = useMemo(() => source.hardPoints.map(({ name }) => name), [source.hardPoints]);
  const rows = useMemo(() => checkRows(measures, limits, names, units), [measures, limits, names, units]);
  const typed = rows.filter(({ text }) => text.trim() !== '');
  const verdict = typed.length === 0 ? undefined : judgeChecks(rows, [], names);
  const judged = new Map(
    verdict === undefined ? [] : rows.map((row, i) => [row, verdict.values[i]!] as const),
  );
  const shownGaps = useMemo(
    () => gapsBy(limits.angles, middleStaticGaps(now.setup, now.tub, state.topHeight, limits.angles)),
    [now.setup, now.tub, state.topHeight, limits],
  );
  const measuredGaps = useMemo(
    () => gapsBy(limits.angles, middleStaticGaps(there.setup, there.tub, car.topHeight, limits.angles)),
    [there.setup, there.tub, car.topHeight, limits],
  );
  const otherGaps = useMemo(() => gapsBy(GAP_ANGLES, standing.gaps), [standing]);
  /** What is to be seen with the build tyre in a place; m. */
  const see =
    (gaps: ReadonlyMap<number, number>, topHeight: number, centre: number) =>
    (place: CheckedPlace): number | undefined => {
      switch (place.kind) {
        case 'gap':
          return gaps.get(degreesOf(place));
        case 'top height':
          return topHeight;
        case 'centre forward':
          return centre;
        case 'hard point':
          return undefined;
      }
    };
  /** The same where another tyre is shown. */
  const seeShown = (place: CheckedPlace): number | undefined =>
    place.kind === 'gap' ? otherGaps.get(degreesOf(place)) : undefined;

  const set = (what: string, changes: Partial<Measures>): void => {
    const next = { ...measures, ...changes };
    bench.set(what, { ...state, measures: isEmpty(next) ? NO_MEASURES : { ...next, car } });
  };
  const type = ({ key, place }: CheckRow, text: string): void =>
    set(
      key,
      place.kind === 'gap'
        ? { gaps: { ...measures.gaps, [key]: text } }
        : { checks: { ...measures.checks, [key]: text } },
    );
  const setMark = (index: number, changes: Partial<Mark>): void =>
    set(`mark ${index}`, {
      marks: measures.marks.map((mark, i) => (i === index ? { ...mark, ...changes } : mark)),
    });
  const tables = measuredTables(measures, rows, units, {
    tub: own.name,
    topHeight: car.topHeight,
    centre: own.centreForward,
  });
  const save = (): void => {
    for (const [file, text] of Object.entries(tables)) download(file, text);
    const other =
      sameValues(state.values, car.values) && !changed.includes('another notch')
        ? ''
        : ' CASE must be the car as it was measured: show it and save that case too.';
    setReport(
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
      <div class="of-measure">
        <MeasurePad
          units={units}
          rows={standing.builds ? rows : []}
          judged={judged}
          toSee={see(shownGaps, state.topHeight, source.tubs[now.tub]!.centreForward)}
          expected={see(measuredGaps, car.topHeight, own.centreForward)}
          locked={locked}
          tyre={source.tyres.find(({ name }) => name === source.build.tyre)?.name}
          onType={type}
        />
        <CheckTable
          caption={`From ${name} at ${pressureText(pressure, units)} straight to the tub, loaded as the case says, everything at its middle value${others}`}
          units={units}
          rows={
            standing.builds
              ? rows
              : rows.filter(({ place }) => place.kind === 'gap' && seeShown(place) !== undefined)
          }
          judged={judged}
          toSee={
            standing.builds ? see(shownGaps, state.topHeight, source.tubs[now.tub]!.centreForward) : seeShown
          }
          expected={see(measuredGaps, car.topHeight, own.centreForward)}
          typed={standing.builds}
          locked={locked}
          onType={type}
        />
        {verdict !== undefined && (
          <CheckVerdictWords
            verdict={verdict}
            from={limits.from}
            known={rows.some(({ least }) => least !== undefined)}
            tyre={source.tyres[tyre]!.name}
          />
        )}
      </div>
      <div class="of-learn">
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
        {report !== '' && <p role="status">{report}</p>}
      </div>
    </>
  );
}
