import type { Mark } from '../carried/measures.ts';
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
          <label>
            mark
            <select
              value={mark.touched ? 'yes' : 'no'}
              disabled={locked}
              onChange={({ currentTarget }) => onChange(i, { touched: currentTarget.value === 'yes' })}
            >
              <option value="no">not touched</option>
              <option value="yes">touched</option>
            </select>
          </label>
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
        </div>
      ))}
    </>
  );
}
