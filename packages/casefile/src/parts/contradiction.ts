import type { Issue, Problem } from '../issue.ts';
import type { Fault } from '../schema-issue.ts';
import type { Path } from '../text/node-place.ts';
import { givenLaw } from './input.ts';

/** A fault that no single field shows: it takes two of them, or a catalogue. */
export interface Contradiction extends Fault {
  severity: Issue['severity'];
}

/** A contradiction at a place of the case, an error. */
export function contradiction(
  path: Path,
  reason: string,
  hint?: string,
  code: Problem['code'] = 'contradiction',
): Contradiction {
  const problem = { code, reason, ...(hint === undefined ? {} : { hint }) };
  return { path, at: 'value', severity: 'error', problem };
}

/**
 * A warning where a single value stands for what changes from run to run: the risk comes out too small, or too sure.
 * 0 means that the thing is absent.
 * @param from  the group that holds the field
 * @param field  under it: 'coldPressure', 'run.bump'
 */
export function takenAsExact(path: Path, from: unknown, field: string): Contradiction[] {
  const read = givenLaw(from, field);
  const isExact = read?.bare && read.law.kind === 'constant' && read.law.value !== 0;
  if (!isExact) return [];
  const reason = 'it is taken as exactly this in every run';
  const hint = 'Give a law with each: run, or { law: constant, value: …, each: run } if that is meant';
  return [{ ...contradiction(path, reason, hint, 'taken-as-exact'), severity: 'warning' }];
}
