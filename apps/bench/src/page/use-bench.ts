import { issueText } from '@tubgap/casefile';
import { caseSetup } from '@tubgap/simulation';
import { useCallback, useEffect, useLayoutEffect, useMemo, useReducer, useRef, useState } from 'preact/hooks';
import type { Carried } from '../carried/carried.ts';
import { withLessonApart } from '../carried/lesson-apart.ts';
import { NO_MEASURES } from '../carried/measures.ts';
import { allSettings, type BenchCase, caseIn, firstState, readCarried } from './bench-case.ts';
import type { BenchState } from './bench-state.ts';
import { type Brought, broughtSettings } from './brought-settings.ts';
import { type Estimator, type Known, openEstimator } from './estimate.ts';
import { begin, type Change, changed, type History } from './history.ts';
import { linkOf, readLink } from './link.ts';
import { measuredState } from './measured-car.ts';
import { pickedCase, pickedKnown } from './picked.ts';

export type ReadCase = Extract<BenchCase, { ok: true }>;

/** All that the page's parts share. */
export interface Bench {
  carried: Carried;
  history: History;
  /** The last state that could be read. */
  now: ReadCase;
  known: Known;
  /** All that is set otherwise than in the case that the page was made with. */
  brought: readonly Brought[];
  /** What was wrong with the link that the page was opened with, or with what a saved case holds beside the case. */
  linkProblem: string | undefined;
  /** Sets a new state; false with the reasons when it cannot be read, and nothing is set. */
  set: (what: string, state: BenchState) => string[];
  change: (change: Change) => void;
  open: (carried: Carried) => void;
}

/** How long a state rests before it goes into the address, ms. */
const REST = 400;

/** A tub may be dragged down onto the standing tyre here; no case has one there. */
const LOW = 'heights';

/** What the case reader would not take of a state, the place of the tub among it. */
function stateProblems(carried: Carried, state: BenchState): string[] {
  const written = readCarried(carried, allSettings(carried, state));
  const found = written.ok ? caseIn(carried, state) : written;
  const issues = found.ok
    ? []
    : found.issues.filter(({ code, path }) => !(code === 'contradiction' && path === LOW));
  return issues.map(({ path, message }) => `${path}: ${message}`);
}

/** The same of the car that was measured. */
function measuredProblems(carried: Carried, state: BenchState): string[] {
  const { car } = state.measures;
  return car === undefined ? [] : stateProblems(carried, measuredState(state, car));
}

interface Opened {
  carried: Carried;
  /** Without what the link says. */
  first: BenchState;
  state: BenchState;
  problem?: string;
}

/** A case as the page begins with it, its first state, and what the page's address says. */
function opened(whole: Carried, link: string): Opened {
  const { carried, learned } = withLessonApart(whole);
  const plain = readCarried(carried, learned === undefined ? [] : [{ path: 'learned', value: learned }]);
  if (!plain.ok) throw new Error(plain.issues.map(issueText).join('\n'));
  const saved = firstState(carried, plain.value, caseSetup(plain.value));
  const faults = measuredProblems(carried, saved);
  const bare = faults.length === 0 ? saved : { ...saved, measures: NO_MEASURES };
  const first = learned === undefined ? bare : { ...bare, values: { learned } };
  const asked = readLink(link);
  if (asked === undefined) {
    if (faults.length === 0) return { carried, first, state: first };
    const problem = `What was measured cannot be of this case and is left out. ${faults.join('; ')}`;
    return { carried, first, state: first, problem };
  }
  const state = { ...first, ...asked.state };
  if (asked.case !== plain.value.name) {
    return {
      carried,
      first,
      state: first,
      problem: `The link is of the case ${asked.case ?? 'of no name'}; this page holds ${plain.value.name}.`,
    };
  }
  const problems = [...asked.problems, ...stateProblems(carried, state), ...measuredProblems(carried, state)];
  return problems.length === 0
    ? { carried, first, state }
    : {
        carried,
        first,
        state: first,
        problem: `The link cannot be used; the page begins as its case says. ${problems.join('; ')}`,
      };
}

/**
 * The page's state, its case and what is known of it; `link` is what its address says after #.
 * @param beside  what stands before that in the address, and stays there
 * @throws Error when the page carries no sound case
 */
export function useBench(first: Carried, link: string, beside: string): Bench {
  const begun = useMemo(() => opened(first, link), []);
  const [carried, setCarried] = useState(begun.carried);
  const [linkProblem, setProblem] = useState(begun.problem);
  const [history, change] = useReducer(changed, begin(begun.state));
  const [reported, setReported] = useState<Known>({});
  const [picked, setPicked] = useState(() => pickedCase(begun.carried, begun.first));
  const estimator = useRef<Estimator | undefined>(undefined);
  const last = useRef<ReadCase | undefined>(undefined);

  const now = useMemo(() => {
    const found = caseIn(carried, history.now);
    if (found.ok) last.current = found;
    return last.current!;
  }, [carried, history.now]);

  const { topHeight } = history.now;
  const own = useMemo(() => pickedKnown(carried, picked, now, topHeight), [carried, picked, now, topHeight]);
  // The pick's figures stand in the first picture already.
  const known = own === undefined ? reported : { ...(reported.cloud && { cloud: reported.cloud }), ...own };
  const ask = (): void =>
    estimator.current?.ask({
      source: now.source,
      tub: now.tub,
      tyre: now.tyre,
      inputs: now.inputs,
      picked: own,
    });
  // Raising or lowering the tub asks for nothing new: the counts hold every height, and the pick's all from its floor on.
  useLayoutEffect(ask, [now.inputs, now.tub, JSON.stringify(now.source.tubs[now.tub]), own === undefined]);
  useEffect(() => {
    // After the first picture: starting a worker takes longer than drawing.
    estimator.current = openEstimator(setReported);
    ask();
  }, []);

  useEffect(() => {
    const timer = setTimeout(() => {
      try {
        const own = linkOf(now.source.name, history.now);
        window.history.replaceState(null, '', beside === '' ? `#${own}` : `#${beside}&${own}`);
      } catch {
        // Some browsers let no page from a disk change its address; the page works without.
      }
    }, REST);
    return () => clearTimeout(timer);
  }, [history.now, now, beside]);

  const set = useCallback(
    (what: string, state: BenchState): string[] => {
      const found = caseIn(carried, state);
      if (!found.ok) return found.issues.map(({ message }) => message);
      change({ kind: 'set', what, state });
      return [];
    },
    [carried],
  );
  const open = useCallback((whole: Carried) => {
    const next = opened(whole, '');
    setCarried(next.carried);
    setPicked(pickedCase(next.carried, next.first));
    setProblem(next.problem);
    change({ kind: 'open', state: next.state });
  }, []);
  const brought = useMemo(
    () => broughtSettings(begun.carried, carried, history.now, now),
    [carried, history.now.values, history.now.notches, history.now.units, now.tub, now.tyre],
  );
  return { carried, history, now, known, brought, linkProblem, set, change, open };
}
