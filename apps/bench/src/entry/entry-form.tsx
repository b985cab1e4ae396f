import {
  ENTRY_FIELDS,
  type EntryField,
  type EntryKind,
  type EntryProblems,
  type NewEntry,
  typedEntry,
} from '@tubgap/evidence';
import { useState } from 'preact/hooks';
import type { Units } from '../page/words.ts';
import { EntryFieldPart } from './entry-field.tsx';
import { KIND_WORDS, MARK_STOP, problemWords } from './entry-words.ts';

interface Props {
  units: Units;
  names: { tyres: readonly string[]; tubs: readonly string[] };
  /** Takes an entry, or says why it cannot be. */
  onAdd: (entry: NewEntry) => readonly string[];
}

/** What was typed of one entry that is not added yet. */
type Fields = Partial<Record<EntryField, string>>;

/** Left in the fields for the next entry of the same day. */
const STAYS: readonly EntryField[] = ['tyre', 'tub'];

/** One entry as somebody at the car tells it; nothing is called wrong before it is to be added, or cannot be read. */
export function EntryForm({ units, names, onAdd }: Props) {
  const [kind, setKind] = useState<EntryKind>('runs');
  const [date, setDate] = useState('');
  const [fields, setFields] = useState<Fields>({});
  const [tried, setTried] = useState(false);
  const [refused, setRefused] = useState<readonly string[]>([]);
  const read = typedEntry({ date, kind, fields }, units);
  const problems: EntryProblems = 'problems' in read ? read.problems : {};
  const isMarked = kind === 'runs' && fields.mark === 'mark';
  const shown = (field: EntryField | 'date') => {
    const problem = problems[field];
    return problem?.code === 'missing' && !tried ? undefined : problem;
  };
  const type = (field: EntryField, text: string): void => {
    setFields((before) => ({ ...before, [field]: text }));
    setRefused([]);
  };
  const add = (): void => {
    if ('problems' in read) {
      setTried(true);
      return;
    }
    const why = onAdd(read.entry);
    setRefused(why);
    if (why.length > 0) return;
    setTried(false);
    setFields(Object.fromEntries(STAYS.flatMap((field) => (fields[field] ? [[field, fields[field]]] : []))));
  };
  const namesOf = (field: EntryField): readonly string[] =>
    field === 'tyre' ? names.tyres : field === 'tub' ? names.tubs : [];
  const wrongDay = shown('date');
  return (
    <div class="entry-form">
      <fieldset class="question">
        <legend>What happened?</legend>
        <div class="choices">
          {KIND_WORDS.map(([value, words]) => (
            <label key={value} class="choice">
              <input
                type="radio"
                name="entry-kind"
                checked={kind === value}
                onChange={() => {
                  setKind(value);
                  setTried(false);
                  setRefused([]);
                }}
              />
              <span>{words}</span>
            </label>
          ))}
        </div>
      </fieldset>
      <div class="question">
        <label for="entry-date">On which day?</label>
        <div class="typed">
          <input
            id="entry-date"
            type="date"
            value={date}
            aria-invalid={wrongDay !== undefined}
            onInput={(event) => setDate(event.currentTarget.value)}
          />
        </div>
        {wrongDay && (
          <p class="fault" role="status">
            {problemWords('date', wrongDay, units)}
          </p>
        )}
      </div>
      {ENTRY_FIELDS[kind].map((field) => (
        <EntryFieldPart
          key={field}
          kind={kind}
          field={field}
          value={fields[field] ?? ''}
          units={units}
          mark={isMarked}
          names={namesOf(field)}
          problem={shown(field)}
          onType={(text) => type(field, text)}
        />
      ))}
      {isMarked && (
        <p class="fault" role="alert">
          <b>{MARK_STOP}</b>
        </p>
      )}
      <button type="button" class="strong" onClick={add}>
        Add this entry
      </button>
      {tried && Object.keys(problems).length > 0 && (
        <p class="fault" role="alert">
          Not added yet: see what is said above.
        </p>
      )}
      {refused.map((why) => (
        <p class="fault" role="alert" key={why}>
          Not added: {why}.
        </p>
      ))}
    </div>
  );
}
