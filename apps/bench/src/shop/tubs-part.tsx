import { INVENTED_TUBS, TUBS_FILE } from '@tubgap/interview';
import { useState } from 'preact/hooks';
import { download } from '../page/download.ts';
import { OpenFiles } from '../page/open-files.tsx';
import {
  inStock,
  isInvented,
  readTubs,
  type ShopTubs,
  type ShownColumn,
  STOCK,
  shownColumns,
  tubsText,
  withCell,
  withoutRow,
  withRow,
} from './shop-tubs.ts';

interface Props {
  tubs: ShopTubs;
  /** What the case reader says of the list, by the number of its row. */
  faults: Readonly<Record<number, string>>;
  onChange: (tubs: ShopTubs) => void;
}

interface CellProps {
  tubs: ShopTubs;
  row: number;
  column: ShownColumn;
  onChange: Props['onChange'];
}

/** One value of a tub: its label stands beside it where a row becomes a card. */
function TubCell({ tubs, row, column: { index, label, unit }, onChange }: CellProps) {
  const cells = tubs.rows[row]!;
  const name = `${label} of ${cells[0] || `tub ${row + 1}`}`;
  if (tubs.heads[index] === STOCK) {
    return (
      <label class="stock">
        <input
          type="checkbox"
          class="stock-box"
          checked={inStock(tubs, cells)}
          aria-label={name}
          onChange={(event) =>
            onChange(withCell(tubs, row, index, event.currentTarget.checked ? 'yes' : 'no'))
          }
        />
        <span class="cell-label">{label}</span>
      </label>
    );
  }
  return (
    <label>
      <span class="cell-label">
        {label}
        {unit && `, ${unit}`}
      </span>
      <input
        type="text"
        inputMode={index === 0 ? 'text' : 'decimal'}
        autocomplete="off"
        aria-label={unit ? `${name}, ${unit}` : name}
        value={cells[index]}
        onChange={(event) => onChange(withCell(tubs, row, index, event.currentTarget.value.trim()))}
      />
    </label>
  );
}

/** The shop's own list of tubs, to be written, saved and opened. */
export function TubsPart({ tubs, faults, onChange }: Props) {
  const [told, setTold] = useState('');
  const columns = shownColumns(tubs);
  const open = async ([file]: readonly File[]): Promise<void> => {
    const text = await file!.text();
    const read = readTubs(text);
    if (read !== undefined) onChange(read);
    setTold(
      read === undefined
        ? 'This is no list of tubs: its first column must be “tub”, then one row a tub.'
        : `${read.rows.length} tubs read.`,
    );
  };
  return (
    <details class="shop">
      <summary>
        The shop’s tubs{isInvented(tubs) ? ': an invented ladder, write your own' : ` (${tubs.rows.length})`}
      </summary>
      <p class="note">
        The smallest of these that fits is the answer. One that is not in stock is named only where none in
        stock fits. This browser keeps the list.
      </p>
      <div class="tubs">
        {tubs.rows.map((cells, row) => (
          <fieldset class="tub" key={row} aria-label={cells[0] || `tub ${row + 1}`}>
            {columns.map((column) => (
              <TubCell key={column.index} tubs={tubs} row={row} column={column} onChange={onChange} />
            ))}
            <button
              type="button"
              aria-label={`Take ${cells[0] || `tub ${row + 1}`} off the list`}
              disabled={tubs.rows.length === 1}
              onClick={() => onChange(withoutRow(tubs, row))}
            >
              Take off
            </button>
            {faults[row] !== undefined && (
              <p class="fault" role="alert">
                {faults[row]}
              </p>
            )}
          </fieldset>
        ))}
      </div>
      <div class="row">
        <button type="button" onClick={() => onChange(withRow(tubs))}>
          One more tub
        </button>
        <button type="button" onClick={() => download(TUBS_FILE, tubsText(tubs))}>
          Save the list
        </button>
        <OpenFiles words="Open a list…" label="Open a list of tubs" accept=".csv" onFiles={open} />
        {!isInvented(tubs) && (
          <button type="button" onClick={() => onChange(INVENTED_TUBS)}>
            Back to the invented ladder
          </button>
        )}
      </div>
      <p role="status">{told}</p>
    </details>
  );
}
