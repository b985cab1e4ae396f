import { useEffect, useRef, useState } from 'preact/hooks';
import type { Learnt, Lesson } from '../worker/learning.ts';
import type { LearnAnswer, LearnQuestion } from '../worker/messages.ts';
import { caseIn } from './bench-case.ts';
import type { BenchState } from './bench-state.ts';
import { openWorker } from './estimate.ts';
import type { Bench } from './use-bench.ts';
import { lengthText, type Units } from './words.ts';

/** Inputs named behind a change of height. */
const MOST_NAMED = 3;
const STRAINED = 'Also, read with care:';

type Teaching =
  | { kind: 'none' }
  | { kind: 'working'; words: string; since: number; tables: string }
  | { kind: 'done'; learnt: Learnt; file: string; tables: string };

/** A name that no file of the case has yet, so that an earlier lesson can be taken back to. */
function freshName(files: Readonly<Record<string, string>>): string {
  for (let n = 1; ; n++) {
    const name = n === 1 ? 'learned.yaml' : `learned-${n}.yaml`;
    if (files[name] === undefined) return name;
  }
}

export function withoutLesson(state: BenchState): BenchState {
  const { learned: _, ...values } = state.values;
  return { ...state, values };
}

function heightsText({ before, after }: Exclude<Learnt, { refused: string[] }>, units: Units): string {
  const of = (height: number | string): string =>
    typeof height === 'string' ? `none (${height})` : lengthText(height, units);
  return of(before) === of(after) ? `stays at ${of(before)}` : `before ${of(before)}, after ${of(after)}`;
}

const isStop = (line: string): boolean => line.startsWith('STOP');

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

function Change({ learnt, units, tub }: { learnt: Learnt; units: Units; tub: string }) {
  if ('refused' in learnt) {
    const stops = learnt.refused.filter(isStop);
    const [first, ...rest] = learnt.refused.filter((line) => !isStop(line));
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
  const { moved, remarks } = learnt;
  const others = remarks.filter((line) => !isStop(line));
  return (
    <div class="lesson" role="status">
      <Stops lines={remarks.filter(isStop)} />
      <p>
        Lowest height within your limits, {tub}: <strong>{heightsText(learnt, units)}</strong>, because
      </p>
      <ul>
        {moved.slice(0, MOST_NAMED).map(({ label, before, after }) => (
          <li key={label}>
            {label} was taken as {before}; what was typed in makes it {after}
          </li>
        ))}
      </ul>
      {moved.length > MOST_NAMED && <p>and {moved.length - MOST_NAMED} more, in the learned file.</p>}
      {others.length > 0 && (
        <p>
          {STRAINED} {others.join(' ')}
        </p>
      )}
      <p>
        A height from few measures is only as sure as they are. The sanctioning body’s rules, the tyre maker’s
        limits and a qualified chassis builder come first.
      </p>
    </div>
  );
}

/** Learns from what was typed in, in a worker of its own; shows what it changes before anything is changed. */
export function LearnPart({ bench, tables }: { bench: Bench; tables: Readonly<Record<string, string>> }) {
  const { carried, history, now } = bench;
  const state = history.now;
  const [teaching, setTeaching] = useState<Teaching>({ kind: 'none' });
  const [seconds, setSeconds] = useState(0);
  const worker = useRef<Worker | undefined>(undefined);
  const stop = (): void => {
    worker.current?.terminate();
    worker.current = undefined;
  };
  useEffect(() => stop, []);
  useEffect(() => {
    if (teaching.kind !== 'working') return undefined;
    const { since } = teaching;
    const timer = setInterval(() => setSeconds(Math.round((Date.now() - since) / 1000)), 500);
    return () => clearInterval(timer);
  }, [teaching]);

  const key = JSON.stringify(tables);
  const inUse = state.values.learned;
  const start = (): void => {
    const file = freshName(carried.files);
    const bare = caseIn(carried, withoutLesson(state));
    const refuse = (refused: string[]): void =>
      setTeaching({ kind: 'done', learnt: { refused }, file, tables: key });
    if (!bare.ok) {
      refuse(bare.issues.map(({ message }) => message));
      return;
    }
    if (bare.source.learned !== undefined) {
      refuse([
        `This case uses ${bare.source.learned.file} already. Save what was measured into the folder that it was learned from, and run tubgap learn again.`,
      ]);
      return;
    }
    const lesson: Lesson = { source: bare.source, tub: bare.tub, tyre: bare.tyre, tables, file };
    const since = Date.now();
    setSeconds(0);
    setTeaching({ kind: 'working', words: 'Starting', since, tables: key });
    worker.current = openWorker();
    worker.current.onmessage = ({ data }: MessageEvent<LearnAnswer>) => {
      if (data.kind === 'doing') {
        setTeaching({ kind: 'working', words: data.words, since, tables: key });
        return;
      }
      stop();
      setTeaching({ kind: 'done', learnt: data.learnt, file, tables: key });
    };
    worker.current.onerror = () => {
      stop();
      refuse(['This browser stopped the work; save the tables and run tubgap learn.']);
    };
    worker.current.postMessage({ kind: 'learn', lesson } satisfies LearnQuestion);
  };
  const use = (text: string, file: string): void => {
    const problems = bench.learn(file, text);
    if (problems.length > 0) setTeaching({ kind: 'done', learnt: { refused: problems }, file, tables: key });
  };
  return (
    <div class="learning">
      <div class="row">
        {teaching.kind === 'working' ? (
          <button
            type="button"
            onClick={() => {
              stop();
              setTeaching({ kind: 'none' });
            }}
          >
            Stop learning
          </button>
        ) : (
          <button type="button" disabled={Object.keys(tables).length < 2} onClick={start}>
            Learn from what was typed in
          </button>
        )}
        {teaching.kind === 'done' && 'text' in teaching.learnt && inUse !== teaching.file && (
          <button
            type="button"
            onClick={() => use((teaching.learnt as { text: string }).text, teaching.file)}
            disabled={teaching.tables !== key}
          >
            Use what was learned
          </button>
        )}
        {inUse !== undefined && (
          <button type="button" onClick={() => bench.set('', withoutLesson(state))}>
            Go back to the case as it was
          </button>
        )}
      </div>
      {teaching.kind === 'working' && (
        <p role="status">
          {teaching.words}… {seconds} s. The page works on meanwhile.
        </p>
      )}
      {teaching.kind === 'done' && teaching.tables !== key && (
        <p>What is typed in has changed since: learn again.</p>
      )}
      {teaching.kind === 'done' && (
        <Change learnt={teaching.learnt} units={state.units} tub={now.source.tubs[now.tub]!.name} />
      )}
      {inUse !== undefined && (
        <p class="in-use">
          <strong>Learned from what was typed in:</strong> all figures now use it ({inUse}). Saving the case
          keeps it; save {inUse} beside it.
        </p>
      )}
    </div>
  );
}
