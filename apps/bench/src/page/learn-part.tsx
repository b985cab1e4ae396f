import { useEffect, useRef, useState } from 'preact/hooks';
import type { Learnt } from '../worker/learning.ts';
import type { Lesson } from '../worker/lesson.ts';
import type { LearnAnswer, LearnQuestion } from '../worker/messages.ts';
import type { BenchCase } from './bench-case.ts';
import { withoutLesson } from './bench-state.ts';
import { LessonWords } from './lesson-words.tsx';
import { openWorker, type PageWorker } from './page-worker.ts';
import type { Bench } from './use-bench.ts';

type Teaching =
  | { kind: 'none' }
  | { kind: 'working'; words: string; since: number }
  | { kind: 'done'; learnt: Learnt; key: string };

/** A case to learn from, or why there is none. */
function lessonOf(
  measured: BenchCase,
  tables: Readonly<Record<string, string>>,
): Lesson | { refused: string[] } {
  if (!measured.ok) return { refused: measured.issues.map(({ message }) => message) };
  const { source } = measured;
  if (source.learned === undefined) return { source, tables };
  return {
    refused: [
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
  tables: Readonly<Record<string, string>>;
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
    const done = (learnt: Learnt): void => setTeaching({ kind: 'done', learnt, key });
    const lesson = lessonOf(measured, tables);
    if ('refused' in lesson) {
      done(lesson);
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
        done(answer.learnt);
      },
      () => {
        stop();
        done({ refused: ['This browser stopped the work; save the tables and run tubgap learn.'] });
      },
    );
    worker.current?.ask({ kind: 'learn', lesson });
  };
  const use = (learned: string): void => {
    const refused = bench.set('', { ...state, values: { ...state.values, learned } });
    if (refused.length > 0) setTeaching({ kind: 'done', learnt: { refused }, key });
  };
  const learnt = teaching.kind === 'done' ? teaching.learnt : undefined;
  const stale = teaching.kind === 'done' && teaching.key !== key;
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
        {learnt !== undefined && 'text' in learnt && inUse !== learnt.text && (
          <button type="button" onClick={() => use(learnt.text)} disabled={stale}>
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
      {learnt !== undefined && <LessonWords learnt={learnt} units={state.units} />}
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
