import { sideView } from '@tubgap/drawing';
import { caseCautions, type RunPlace, tightMoment } from '@tubgap/simulation';
import { alongText, gapWords, SIXTEENTH } from '@tubgap/units';
import { unbroken } from '@tubgap/wording';
import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { Carried } from '../carried/carried.ts';
import { Answer } from './answer.tsx';
import { type BenchState, CENTRES, HEIGHTS } from './bench-state.ts';
import { HiddenSettings } from './brought-list.tsx';
import { beyondModel, placeProblems, wallProblems } from './cautions-part.tsx';
import { DragPicture, type Move } from './drag-picture.tsx';
import { LearnedInUse } from './learned-in-use.tsx';
import { LimitsPart } from './limits-part.tsx';
import { Rest } from './rest.tsx';
import { RiskLine } from './risk-line.tsx';
import { isFinal, lowestWithin, risksAt } from './risks.ts';
import { RunPanel } from './run-panel.tsx';
import { type Screen, Screens } from './screens.tsx';
import { standingAt } from './shown.ts';
import { type Drawn, frameOf, sideDrawing } from './side-drawing.ts';
import { toldOf } from './told-risk.ts';
import { useBench } from './use-bench.ts';
import { usePhone } from './use-phone.ts';
import { useTightest } from './use-tightest.ts';
import { lengthText, type Units } from './words.ts';

const stepOf = (units: Units): number => (units === 'inch' ? SIXTEENTH : 0.001);
const onStep = (value: number, units: Units, [low, high]: readonly [number, number]): number => {
  const step = stepOf(units);
  return Math.min(high, Math.max(low, Math.round(value / step) * step));
};

/** A button with an arrow that moves the tub by the smallest step. */
function Nudge({ turn, words, onPress }: { turn: number; words: string; onPress: () => void }) {
  return (
    <button type="button" onClick={onPress}>
      <svg class="arrow" viewBox="0 0 16 16" style={{ transform: `rotate(${turn}deg)` }} aria-hidden="true">
        <path d="M8 1l5.5 7h-3.6v7h-3.8v-7h-3.6z" />
      </svg>
      {words}
    </button>
  );
}

interface Props {
  carried: Carried;
  /** What the page's address says of the tub. */
  link: string;
  /** What stands before that in the address. */
  beside?: string;
  /** Leads back to the questions; left out where there are none. */
  onBack?: () => void;
}

/** The page: the tub to be moved, and what that means. */
export function App({ carried: first, link, beside = '', onBack }: Props) {
  const bench = useBench(first, link, beside);
  const { history, now, known, change } = bench;
  const state = history.now;
  const { source, setup, tub, tyre } = now;
  const { units, topHeight } = state;
  const place: RunPlace = useMemo(() => ({ setup, tub, tyre, topHeight }), [setup, tub, tyre, topHeight]);
  const [played, setPlayed] = useState<Drawn['run']>();
  const [dragging, setDragging] = useState(false);
  const [following, setFollowing] = useState(false);
  const [settled, setSettled] = useState(false);
  // What lies under the picture can wait until that is seen.
  useEffect(() => void setTimeout(() => setSettled(true)), []);
  const [screen, setScreen] = useState<Screen>('place');
  const phone = usePhone();
  const [whole, setWhole] = useState(false);
  const near = phone && !whole;
  const frame = useRef<{ near: boolean; frame: Drawn['frame'] } | undefined>(undefined);
  const grabbed = useRef({ topHeight, centre: 0 });

  const rare = known.ranked?.rare;
  const standing = useMemo(() => standingAt(place), [place]);
  const tight = useMemo(() => tightMoment(place, rare?.run), [place, rare]);
  const risks = useMemo(() => risksAt(known, topHeight), [known, topHeight]);
  const told = toldOf(known, risks);
  const within = useMemo(() => lowestWithin(known, source.accept), [known.runs, known.seasons]);
  const isLowest =
    within !== undefined && lengthText(within, 'up', units) === lengthText(topHeight, 'up', units);
  const cautions = useMemo(() => caseCautions(setup), [now.inputs]);
  const { name } = source.tyres[tyre]!;
  const problems = [...placeProblems(source, place, units), ...wallProblems(source, known)];
  if (!dragging || frame.current?.near !== near) {
    const before = frame.current?.near === near ? frame.current.frame : undefined;
    frame.current = { near, frame: frameOf(place, source, before, near) };
  }
  const { gap } = tight.shown.state;
  const tightest = useTightest(place, source.simulation.seed, dragging);
  const runName = rare?.name ?? 'the ordinary run';
  const svg = sideView(
    sideDrawing({
      place,
      source,
      standing,
      units,
      cloud: played === undefined && (known.cloud || !known.problem) ? known.cloud : 'none',
      run: played ?? {
        shown: tight.shown,
        label: `${runName}, ${tight.moment}`,
        tightTexts: [`${runName}:`, `${gapWords(gap, units)} left`],
      },
      frame: frame.current!.frame,
    }),
  );

  const moveTo = (what: string, changes: Partial<BenchState>): void => {
    bench.set(what, { ...state, ...changes });
  };
  const centre = source.tubs[tub]!.centreForward;
  const drag = ({ up, ahead }: Move): void => {
    const next = {
      topHeight: onStep(grabbed.current.topHeight + up, units, HEIGHTS),
      centre: onStep(grabbed.current.centre + ahead, units, CENTRES),
    };
    if (next.topHeight === topHeight && next.centre === centre) return;
    moveTo('drag', next.centre === centre ? { topHeight: next.topHeight } : next);
  };
  const nudge = (up: number, ahead: number): void =>
    moveTo(
      'nudge',
      ahead === 0
        ? { topHeight: onStep(topHeight + up * stepOf(units), units, HEIGHTS) }
        : { centre: onStep(centre + ahead * stepOf(units), units, CENTRES) },
    );
  const onKey = (event: KeyboardEvent): void => {
    const arrows: Record<string, readonly [number, number]> = {
      ArrowUp: [1, 0],
      ArrowDown: [-1, 0],
      ArrowRight: [0, 1],
      ArrowLeft: [0, -1],
    };
    const arrow = arrows[event.key];
    if (arrow === undefined) return;
    event.preventDefault();
    const size = event.shiftKey ? (units === 'inch' ? 16 : 25) : 1;
    nudge(arrow[0] * size, arrow[1] * size);
  };
  useEffect(() => {
    const keys = (event: KeyboardEvent): void => {
      if (!(event.ctrlKey || event.metaKey) || event.target instanceof HTMLInputElement) return;
      const key = event.key.toLowerCase();
      if (key !== 'z' && key !== 'y') return;
      event.preventDefault();
      change({ kind: key === 'y' || event.shiftKey ? 'redo' : 'undo' });
    };
    addEventListener('keydown', keys);
    return () => removeEventListener('keydown', keys);
  }, []);

  return (
    <>
      <header>
        <h1>{source.title}</h1>
        {source.invented && <p class="invented">Invented example, no real car</p>}
        <div class="row tools">
          {onBack && (
            <button type="button" onClick={onBack}>
              Back to the questions
            </button>
          )}
          <button type="button" disabled={history.past.length === 0} onClick={() => change({ kind: 'undo' })}>
            Undo
          </button>
          <button
            type="button"
            disabled={history.future.length === 0}
            onClick={() => change({ kind: 'redo' })}
          >
            Redo
          </button>
          <button type="button" onClick={() => moveTo('', { units: units === 'inch' ? 'mm' : 'inch' })}>
            {units === 'inch' ? 'Show mm' : 'Show inches'}
          </button>
        </div>
      </header>
      {bench.linkProblem !== undefined && (
        <p class="fault" role="alert">
          {bench.linkProblem}
        </p>
      )}
      <main class="at-the-car" data-screen={screen}>
        <p class="caution">
          <b>Tyre contact at speed can kill.</b> The figures come from a model whose inputs are partly
          assumed. The sanctioning body’s rules, the tyre maker’s limits and a qualified chassis builder come
          first.
        </p>
        <LearnedInUse source={source} typed={state.values.learned !== undefined} />
        <div class="bench of-place">
          <section class={`scene${near ? ' near' : ''}`} aria-label="Tub and tyre from the side">
            <RiskLine source={source} known={known} risks={risks} told={told} units={units} />
            <DragPicture
              svg={svg}
              tub={setup.clearance.tubs[tub]!}
              ahead={centre}
              above={standing.topHeight - standing.axleHeight - setup.clearance.tubs[tub]!.radius}
              near={near}
              onDrag={drag}
              onStart={() => {
                grabbed.current = { topHeight, centre };
                change({ kind: 'rest' });
                setDragging(true);
              }}
              onEnd={() => {
                change({ kind: 'rest' });
                setDragging(false);
              }}
              onKey={onKey}
            />
            <button type="button" class="closer" onClick={() => setWhole(!whole)}>
              {whole ? 'Close-up' : 'Whole tub'}
            </button>
          </section>
          <div class="beside">
            <Answer
              source={source}
              known={known}
              anew={bench.carried.sample !== undefined}
              risks={risks}
              told={told}
              tyre={name}
              units={units}
              tight={known.rankedElsewhere ? undefined : rare && { gap, run: runName, tightest }}
            />
            <HiddenSettings brought={bench.brought} />
            {problems.map((words) => (
              <p class="fault" key={words} role="alert">
                {words}
              </p>
            ))}
            {beyondModel(cautions).map(({ code, text }) => (
              <p class="beyond" key={code}>
                <b>Beyond the model:</b> {text}
              </p>
            ))}
            <section class="moves" aria-label="Place of the tub">
              <p class="where">
                Top <b>{lengthText(topHeight, 'up', units)}</b> above the track, centre{' '}
                <b>{unbroken(alongText(centre, units))}</b>
              </p>
              <div class="nudges">
                <Nudge turn={0} words="up" onPress={() => nudge(1, 0)} />
                <Nudge turn={180} words="down" onPress={() => nudge(-1, 0)} />
                <Nudge turn={-90} words="rearward" onPress={() => nudge(0, -1)} />
                <Nudge turn={90} words="forward" onPress={() => nudge(0, 1)} />
              </div>
              <button
                type="button"
                class="strong"
                disabled={within === undefined || isLowest}
                onClick={() => moveTo('', { topHeight: within! })}
              >
                {within !== undefined
                  ? `${isLowest ? 'It stands at' : 'Set'} the lowest within your limits with ${name}: ${lengthText(within, 'up', units)}`
                  : isFinal(known)
                    ? 'No height of this tub keeps your limits'
                    : `Lowest height within your limits: ${known.problem === undefined ? 'counting…' : 'not known'}`}
              </button>
            </section>
            {settled && <LimitsPart now={now} topHeight={topHeight} />}
            <section class="follow" aria-label="One run along the track">
              <button
                type="button"
                disabled={known.ranked === undefined}
                aria-expanded={following}
                onClick={() => setFollowing(!following)}
              >
                {following ? 'Close the run' : 'Follow a run along the track'}
              </button>
              {following && known.ranked && (
                <RunPanel
                  place={place}
                  runs={known.ranked}
                  reserve={source.build.reserve}
                  units={units}
                  onShow={setPlayed}
                />
              )}
            </section>
          </div>
        </div>
        {settled && <Rest bench={bench} cautions={cautions} standing={standing} />}
      </main>
      <Screens screen={screen} onScreen={setScreen} />
    </>
  );
}
