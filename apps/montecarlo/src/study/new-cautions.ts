import type { Case } from '@tubgap/casefile';
import { type Caution, caseCautions, caseSetup } from '@tubgap/simulation';

/** A case beside the one as it stands, and what to call it. */
export interface Beside {
  label: string;
  source: Case;
}

/** Cautions that a single value can bring about; the others hold for the whole study and stand with the pick. */
const BROUGHT: readonly Caution['code'][] = [
  'standing-waves',
  'trap-speed',
  'front-wheels',
  'launch-grip',
  'power',
];

function cautionsOf(source: Case): Caution[] {
  try {
    return caseCautions(caseSetup(source)).filter(({ code }) => BROUGHT.includes(code));
  } catch (error) {
    // What the model does not know at all is told when it is run, with the setup's name.
    if (error instanceof RangeError) return [];
    throw error;
  }
}

/** What lies beyond the model in other setups but not in the case as it stands: once a kind, where it is met first. */
export function newCautions(base: Case, others: readonly Beside[]): string[] {
  const known = new Set(cautionsOf(base).map(({ code }) => code));
  const found = new Map<Caution['code'], { label: string; text: string; more: number }>();
  for (const { label, source } of others) {
    const codes = new Set<Caution['code']>();
    for (const { code, text } of cautionsOf(source)) {
      if (known.has(code) || codes.has(code)) continue;
      codes.add(code);
      const first = found.get(code);
      if (first === undefined) found.set(code, { label, text, more: 0 });
      else first.more++;
    }
  }
  return [...found.values()].map(
    ({ label, text, more }) => `${label}${more > 0 ? ` (and ${more} more)` : ''}: ${text}`,
  );
}
