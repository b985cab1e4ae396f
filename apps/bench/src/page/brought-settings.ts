import { labelAt, placeIn, readCaseText } from '@tubgap/casefile';
import { wholeDegrees } from '@tubgap/units';
import type { Carried } from '../carried/carried.ts';
import type { BenchState } from './bench-state.ts';
import { controlsOf } from './controls.ts';
import type { ReadCase } from './use-bench.ts';
import { lengthText } from './words.ts';

/** A value that stands otherwise than in the case that the page was made with. */
export interface Brought {
  /** As messages write it: 'tyres[0].growthScale'. */
  path: string;
  /** 'growth scale of tall-slick' */
  label: string;
  value: string;
  before: string;
  /** Whether a control of the page shows it, for the tub and tyre in hand. */
  shown: boolean;
}

type Path = readonly (string | number)[];
type Changed = { path: Path; value: string; before: string };

/** Longest value that is told whole. */
const LONGEST = 80;
/** Changed values that are found at most. */
const MOST = 200;

const pathText = (path: Path): string =>
  path.map((part, i) => (typeof part === 'number' ? `[${part}]` : i === 0 ? part : `.${part}`)).join('');

function valueText(value: unknown): string {
  if (value === undefined) return 'left out';
  const text = typeof value === 'string' ? value : (JSON.stringify(value) ?? String(value));
  return text.length > LONGEST ? `${text.slice(0, LONGEST)}…` : text;
}

const isGroup = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null;

/** What stands otherwise in one file's plain values than in another's. */
function changesIn(before: unknown, after: unknown, path: Path, found: Changed[]): Changed[] {
  if (found.length >= MOST || JSON.stringify(before) === JSON.stringify(after)) return found;
  if (isGroup(before) && isGroup(after) && Array.isArray(before) === Array.isArray(after)) {
    for (const key of new Set([...Object.keys(before), ...Object.keys(after)])) {
      changesIn(before[key], after[key], [...path, Array.isArray(after) ? Number(key) : key], found);
    }
    return found;
  }
  found.push({ path, value: valueText(after), before: valueText(before) });
  return found;
}

function rawOf({ file, files }: Carried): unknown {
  const read = readCaseText(file, files[file] ?? '');
  return read.ok ? read.value.raw : undefined;
}

const nameOf = (raw: unknown): unknown => (isGroup(raw) ? raw.name : undefined);

/** What a case that was opened says otherwise than the one the page was made with; none where it is another car's. */
function ofFile(first: Carried, carried: Carried): Changed[] {
  if (first === carried) return [];
  const [before, after] = [rawOf(first), rawOf(carried)];
  if (nameOf(before) !== nameOf(after)) return [];
  const tables = Object.keys(carried.files).flatMap((file): Changed[] =>
    file === carried.file || carried.files[file] === first.files[file]
      ? []
      : [{ path: [file], value: 'other rows', before: 'as the page was made' }],
  );
  return [...changesIn(before, after, [], []), ...tables];
}

/** Fields of a law that say where its middle lies. */
const MIDDLES = ['mean', 'median', 'value'];
/** Where values stand that the page shows by itself: the tub's place, its title, how much is counted. */
const SEEN = new Set(['heights', 'tubCentreForward', 'title']);

/**
 * Every value that a link, a saved case or a hand on the page has set otherwise than the case that the page was made with,
 * in the words of the file, and whether a control shows it.
 * @param first  that the page was made with
 */
export function broughtSettings(
  first: Carried,
  carried: Carried,
  state: BenchState,
  now: ReadCase,
): Brought[] {
  const raw = rawOf(carried);
  const { source, tyre, tub } = now;
  const controls = controlsOf(source, raw, tyre);
  // A field shows the middle of a law and nothing of its spread.
  const isShown = (text: string, value: string): boolean =>
    SEEN.has(text) ||
    controls.some(({ path, law }) =>
      law
        ? (text === path && /^~|^0 /.test(value)) || MIDDLES.some((field) => text === `${path}.${field}`)
        : text === path,
    );
  const placed = (words: string): Path => {
    const path = placeIn(raw, words);
    return 'reason' in path ? [words] : path;
  };
  const ofLink = Object.entries(state.values).map(([words, value]): Changed => {
    const path = placed(words);
    const before = path.reduce<unknown>(
      (here, part) => (isGroup(here) ? here[part as string] : undefined),
      raw,
    );
    return {
      path,
      value: words === 'learned' ? 'learned from measures' : valueText(value),
      before: valueText(before),
    };
  });
  const values = [...ofFile(first, carried), ...ofLink].map(({ path, value, before }): Brought => {
    const text = pathText(path);
    const own = typeof path[1] === 'number' && path[0] === 'tyres' ? source.tyres[path[1]]?.name : undefined;
    return {
      path: text,
      label: `${labelAt(path) ?? text}${own === undefined ? '' : ` of ${own}`}`,
      value,
      before,
      shown: isShown(text, value),
    };
  });
  const notches = Object.entries(state.notches).map(([name, list]): Brought => {
    const cut = list.map(
      ({ angle, depth }) => `${wholeDegrees(angle)}° ${lengthText(depth, 'down', state.units)} deep`,
    );
    return {
      path: `notch ${name}`,
      label: `notches of ${name}`,
      value: cut.join(', ') || 'none',
      before: 'as the case has them',
      // One notch of the tub in hand has fields.
      shown: name !== source.tubs[tub]!.name || list.length <= 1,
    };
  });
  return [...values, ...notches];
}
