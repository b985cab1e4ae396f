import type { AssumedValue } from '../case.ts';
import { exactField } from '../defaults.ts';
import { type Path, pathText } from '../text/node-place.ts';
import { exactDefault } from './input.ts';

/** Where the numbers of a case come from: every part of it is read with the same ledger. */
export interface Ledger {
  /** Says where a value stands: 'case.yaml:14' for a path of the case. */
  basis(path: Path): string;
  /**
   * Default of an exact number, SI, which is noted as assumed.
   * @param row  path in the table of defaults
   * @param path  place in the case where it is left out, when that is another: 'tyres[0].rim.flange'
   */
  assume(row: string, path?: Path): number;
  /** Notes something else that is assumed. */
  note(assumed: AssumedValue): void;
  /** What was assumed so far, each place once, in the order of need. */
  assumed(): AssumedValue[];
}

/** A ledger with nothing in it. */
export function openLedger(basis: Ledger['basis']): Ledger {
  const assumed = new Map<string, AssumedValue>();
  const note = (value: AssumedValue) => {
    assumed.set(value.path, value);
  };
  return {
    basis,
    note,
    assume(row, path = [row]) {
      const { label, value, basis: from = '' } = exactField(row);
      note({ path: pathText(path), label, shown: String(value), basis: from });
      return exactDefault(row);
    },
    assumed: () => [...assumed.values()],
  };
}
