import type { Mark } from '../carried/measures.ts';
import { markProblem } from './measured-tables.ts';
import type { Units } from './words.ts';

interface FieldProps {
  label: string;
  value: string;
  locked: boolean;
  numeric?: boolean;
  onType: (text: string) => void;
}

function Field({ label, value, locked, numeric = false, onType }: FieldProps) {
  return (
    <label>
      {label}
      <input
        type="text"
        inputMode={numeric ? 'numeric' : 'text'}
        value={value}
        readOnly={locked}
        onInput={({ currentTarget }) => onType(currentTarget.value)}
      />
    </label>
  );
}

interface ChoiceProps {
  label: string;
  value: boolean | undefined;
  words: { yes: string; no: string };
  locked: boolean;
  onChoose: (value: boolean | undefined) => void;
}

/** Yes or no, and nothing as long as nobody has said. */
function Choice({ label, value, words, locked, onChoose }: ChoiceProps) {
  return (
    <label>
      {label}
      <select
        value={value === undefined ? '' : value ? 'yes' : 'no'}
        disabled={locked}
        onChange={({ currentTarget: { value } }) => onChoose(value === '' ? undefined : value === 'yes')}
      >
        <option value="">say which</option>
        <option value="no">{words.no}</option>
        <option value="yes">{words.yes}</option>
      </select>
    </label>
  );
}

interface Props {
  marks: readonly Mark[];
  /** Names of the tyres that may have run. */
  tyres: readonly string[];
  units: Units;
  /** Whether nothing can be typed in now. */
  locked: boolean;
  onChange: (index: number, changes: Partial<Mark>) => void;
  onRemove: (index: number) => void;
}

/** Marks found after runs, or looked for and not found, a row each. */
export function MarkRows({ marks, tyres, units, locked, onChange, onRemove }: Props) {
  return (
    <>
      {marks.map((mark, i) => (
        <div class="mark row" key={i}>
          <label>
            after runs with
            <select
              value={mark.tyre}
              disabled={locked}
              onChange={({ currentTarget }) => onChange(i, { tyre: currentTarget.value })}
            >
              {tyres.map((name) => (
                <option key={name} value={name}>
                  {name}
                </option>
              ))}
            </select>
          </label>
          <Field
            label="angle, °"
            value={mark.angle}
            locked={locked}
            onType={(angle) => onChange(i, { angle })}
          />
          <Choice
            label="mark"
            value={mark.touched}
            words={{ yes: 'touched', no: 'not touched' }}
            locked={locked}
            onChoose={(touched) => onChange(i, { touched })}
          />
          <Choice
            label="chalk, tape or clay was stuck on that place"
            value={mark.witness}
            words={{ yes: 'yes', no: 'no' }}
            locked={locked}
            onChoose={(witness) => onChange(i, { witness })}
          />
          <Field
            label="in runs"
            value={mark.runs}
            locked={locked}
            numeric
            onType={(runs) => onChange(i, { runs })}
          />
          <Field
            label={`witness, ${units === 'inch' ? 'in' : 'mm'} thick`}
            value={mark.thickness}
            locked={locked}
            onType={(thickness) => onChange(i, { thickness })}
          />
          <button type="button" disabled={locked} onClick={() => onRemove(i)}>
            Remove
          </button>
          {markProblem(mark, units) !== undefined && (
            <p class="fault" role="status">
              {markProblem(mark, units)}
            </p>
          )}
        </div>
      ))}
    </>
  );
}
