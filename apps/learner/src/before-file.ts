import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { openSealed, sealedText } from '@tubgap/results';
import type { AssessAsked, JudgedCase } from './assessed-case.ts';

/** Name of the file that keeps how a case stood before anything was learned. */
export const BEFORE_FILE = 'before.json';

/** How a case stood, and of what that speaks. */
interface Kept {
  format: 'tubgap before';
  /** Digest of case with seed, draws and cars, of the tub in the car, and of the build. */
  key: string;
  before: JudgedCase;
}

/** Digest of all that an assessment depends on: where it is the same, so is every figure. @param madeBy  with its build */
export const assessmentKey = ({ source, built }: AssessAsked, madeBy: string): string =>
  createHash('sha256')
    .update(JSON.stringify([madeBy, source, built ?? null]))
    .digest('hex');

/** The text of the file. JSON keeps every figure to the last bit. */
export const beforeText = (key: string, before: JudgedCase): string =>
  sealedText({ format: 'tubgap before', key, before } satisfies Kept);

/** What a results folder keeps of just this assessment; undefined where it keeps none, another, or a damaged one. */
export function readBefore(place: string, key: string): JudgedCase | undefined {
  let opened: ReturnType<typeof openSealed>;
  try {
    opened = openSealed(readFileSync(join(place, BEFORE_FILE), 'utf8'));
  } catch {
    return undefined;
  }
  if ('fault' in opened) return undefined;
  // The seal says that this program wrote it, and the key that this very build did: its shape needs no other check.
  const kept = opened.value as Kept;
  return kept.format === 'tubgap before' && kept.key === key ? kept.before : undefined;
}
