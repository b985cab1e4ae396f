import {
  type Answered,
  CALL_FILE,
  doubtText,
  moveWords,
  nextQuestion,
  pickedOf,
  readCall,
} from '@tubgap/interview';
import { subjectOf, unbroken } from '@tubgap/wording';
import { useEffect, useMemo, useState } from 'preact/hooks';
import type { Carried } from '../carried/carried.ts';
import { CustomerSheet } from '../customer/customer-sheet.tsx';
import { EntryPart } from '../entry/entry-part.tsx';
import { LearnedInUse } from '../page/learned-in-use.tsx';
import { TubsPart } from '../shop/tubs-part.tsx';
import { AnswerPart } from './answer-part.tsx';
import { askLink } from './ask-link.ts';
import { type AskState, type Call, unitsOf, wholeAnswers } from './ask-state.ts';
import { AssumedPart } from './assumed-part.tsx';
import { CallFilesPart } from './call-files.tsx';
import { ExistingPart } from './existing-part.tsx';
import { keep } from './kept.ts';
import { goToQuestion } from './question-field.tsx';
import { FirstQuestions, MoreQuestions } from './questions-part.tsx';
import { useCall } from './use-call.ts';

interface Props {
  state: AskState;
  /** Undefined while the page is drawn without a script. */
  demo: Carried | undefined;
  remark: string | undefined;
  onState: (change: (state: AskState) => AskState) => void;
  onBench: (carried: Carried, ofCall: boolean) => void;
}

/** A call names no tyre as a case of the book does. */
const NO_TYRES: readonly string[] = [];

/** How long answers rest before they go into the address and the browser's store, ms. */
const REST = 400;

/** Keeps all that was typed in the address and in the browser. */
function useKept(state: AskState): void {
  useEffect(() => {
    const timer = setTimeout(() => {
      keep(state);
      try {
        const link = askLink(state);
        window.history.replaceState(null, '', link === '' ? location.pathname : `#${link}`);
      } catch {
        // Some browsers let no page from a disk change its address; the page works without.
      }
    }, REST);
    return () => clearTimeout(timer);
  }, [state]);
}

/** The questions of a call, and the answer as it comes about. */
export function AskPage({ state, demo, remark, onState, onBench }: Props) {
  const { call, tubs } = state;
  const units = unitsOf(state);
  const read = useMemo(() => readCall(wholeAnswers(state)), [call.answers, units]);
  const known = useCall(read, tubs, state.book);
  const [printing, setPrinting] = useState(false);
  useKept(state);
  const { found } = known;
  const pick = found && pickedOf(found);
  const isCosted = known.costed !== 'some' && known.outdated !== true;
  const asked = read.interviewed && isCosted ? nextQuestion(known.costs, call.answers) : undefined;
  const next = asked && {
    id: asked.put.id,
    words: `Ask this next: it ${unbroken(moveWords(asked.cost, units))}.`,
  };
  const setCall = (change: (call: Call) => Call): void =>
    onState((before) => ({ ...before, call: change(before.call) }));
  const questions = {
    answers: call.answers,
    read,
    units,
    next,
    onAnswers: (change: (answers: Answered) => Answered) =>
      setCall((before) => ({ ...before, answers: change(before.answers) })),
  };
  // Parts of which nothing changes while an answer comes about are not drawn again with it: on a phone that takes longer
  // than the rest.
  const changed = [call.answers, read, units, next?.id, next?.words];
  const firstQuestions = useMemo(() => <FirstQuestions {...questions} />, changed);
  const moreQuestions = useMemo(() => <MoreQuestions {...questions} />, changed);
  const tubFaults = useMemo(
    () =>
      Object.fromEntries(known.faults.flatMap(({ tub, words }) => (tub === undefined ? [] : [[tub, words]]))),
    [known.faults],
  );
  const tubsPart = useMemo(
    () => (
      <TubsPart
        tubs={tubs}
        faults={tubFaults}
        onChange={(list) => onState((before) => ({ ...before, tubs: list }))}
      />
    ),
    [tubs, tubFaults],
  );
  if (printing && read.interviewed) {
    return (
      <CustomerSheet
        known={known}
        interviewed={read.interviewed}
        call={call}
        units={units}
        onCall={(changed) => setCall(() => changed)}
        onBack={() => setPrinting(false)}
      />
    );
  }
  const bench = (): void => {
    const start = {
      tub: pick!.tub,
      tyre: pick!.height.limitingTyre,
      topHeight: found!.look?.setOut?.topHeight ?? pick!.height.topHeight,
      units,
    };
    onBench({ file: CALL_FILE, files: found!.files, start }, true);
  };
  return (
    <div class="asking">
      <header>
        <h1>Which tub, how high, how much gap?</h1>
        <div class="row tools">
          <button
            type="button"
            onClick={() =>
              onState((before) => ({
                ...before,
                call: { ...before.call, answers: wholeAnswers(before) },
                units: units === 'inch' ? 'mm' : 'inch',
              }))
            }
          >
            {units === 'inch' ? 'Show mm' : 'Show inches'}
          </button>
          <button type="button" disabled={demo === undefined} onClick={() => onBench(demo!, false)}>
            See the demo
          </button>
        </div>
      </header>
      {remark && (
        <p class="fault" role="alert">
          {remark}
        </p>
      )}
      <main>
        <div class="asked">{firstQuestions}</div>
        <div class="answered">
          {found && known.existing && (
            <ExistingPart judged={known.existing} subject={{ ...subjectOf(found.source), units }} />
          )}
          {read.interviewed === undefined && known.problem === undefined ? (
            <section class="answer call" aria-labelledby="call-answer">
              <h2 id="call-answer" class="quiet">
                Answer
              </h2>
              <p>
                Tyre, how it is built, and speed: then the answer stands here, and sharpens with each more.
              </p>
            </section>
          ) : (
            <AnswerPart known={known} units={units} />
          )}
          {read.interviewed?.doubts.map((doubt) => (
            <p class="fault" role="alert" key={`${doubt.code} ${doubt.tyre}`}>
              {doubtText(doubt)}
            </p>
          ))}
          {asked && (
            <section class="asked-next" aria-label="Ask next">
              <p>
                Ask next: <b>{asked.put.question.words}</b> The answer{' '}
                {unbroken(moveWords(asked.cost, units))}.
              </p>
              <button type="button" onClick={() => goToQuestion(asked.put.id)}>
                Answer it
              </button>
            </section>
          )}
          {pick && (
            <div class="row onward">
              <button type="button" class="strong" onClick={() => setPrinting(true)}>
                The caller’s sheet
              </button>
              <button type="button" onClick={bench}>
                Move the tub yourself
              </button>
            </div>
          )}
          <p class="caution">
            <b>Tyre contact at speed can kill.</b> The figures come from a model, and from a call much is
            assumed. The sanctioning body’s rules, the tyre maker’s limits and a qualified chassis builder
            come first. Measure the car before metal is cut.
          </p>
          {found !== undefined && <LearnedInUse source={found.source} typed={false} />}
          {read.interviewed && (
            <AssumedPart known={known} interviewed={read.interviewed} answers={call.answers} units={units} />
          )}
        </div>
        <div class="asked-more">
          <h2>What else is known</h2>
          {moreQuestions}
        </div>
        <div class="beneath">
          {tubsPart}
          <EntryPart units={units} tyres={NO_TYRES} tubs={tubs.rows.flatMap(([name]) => name || [])} />
          <h2>Save, open, pass on</h2>
          <CallFilesPart
            state={state}
            files={found?.files}
            onState={(opened) => onState(() => opened)}
            onBench={(carried) => onBench(carried, false)}
          />
        </div>
      </main>
    </div>
  );
}
