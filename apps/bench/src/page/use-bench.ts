import { issueText } from '@tubgap/casefile';
import { caseSetup } from '@tubgap/simulation';
import { useCallback, useEffect, useLayoutEffect, useMemo, useReducer, useRef, useState } from 'preact/hooks';
import type { Carried } from '../carried/carried.ts';
import { type BenchCase, caseIn, firstState, readCarried } from './bench-case.ts';
import { type BenchState, linkOf, readLink } from './bench-state.ts';
import { type Estimator, type Known, openEstimator } from './estimate.ts';
import { begin, type Change, changed, type History } from './history.ts';

type ReadCase = Extract<BenchCase, { ok: true }>;

/** All that the page's parts share. */
export interface Bench {
  carried: Carried;
  history: History;
  /** The last state that could be read. */
  now: ReadCase;
  known: Known;
  /** What was wrong with the link that the page was opened with. */
  linkProblem: string | undefined;
  /** Sets a new state; false with the reasons when it cannot be read, and nothing is set. */
  set: (what: string, state: BenchState) => string[];
  change: (change: Change) => void;
  open: (carried: Carried) => void;
  /** Takes a learned file into the case and uses it; why not, when it cannot. */
  learn: (file: string, text: string) => string[];
}

/** How long a state rests before it goes into the address, ms. */
const REST = 400;

/** First state of a case, with what the page's address says. */
function opened(carried: Carried, link: string): { state: BenchState; problem?: string } {
  const plain = readCarried(carried, []);
  if (!plain.ok) throw new Error(plain.issues.map(issueText).join('\n'));
  const first = firstState(carried, plain.value, caseSetup(plain.value));
  const asked = readLink(link);
  if (asked === undefined) return { state: first };
  const state = { ...first, ...asked.state };
  if (asked.case !== plain.value.name) {
    return {
      state: first,
      problem: `The link is of the case ${asked.case ?? 'of no name'}; this page holds ${plain.value.name}.`,
    };
  }
  const tried = caseIn(carried, state);
  if (!tried.ok) {
    return {
      state: first,
      problem: `The link cannot be used: ${tried.issues.map(({ message }) => message).join('; ')}`,
    };
  }
  return { state };
}

/** The page's state, its case and what is known of it; `link` is what its address says after #. @throws Error when the page carries no sound case */
export function useBench(first: Carried, link: string): Bench {
  const [carried, setCarried] = useState(first);
  const begun = useMemo(() => opened(first, link), []);
  const [history, change] = useReducer(changed, begin(begun.state));
  const [known, setKnown] = useState<Known>({});
  const estimator = useRef<Estimator | undefined>(undefined);
  const last = useRef<ReadCase | undefined>(undefined);

  const now = useMemo(() => {
    const found = caseIn(carried, history.now);
    if (found.ok) last.current = found;
    return last.current!;
  }, [carried, history.now]);

  const ask = (): void =>
    estimator.current?.ask({ source: now.source, tub: now.tub, tyre: now.tyre, inputs: now.inputs });
  // Raising or lowering the tub asks for nothing new: the counts hold every height.
  useLayoutEffect(ask, [now.inputs, now.tub, JSON.stringify(now.source.tubs[now.tub])]);
  useEffect(() => {
    // After the first picture: starting a worker takes longer than drawing.
    estimator.current = openEstimator(setKnown);
    ask();
  }, []);

  useEffect(() => {
    const timer = setTimeout(() => {
      try {
        window.history.replaceState(null, '', `#${linkOf(now.source.name, history.now)}`);
      } catch {
        // Some browsers let no page from a disk change its address; the page works without.
      }
    }, REST);
    return () => clearTimeout(timer);
  }, [history.now, now]);

  const set = useCallback(
    (what: string, state: BenchState): string[] => {
      const found = caseIn(carried, state);
      if (!found.ok) return found.issues.map(({ message }) => message);
      change({ kind: 'set', what, state });
      return [];
    },
    [carried],
  );
  const learn = useCallback(
    (file: string, text: string): string[] => {
      const next = { ...carried, files: { ...carried.files, [file]: text } };
      const state = { ...history.now, values: { ...history.now.values, learned: file } };
      const found = caseIn(next, state);
      if (!found.ok) return found.issues.map(({ message }) => message);
      setCarried(next);
      change({ kind: 'set', what: '', state });
      return [];
    },
    [carried, history.now],
  );
  const open = useCallback((next: Carried) => {
    setCarried(next);
    change({ kind: 'open', state: opened(next, '').state });
  }, []);
  return { carried, history, now, known, linkProblem: begun.problem, set, change, open, learn };
}
