import type { EntryField, EntryKind, FieldProblem } from '@tubgap/evidence';
import type { Units } from '../page/words.ts';
import { fieldExample, fieldLabel, fieldNote, fieldUnit, problemWords } from './entry-words.ts';

interface Props {
  kind: EntryKind;
  field: EntryField;
  value: string;
  units: Units;
  /** Whether a mark is told in the same entry. */
  mark: boolean;
  /** Names to choose from. */
  names: readonly string[];
  problem: FieldProblem | undefined;
  onType: (text: string) => void;
}

const MARKS = [
  ['none', 'no mark'],
  ['mark', 'a mark'],
] as const;

/** Mark or none, and neither as long as nobody has said. */
function Marks({ value, onType }: Pick<Props, 'value' | 'onType'>) {
  return (
    <div class="choices">
      {MARKS.map(([told, words]) => (
        <label key={told} class="choice">
          <input type="radio" name="entry-mark" checked={value === told} onChange={() => onType(told)} />
          <span>{words}</span>
        </label>
      ))}
    </div>
  );
}

/** One field of an entry: its words, and under it what is wrong. */
export function EntryFieldPart(props: Props) {
  const { kind, field, value, units, mark, names, problem, onType } = props;
  const own = `entry-${field}`;
  const unit = fieldUnit(field, units);
  const label = `${fieldLabel(kind, field, mark)}${unit === '' ? '' : ` (${unit})`}`;
  const note = fieldNote(kind, field);
  const under = (
    <>
      {note && <p class="note">{note}</p>}
      {problem && (
        <p class="fault" id={`${own}-fault`} role="status">
          {problemWords(field, problem, units)}
        </p>
      )}
    </>
  );
  if (field === 'mark') {
    return (
      <fieldset class="question">
        <legend>{label}</legend>
        <Marks {...props} />
        {under}
      </fieldset>
    );
  }
  const isNumber = unit !== '' || field === 'runs';
  return (
    <div class="question">
      <label for={own}>{label}</label>
      <div class="typed">
        <input
          id={own}
          type="text"
          inputMode={field === 'runs' ? 'numeric' : 'text'}
          autocomplete="off"
          autocapitalize="off"
          spellcheck={!isNumber && field === 'note'}
          list={names.length > 0 ? `${own}-names` : undefined}
          placeholder={fieldExample(field, units)}
          value={value}
          aria-invalid={problem !== undefined}
          aria-describedby={problem === undefined ? undefined : `${own}-fault`}
          onInput={(event) => onType(event.currentTarget.value)}
        />
        {names.length > 0 && (
          <datalist id={`${own}-names`}>
            {names.map((name) => (
              <option key={name} value={name} />
            ))}
          </datalist>
        )}
      </div>
      {under}
    </div>
  );
}
