import type { CaseSetup, RunTyre } from './setup.ts';

/** Something that a reader of the numbers must know, in one sentence or two. */
export interface Caution {
  code:
    | 'standing-waves'
    | 'launch-bulge'
    | 'front-wheels'
    | 'bounded-laws'
    | 'trap-speed'
    | 'notches'
    | 'launch-grip'
    | 'power'
    | 'no-static-gap';
  text: string;
}

/**
 * What a check has to say of the tyres one by one, each with the car of its class: the same sentence once, and whose
 * it is where it does not hold for all.
 */
export function byTyre(
  setup: CaseSetup,
  code: Caution['code'],
  check: (tyre: RunTyre, index: number) => string | undefined,
): Caution[] {
  const names = new Map<string, string[]>();
  setup.tyres.forEach((tyre, index) => {
    const text = check(tyre, index);
    if (text !== undefined) names.set(text, [...(names.get(text) ?? []), tyre.name]);
  });
  return Array.from(names, ([text, of]) => ({
    code,
    text: of.length === setup.tyres.length ? text : `${of.join(', ')}: ${text}`,
  }));
}
