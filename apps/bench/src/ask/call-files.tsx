import { bookWords, isShopPriors, readShopPriors } from '@tubgap/casefile';
import { CALL_FILE, type CallFiles, TUBS_FILE } from '@tubgap/interview';
import { useState } from 'preact/hooks';
import { callIn, withCall } from '../carried/call-remark.ts';
import type { Carried } from '../carried/carried.ts';
import { download } from '../page/download.ts';
import { carriedFrom } from '../page/files-part.tsx';
import { OpenFiles } from '../page/open-files.tsx';
import { readTubs } from '../shop/shop-tubs.ts';
import { type AskState, callText, NO_CALL, readCall, wholeAnswers } from './ask-state.ts';

interface Props {
  state: AskState;
  /** The case as it was found; undefined as long as there is none. */
  files: CallFiles | undefined;
  onState: (state: AskState) => void;
  onBench: (carried: Carried) => void;
}

/** Saving, opening and passing on what was asked; a case that came from no call is opened where the tub is moved. */
export function CallFilesPart({ state, files, onState, onBench }: Props) {
  const [told, setTold] = useState<{ words: string[]; fault: boolean }>({ words: [], fault: false });
  const say = (words: string[], fault = false): void => setTold({ words, fault });
  const save = (): void => {
    for (const [name, text] of Object.entries(files!))
      download(
        name,
        name === CALL_FILE ? withCall(text, callText({ ...state.call, answers: wholeAnswers(state) })) : text,
      );
    say([
      `Saved: ${Object.keys(files!).join(', ')}. Keep them in one folder; tubgap pick ${CALL_FILE} finds the same.`,
    ]);
  };
  const open = async (chosen: readonly File[]): Promise<void> => {
    const texts = await Promise.all(chosen.map(async (one) => [one.name, await one.text()] as const));
    const calls = texts.map(([, text]) => readCall(callIn(text) ?? '')).filter((call) => call !== undefined);
    const priors = texts.find(([, text]) => isShopPriors(text))?.[1];
    if (priors !== undefined && chosen.length === 1) {
      const book = readShopPriors(priors);
      if ('problem' in book) say([`${chosen[0]!.name}: ${book.problem}.`], true);
      else {
        onState({ ...state, book: priors });
        say([`From the shop’s book ${book.book}: ${bookWords(book.from)}. The answer starts from it.`]);
      }
      return;
    }
    const tubs = readTubs(texts.find(([name]) => name === TUBS_FILE)?.[1] ?? '');
    if (calls.length === 1) {
      onState({ ...state, call: calls[0]!, tubs: tubs ?? state.tubs, book: priors ?? state.book });
      say(['Opened.']);
      return;
    }
    const opened = await carriedFrom(chosen, { files: files ?? {} });
    if ('issues' in opened) say(opened.issues, true);
    else onBench(opened.carried);
  };
  const copy = async (): Promise<void> => {
    try {
      await navigator.clipboard.writeText(location.href);
      say(['The link is copied: it holds all that was typed. Whoever gets it needs this page too.']);
    } catch {
      say(['Copy the address of this page by hand: it holds all that was typed.'], true);
    }
  };
  return (
    <div class="files">
      <div class="row">
        <button type="button" disabled={files === undefined} onClick={save}>
          Save the case
        </button>
        <OpenFiles
          words="Open a case or the shop’s priors…"
          label="Open a case file"
          accept=".yaml,.yml,.csv"
          several
          onFiles={open}
        />
        <button type="button" onClick={() => void copy()}>
          Copy link
        </button>
        <button type="button" onClick={() => onState({ ...state, call: NO_CALL })}>
          Next caller
        </button>
        {state.book !== undefined && (
          <button type="button" onClick={() => onState({ ...state, book: undefined })}>
            Without the shop’s priors
          </button>
        )}
      </div>
      <div role={told.fault ? 'alert' : 'status'} class={told.fault ? 'fault' : undefined}>
        {told.words.map((words) => (
          <p key={words}>{words}</p>
        ))}
      </div>
    </div>
  );
}
