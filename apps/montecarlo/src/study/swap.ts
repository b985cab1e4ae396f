import { readCaseText, type Setting, swappedEntry } from '@tubgap/casefile';
import { StudyFault } from './fault.ts';

const ENTRY = /^tyres\[[^\]]+\]$/;

/** The settings in the order in which they are to be made: a tyre's whole entry first, then what is set within it. */
export const swapsFirst = (set: readonly Setting[]): Setting[] =>
  set.toSorted((one, other) => Number(ENTRY.test(other.path)) - Number(ENTRY.test(one.path)));

/** Whether a place of a case is the name of one of its tyres. */
export const isTyreName = (place: readonly (string | number)[]): boolean =>
  place.length === 3 && place[0] === 'tyres' && typeof place[1] === 'number' && place[2] === 'tyre';

/**
 * What puts another tyre of the catalogue into an entry of the case, and into the tyre's other classes: what is the car's of it stays, what was measured of the
 * tyre goes, and the build tyre goes along where it is that one. Nothing for the tyre that runs there already.
 * @throws StudyFault where measurements of the case's own tyres would be taken for the other's
 */
export function swapSettings(text: string, index: number, name: string, place: string): Setting[] {
  const read = readCaseText('case', text);
  if (!read.ok) return [];
  const raw = read.value.raw as Record<string, unknown>;
  if (raw.learned !== undefined) {
    throw new StudyFault([
      `${place}  the case has learned from measurements of its own tyres, which say nothing of another; take "learned" out of it to swap them.`,
    ]);
  }
  const tyres = raw.tyres as { tyre?: unknown }[];
  const same = [...tyres.keys()].filter((i) => tyres[i]!.tyre === tyres[index]?.tyre);
  const [first = index, ...again] = same;
  const { entry, build } = swappedEntry(raw, first, name);
  if (entry === undefined) return [];
  return [
    { path: `tyres[${first}]`, value: JSON.stringify(entry) },
    ...again.map((i): Setting => ({ path: `tyres[${i}].tyre`, value: name })),
    ...(build ? [{ path: 'build.tyre', value: name }] : []),
  ];
}
