import { useEffect, useRef, useState } from 'preact/hooks';
import type { Learnt } from '../worker/learning.ts';
import type { Lesson } from '../worker/lesson.ts';
import type { LearnAnswer, LearnQuestion } from '../worker/messages.ts';
import type { BenchCase } from './bench-case.ts';
import { withoutLesson } from './bench-state.ts';
import type { TypedTables } from './lesson-lines.ts';
import { LessonWords, Refused } from './lesson-words.tsx';
import { openWorker, type PageWorker } from './page-worker.ts';
import type { Bench } from './use-bench.ts';

type Teaching =
  | { kind: 'none' }
  | { kind: 'working'; words: string; since: number }
  | { kind: 'done'; learnt: Learnt; tables: TypedTables; key: string }
  /** Nothing could be tried. */
  | { kind: 'unable'; why: readonly string[]; key: string };

/** A case to learn from, or why there is none. */
function lessonOf(measured: BenchCase, tables: TypedTables): Lesson | { unable: string[] } {
  if (!measured.ok) return { unable: measured.issues.map(({ message }) => message) };
  const { source } = measured;
  if (source.book !== undefined) {
    return {
      unable: [
        `This case starts from its shop’s book (${source.book.file}). Save what was measured and put it into the book: tubgap book add, then tubgap book learn; it learns of this car too.`,
      ],
    };
  }
  if (source.learned === undefined) return { source, tables };
  return {
    unable: [
      `This case uses ${source.learned.file} already. Save what was measured into the folder that it was learned from, and run tubgap learn again.`,
    ],
  };
}

/**
 * Learns from what was typed in, in a worker of its own; shows what it changes before anything is changed.
 * @param measured  the car that was measured, nothing learned in it
 */
export function LearnPart({
  bench,
  measured,
  tables,
}: {
  bench: Bench;
  measured: BenchCase;
  tables: TypedTables;
}) {
  const state = bench.history.now;
  const [teaching, setTeaching] = useState<Teaching>({ kind: 'none' });
  const [seconds, setSeconds] = useState(0);
  const worker = useRef<PageWorker<LearnQuestion, LearnAnswer> | undefined>(undefined);
  const stop = (): void => {
    worker.current?.end();
    worker.current = undefined;
  };
  useEffect(() => stop, []);
  useEffect(() => {
    if (teaching.kind !== 'working') return undefined;
    const { since } = teaching;
    const timer = setInterval(() => setSeconds(Math.round((Date.now() - since) / 1000)), 500);
    return () => clearInterval(timer);
  }, [teaching]);

  const key = JSON.stringify([tables, state.measures.car]);
  const inUse = state.values.learned;
  const start = (): void => {
    const unable = (why: readonly string[]): void => setTeaching({ kind: 'unable', why, key });
    const lesson = lessonOf(measured, tables);
    if ('unable' in lesson) {
      unable(lesson.unable);
      return;
    }
    const since = Date.now();
    setSeconds(0);
    setTeaching({ kind: 'working', words: 'Starting', since });
    worker.current = openWorker();
    worker.current.listen(
      (answer) => {
        if (answer.kind === 'doing') {
          setTeaching({ kind: 'working', words: answer.words, since });
          return;
        }
        stop();
        if (answer.kind === 'problem') unable([answer.message]);
        else setTeaching({ kind: 'done', learnt: answer.learnt, tables, key });
      },
      () => {
        stop();
        unable(['This browser stopped the work; save the tables and run tubgap learn.']);
      },
    );
    worker.current?.ask({ kind: 'learn', lesson });
  };
  const use = (learned: string): void => {
    const refused = bench.set('', { ...state, values: { ...state.values, learned } });
    if (refused.length > 0) setTeaching({ kind: 'unable', why: refused, key });
  };
  const result = teaching.kind === 'done' ? teaching.learnt.result : undefined;
  const text = result !== undefined && 'taught' in result ? result.taught.text : undefined;
  const stale = (teaching.kind === 'done' || teaching.kind === 'unable') && teaching.key !== key;
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
        {text !== undefined && inUse !== text && (
          <button type="button" onClick={() => use(text)} disabled={stale}>
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
      {stale && <p>What is typed in has changed since: learn again.</p>}
      {teaching.kind === 'done' && (
        <LessonWords learnt={teaching.learnt} tables={teaching.tables} units={state.units} />
      )}
      {teaching.kind === 'unable' && <Refused refused={teaching.why} />}
      {inUse !== undefined && (
        <p class="in-use">
          <strong>Learned from what was typed in:</strong> all figures now use it, and the saved case and the
          link hold it. What was learned cannot be set by hand above; go back to the case as it was to try
          other values.
        </p>
      )}
    </div>
  );
}
