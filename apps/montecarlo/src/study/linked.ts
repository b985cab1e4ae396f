import { placeIn, readCaseText } from '@tubgap/casefile';
import { StudyFault } from './fault.ts';

/** Stands in brackets for every entry of a list: 'tyres[*].coldPressure'. */
const EVERY = '[*]';

/** The entries of a list at its commas, but not at those inside of braces or brackets. */
export function listed(text: string): string[] {
  const entries = [''];
  let depth = 0;
  for (const letter of text) {
    if (letter === '{' || letter === '[') depth++;
    if (letter === '}' || letter === ']') depth--;
    if (letter === ',' && depth === 0) entries.push('');
    else entries[entries.length - 1] += letter;
  }
  return entries.map((entry) => entry.trim());
}

/** What stands at a path of a case's plain values; undefined where nothing does. */
function standingAt(raw: unknown, path: string): unknown {
  const place = placeIn(raw, path);
  if ('reason' in place) return undefined;
  return place.reduce<unknown>(
    (here, part) =>
      typeof here === 'object' && here !== null && Object.hasOwn(here, part)
        ? (here as Record<string | number, unknown>)[part]
        : undefined,
    raw,
  );
}

type Entry = Readonly<Record<string, unknown>>;

/** What an entry of a tyre says of its class, whether it stands there or not. */
const OF_ITS_CLASS = ['class', 'runsPerSeason'];

/** Whether an entry of the tyres takes a field from where its tyre stands in the list first, and goes along with that. */
function goesAlong(tyres: readonly Entry[], index: number, rest: string): boolean {
  const own = tyres[index]!;
  const field = /^\.([^.[]+)/.exec(rest)?.[1] ?? '';
  const isAgain = tyres.findIndex(({ tyre }) => tyre === own.tyre) < index;
  return isAgain && !OF_ITS_CLASS.includes(field) && (field === 'tyre' || own[field] === undefined);
}

/**
 * The single places that one entry of a sweep moves together: a path alone, several at commas, and every entry of a list
 * for one with [*] in it. A tyre's second class goes along with its first.
 * @param text  of the case file
 * @throws StudyFault when what stands in front of [*] is no list
 */
export function linkedPaths(text: string, path: string, place: string): string[] {
  const read = readCaseText('case', text);
  const raw = read.ok ? read.value.raw : undefined;
  const spread = (one: string): string[] => {
    const at = one.indexOf(EVERY);
    if (at < 0) return [one];
    const list = standingAt(raw, one.slice(0, at));
    if (Array.isArray(list) && list.length > 0) {
      return [...list.keys()]
        .filter(
          (i) => one.slice(0, at) !== 'tyres' || !goesAlong(list as Entry[], i, one.slice(at + EVERY.length)),
        )
        .flatMap((i) => spread(`${one.slice(0, at)}[${i}]${one.slice(at + EVERY.length)}`));
    }
    throw new StudyFault([
      `${place}  ${one.slice(0, at)} is no list in the case file, so [*] means nothing.`,
    ]);
  };
  return listed(path).flatMap(spread);
}
