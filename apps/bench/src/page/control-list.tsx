import { useEffect, useState } from 'preact/hooks';
import { type Control, shownValue, stepped, writtenValue } from './controls.ts';
import type { Units } from './words.ts';

interface Props {
  controls: readonly Control[];
  units: Units;
  /** What the case says, by control. */
  before: Readonly<Record<string, string>>;
  changed: ReadonlySet<string>;
  /** Why the last value typed into a control was not taken. */
  faults: Readonly<Record<string, string>>;
  /** A new value as a setting; undefined: back to the case's. */
  onSet: (control: Control, value: string | undefined) => void;
}

interface FieldProps extends Omit<Props, 'controls' | 'before' | 'changed' | 'faults'> {
  control: Control;
  before: string | undefined;
  changed: boolean;
  fault: string | undefined;
}

/** A number with a button on either side, large enough for a gloved thumb. */
function Field({ control, units, before, changed, fault, onSet }: FieldProps) {
  const shown = shownValue(control, units);
  const [typed, setTyped] = useState(shown);
  useEffect(() => setTyped(shown), [shown, units]);
  const { name } = control.units[units];
  const take = (text: string): void => {
    if (text === shown) return;
    onSet(control, writtenValue(control, text, units));
  };
  const step = (by: 1 | -1): void =>
    onSet(control, writtenValue(control, stepped(control, units, by), units));
  const id = `set-${control.id}`;
  const { learned = false } = control;
  const describedBy = fault === undefined ? (learned ? `${id}-learned` : undefined) : `${id}-fault`;
  return (
    <div class={`field${changed ? ' changed' : ''}`}>
      <label for={id}>
        {control.label}
        {control.note && <span class="note"> {control.note}</span>}
      </label>
      <div class="stepper">
        <button
          type="button"
          disabled={learned}
          onClick={() => step(-1)}
          aria-label={`${control.label}: less`}
        >
          −
        </button>
        <span class="value">
          <input
            id={id}
            type="text"
            inputMode="decimal"
            autocomplete="off"
            value={typed}
            readOnly={learned}
            aria-invalid={fault !== undefined}
            aria-describedby={describedBy}
            onInput={(event) => setTyped(event.currentTarget.value)}
            onBlur={() => take(typed)}
            onKeyDown={(event) => {
              if (learned) return;
              if (event.key === 'Enter') take(typed);
              if (event.key === 'ArrowUp' || event.key === 'ArrowDown') {
                event.preventDefault();
                step(event.key === 'ArrowUp' ? 1 : -1);
              }
            }}
          />
          <span class="unit">{name}</span>
        </span>
        <button
          type="button"
          disabled={learned}
          onClick={() => step(1)}
          aria-label={`${control.label}: more`}
        >
          +
        </button>
      </div>
      {changed && !learned && (
        <button type="button" class="back" onClick={() => onSet(control, undefined)}>
          back to {before ?? 'the case'}
        </button>
      )}
      {learned && (
        <p class="note" id={`${id}-learned`}>
          Learned from measures of this car: it cannot be set by hand as well.
        </p>
      )}
      {fault !== undefined && (
        <p class="fault" id={`${id}-fault`} role="alert">
          {fault}
        </p>
      )}
    </div>
  );
}

/** All inputs that can be changed. */
export function ControlList({ controls, units, before, changed, faults, onSet }: Props) {
  return (
    <div class="fields">
      {controls.map((control) => (
        <Field
          key={control.path}
          control={control}
          units={units}
          before={before[control.id]}
          changed={changed.has(control.path)}
          fault={faults[control.id]}
          onSet={onSet}
        />
      ))}
    </div>
  );
}
