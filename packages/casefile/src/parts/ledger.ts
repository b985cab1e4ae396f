import type { AssumedValue, UncertainInput } from '../case.ts';
import { exactField } from '../defaults/field-spec.ts';
import { isTablePath } from '../defaults/table-path.ts';
import type { InputSpec } from '../defaults.ts';
import { type Issue, issueAt, type Problem } from '../issue.ts';
import type { ReadLaw } from '../law.ts';
import { didYouMean } from '../nearest-name.ts';
import { type Path, pathText } from '../text/node-place.ts';
import type { Move } from '../text/setting.ts';
import { exactDefault, inputOf, type Words } from './input.ts';
import { movedLaw } from './moved-law.ts';

/** Where an input comes from. */
export interface Origin {
  /** Its place in the case, whether it is given there or not. */
  place: Path;
  source: UncertainInput['source'];
  basis: string;
}

/** Where the numbers of a case come from: every part of it is read with the same ledger. */
export interface Ledger {
  /** Says where a value stands: 'case.yaml:14' for a path of the case. */
  basis(path: Path): string;
  /** An input of the case, its law moved where a command line asks for it. */
  input(row: Words, spec: InputSpec, read: ReadLaw, origin: Origin): UncertainInput;
  /** A law that becomes an input by a factor, moved where a command line asks for it. */
  law(place: Path, spec: InputSpec, read: ReadLaw): ReadLaw;
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
  /** Moves that could not be made, once every input is read. */
  moveFaults(): Issue[];
}

/** Why there was nothing to move at a place, given the places of all laws. */
function nothingToMove(path: Path, laws: Iterable<string>): Problem {
  const hint = isTablePath(path)
    ? 'Leave out the ~ to set the value itself'
    : didYouMean(pathText(path), [...laws]);
  const reason = 'no law stands or is assumed here that ~ could move';
  return { code: 'law', reason, ...(hint === undefined ? {} : { hint }) };
}

/** A ledger with nothing in it. */
export function openLedger(basis: Ledger['basis'], moves: readonly Move[]): Ledger {
  const assumed = new Map<string, AssumedValue>();
  const note = (value: AssumedValue) => {
    assumed.set(value.path, value);
  };
  const faults: Issue[] = [];
  const lawPlaces = new Set<string>();

  const moved = (place: Path, spec: InputSpec, read: ReadLaw): { read: ReadLaw; move?: Move } => {
    lawPlaces.add(pathText(place));
    const move = moves.find(({ path }) => pathText(path) === pathText(place));
    if (move === undefined) return { read };
    const result = movedLaw(read, spec, move.middle);
    if ('law' in result) return { read: result, move };
    faults.push(issueAt(move.place, result));
    return { read };
  };

  return {
    basis,
    input(row, spec, read, { place, ...from }) {
      const { read: law, move } = moved(place, spec, read);
      const path = pathText(place);
      if (move === undefined) return inputOf(row, spec, law, { path, ...from });
      const its = from.basis.replace('prior: ', '');
      const told = `${move.place.file} ${move.place.path}; law: ${its}`;
      return inputOf(row, spec, law, { path, source: 'case', basis: told });
    },
    law: (place, spec, read) => moved(place, spec, read).read,
    note,
    assume(row, path = [row]) {
      const { label, value, basis: from = '' } = exactField(row);
      note({ path: pathText(path), label, shown: String(value), basis: from });
      return exactDefault(row);
    },
    assumed: () => [...assumed.values()],
    moveFaults() {
      const lost = moves.filter(({ path }) => !lawPlaces.has(pathText(path)));
      const problem = ({ path }: Move) => nothingToMove(path, lawPlaces);
      return [...faults, ...lost.map((move) => issueAt(move.place, problem(move)))];
    },
  };
}
