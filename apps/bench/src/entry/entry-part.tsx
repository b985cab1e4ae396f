import {
  enteredHistory,
  enterLine,
  HISTORY_FILE,
  HISTORY_HEADS,
  type NewEntry,
  readHistory,
} from '@tubgap/evidence';
import { useEffect, useState } from 'preact/hooks';
import { keepText, keptText } from '../ask/kept.ts';
import { download } from '../page/download.ts';
import { OpenFiles } from '../page/open-files.tsx';
import type { Units } from '../page/words.ts';
import { EntryForm } from './entry-form.tsx';
import { addedRows, allEntered, type EntryState, entriesText, namesIn, readEntries } from './entry-state.ts';
import { MARK_STOP } from './entry-words.ts';

interface Props {
  units: Units;
  /** Names of the case, or of the shop, to choose from. */
  tyres: readonly string[];
  tubs: readonly string[];
  /** The car that the page is of; left out: any. */
  car?: string;
}

/** Stands for the book's folder in a command: the page does not know where it lies. */
const FOLDER = 'SHOP';
/** A history that was not opened is saved under a name that takes the place of none. */
const ROWS_FILE = 'history-rows.csv';

const isMark = ({ kind, words }: NewEntry): boolean => kind === 'runs' && words.mark === 'mark';

/** Entries of one car of the shop's book, typed at the car: rows for its history. */
export function EntryPart({ units, tyres, tubs, car = '' }: Props) {
  const place = `tubgap entries${car === '' ? '' : ` ${car}`}`;
  const [state, setState] = useState<EntryState>({ car, entries: [] });
  const [told, setTold] = useState<{ words: string; fault?: boolean }>({ words: '' });
  // After the first picture, which knows no browser's store.
  useEffect(() => {
    const kept = readEntries(keptText(place));
    if (kept !== undefined) setState(kept);
  }, []);
  const change = (next: EntryState): void => {
    setState(next);
    keepText(place, entriesText(next));
  };
  const add = (entry: NewEntry): readonly string[] => {
    const before = allEntered(state);
    const entered = 'text' in before ? enteredHistory(before.text, entry) : before;
    if ('lacking' in entered) {
      return [
        `the first line of this ${HISTORY_FILE} lacks ${entered.lacking.join(' and ')}: add these columns to it`,
      ];
    }
    if ('problems' in entered) return entered.problems;
    change({ ...state, entries: [...state.entries, entry] });
    setTold({ words: '' });
    return [];
  };
  const open = async ([file]: readonly File[]): Promise<void> => {
    const text = await file!.text();
    const { entries, rejected } = readHistory(text);
    const whole = rejected.find(({ line }) => line === 0);
    const entered = allEntered({ history: text, entries: state.entries });
    if (whole !== undefined || !('text' in entered)) {
      const why = whole?.reason ?? 'what was entered here does not go into it';
      setTold({ words: `This is no car’s history: ${why}.`, fault: true });
      return;
    }
    change({ ...state, history: text });
    const damaged = rejected.length === 0 ? '' : `; ${rejected.length} of its lines cannot be read`;
    setTold({ words: `${entries.length} entries read${damaged}.` });
  };
  const rows = addedRows(state);
  const entered = allEntered(state);
  const own = namesIn(state.history);
  const name = state.history === undefined ? ROWS_FILE : HISTORY_FILE;
  const lines = state.entries.flatMap((entry) => enterLine(FOLDER, state.car.trim() || 'CAR', entry) ?? []);
  const save = (): void => {
    if (!('text' in entered)) return;
    download(name, entered.text);
    setTold({
      words:
        state.history === undefined
          ? `Saved ${ROWS_FILE}. Copy its rows under those of ${HISTORY_FILE} in the car’s folder of the book where that has the same first line; where there is none yet, save it under that name.`
          : `Saved ${HISTORY_FILE}, the new rows in it. Put it in the place of the one in the car’s folder of the book.`,
    });
  };
  const copy = async (what: string, text: string): Promise<void> => {
    try {
      await navigator.clipboard.writeText(text);
      setTold({ words: `${what} copied.` });
    } catch {
      setTold({
        words: 'This browser lets nothing be copied: mark the text below and copy it by hand.',
        fault: true,
      });
    }
  };
  return (
    <details class="entries">
      <summary>
        An entry for the shop’s book{rows.length > 0 && ` (${rows.length} not handed over yet)`}
      </summary>
      <p class="note">
        Runs with or without a mark, gaps, tyres and tubs changed: rows for {HISTORY_FILE} in the car’s folder
        of the book. This page sends nothing anywhere.
      </p>
      <div class="question">
        <label for="entry-car">Which car?</label>
        <div class="typed">
          <input
            id="entry-car"
            type="text"
            autocomplete="off"
            autocapitalize="off"
            spellcheck={false}
            placeholder="its name in the book"
            value={state.car}
            onInput={(event) => change({ ...state, car: event.currentTarget.value })}
          />
        </div>
      </div>
      <div class="row">
        <OpenFiles words="Open its history…" label="Open a car’s history" accept=".csv" onFiles={open} />
        {state.history !== undefined && (
          <button type="button" onClick={() => change({ ...state, history: undefined })}>
            Without that file
          </button>
        )}
      </div>
      <EntryForm
        units={units}
        names={{
          tyres: [...new Set([...tyres, ...own.tyres])],
          tubs: [...new Set([...tubs, ...own.tubs])],
        }}
        onAdd={add}
      />
      {rows.length > 0 && (
        <section class="entered" aria-label="Rows to hand over">
          <h3>To be handed over</h3>
          {state.entries.some(isMark) && (
            <p class="fault" role="alert">
              <b>A mark was found. {MARK_STOP}</b>
            </p>
          )}
          {state.history === undefined && (
            <p class="note">
              In the columns that the program writes, inches and mph. Where the car’s history has others, open
              it here first.
            </p>
          )}
          <pre>{[...(state.history === undefined ? [HISTORY_HEADS.join(',')] : []), ...rows].join('\n')}</pre>
          <div class="row">
            <button type="button" class="strong" onClick={save}>
              Save {name}
            </button>
            <button
              type="button"
              onClick={() => void copy(rows.length > 1 ? 'The rows are' : 'The row is', rows.join('\n'))}
            >
              Copy {rows.length > 1 ? 'the rows' : 'the row'}
            </button>
            <button type="button" onClick={() => change({ ...state, entries: state.entries.slice(0, -1) })}>
              Take off the last
            </button>
            <button type="button" onClick={() => change({ ...state, history: undefined, entries: [] })}>
              All handed over
            </button>
          </div>
          {lines.length === rows.length && (
            <>
              <p class="note">
                Or, at the shop’s computer, the book’s folder in the place of {FOLDER}
                {state.car.trim() === '' ? ', the car’s name in the place of CAR' : ''}:
              </p>
              <pre>{lines.join('\n')}</pre>
              <button type="button" onClick={() => void copy('The command is', lines.join('\n'))}>
                Copy the command
              </button>
            </>
          )}
        </section>
      )}
      <p role={told.fault ? 'alert' : 'status'} class={told.fault ? 'fault' : undefined}>
        {told.words}
      </p>
    </details>
  );
}
