import type { CallAnswer, CallFault, Found, ReadCall } from '@tubgap/interview';
import type { AssumedCost } from '@tubgap/simulation';
import type { VerdictReport } from '@tubgap/wording';
import { useEffect, useLayoutEffect, useMemo, useRef, useState } from 'preact/hooks';
import { openWorker, type PageWorker, takeBegunWorker } from '../page/page-worker.ts';
import { type ShopTubs, tubsText } from '../shop/shop-tubs.ts';
import type { AskedCall } from '../worker/messages.ts';

/** What is known of a call. */
export interface KnownCall {
  found?: Found;
  /** Of the tub that is in the car already. */
  existing?: VerdictReport;
  /** What each assumed thing costs, and whether all are known. */
  costs: readonly AssumedCost[];
  /** How far that has come: what questions ask for is known first. */
  costed: 'some' | 'questions' | 'all';
  faults: readonly CallFault[];
  problem?: string;
  /** All this is of the answers before. */
  outdated?: true;
}

const NOTHING: KnownCall = { costs: [], costed: 'some', faults: [] };
const NO_WORKER =
  'This browser lets the page start no worker, so nothing is counted: open the page in another browser, or from the disk of this computer.';

/** Answers that warm the engine up while the first question is being put: a tyre of either construction. */
const WARM_UP = {
  tyres: [
    { size: '28x10.5-15', build: 'radial slick' },
    { size: '28x10.5-15', build: 'bias slick' },
  ],
  speed: '150 mph',
};

/** Answers a call as it is typed: the newest answers stop the work on any before them. */
export function useCall(call: ReadCall, tubs: ShopTubs, book: string | undefined): KnownCall {
  const [known, setKnown] = useState<KnownCall>(NOTHING);
  const worker = useRef<PageWorker<AskedCall, { id: number } & CallAnswer> | undefined>(undefined);
  const id = useRef(0);
  const asked = useMemo(
    () => (call.interviewed === undefined ? undefined : JSON.stringify([call.answers, tubsText(tubs), book])),
    [call.interviewed, call.answers, tubs, book],
  );

  const ask = (answers: AskedCall['answers'], warmUp?: true): void => {
    id.current++;
    worker.current?.ask({
      id: id.current,
      kind: 'ask',
      answers,
      tubs: tubsText(tubs),
      ...(book !== undefined && { book }),
      ...(warmUp && { warmUp }),
    });
  };
  // Asked before the browser paints what was typed: painting takes longer.
  useLayoutEffect(() => {
    if (asked === undefined) {
      setKnown((before) => (before.problem === NO_WORKER ? before : NOTHING));
      return;
    }
    setKnown(({ existing: _, ...before }) => ({
      ...before,
      costs: [],
      costed: 'some',
      faults: NOTHING.faults,
      outdated: true,
    }));
    ask(call.answers);
  }, [asked]);

  // After the first picture, for starting workers takes longer than drawing.
  useEffect(() => {
    worker.current = takeBegunWorker() ?? openWorker();
    worker.current.addMate();
    worker.current.listen(
      (data) => {
        if (data.id === id.current) setKnown((before) => taken(before, data));
      },
      () => setKnown({ ...NOTHING, problem: NO_WORKER }),
    );
    if (asked === undefined) ask(WARM_UP, true);
    else ask(call.answers);
  }, []);
  return known;
}

/** What is known after one more message. */
function taken(before: KnownCall, data: CallAnswer | { kind: 'problem'; message: string }): KnownCall {
  const { outdated: _, problem: __, ...rest } = before;
  switch (data.kind) {
    case 'found':
      return { ...rest, found: data.found };
    case 'existing':
      return { ...rest, existing: data.judged };
    case 'cost':
      return { ...rest, costs: [...before.costs, data.cost] };
    case 'costs done':
      return { ...rest, costed: 'all' };
    case 'questions costed':
      return { ...rest, costed: 'questions' };
    case 'faults':
      return { ...NOTHING, faults: data.faults };
    case 'problem':
      return { ...NOTHING, problem: data.message };
  }
}
