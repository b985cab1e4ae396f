import { type Mark, type Measures, NO_MEASURES } from './measures.ts';
import type { Units } from './words.ts';

/** A notch cut in a tub: angle from straight up, forward positive, rad; depth inside the arc, m. */
export interface Notch {
  angle: number;
  depth: number;
}

/** Everything that a visitor can set. */
export interface BenchState {
  tub: string;
  tyre: string;
  /** Inside top above the track, m. */
  topHeight: number;
  /** Tub centre ahead of the axle, m; undefined: as the case says. */
  centre?: number | undefined;
  /** Notches by tub, where they are not those of the case. */
  notches: Readonly<Record<string, readonly Notch[]>>;
  /** Values in place of the case's, by path, as a command line gives them: '~230 mph'. */
  values: Readonly<Record<string, string>>;
  units: Units;
  measures: Measures;
}

const OWN = ['case', 'tub', 'tyre', 'top', 'centre', 'units', 'measures'] as const;
const NOTCH = 'notch ';
/** Millimetres with their decimals, as the link has them; a sixteenth of an inch has four. */
const millimetres = (metres: number): string => String(Number((metres * 1000).toFixed(4)));

/** The state as the part of an address after #. */
export function linkOf(name: string, state: BenchState): string {
  const parts = new URLSearchParams({
    case: name,
    tub: state.tub,
    tyre: state.tyre,
    top: millimetres(state.topHeight),
    ...(state.centre === undefined ? {} : { centre: millimetres(state.centre) }),
    units: state.units,
  });
  const { gaps, marks } = state.measures;
  if (Object.keys(gaps).length > 0 || marks.length > 0)
    parts.set('measures', JSON.stringify({ gaps, marks }));
  for (const [tub, notches] of Object.entries(state.notches)) {
    parts.set(NOTCH + tub, notches.map(({ angle, depth }) => `${angle} ${millimetres(depth)}`).join(' '));
  }
  // A link holds no files: who opens it learns again from the measures, which it does hold.
  for (const [path, value] of Object.entries(state.values)) if (path !== 'learned') parts.set(path, value);
  return parts.toString();
}

/** Measures of a link; none when they are not as this page writes them. */
function measuresIn(text: string | null): Measures {
  try {
    const { gaps, marks } = JSON.parse(text ?? '{}') as { gaps?: unknown; marks?: unknown };
    const words = Object.entries((gaps ?? {}) as object).filter(([, value]) => typeof value === 'string');
    const sound = (Array.isArray(marks) ? marks : []).map(
      (mark): Mark => ({
        angle: String(mark?.angle ?? ''),
        touched: mark?.touched === true,
        runs: String(mark?.runs ?? ''),
        thickness: String(mark?.thickness ?? ''),
      }),
    );
    return { gaps: Object.fromEntries(words), marks: sound };
  } catch {
    return NO_MEASURES;
  }
}

/** What a link says, in so far as it can be understood; undefined when it says nothing. */
export function readLink(text: string): { case: string | null; state: Partial<BenchState> } | undefined {
  const parts = new URLSearchParams(text);
  if (!parts.has('top') && !parts.has('tub')) return undefined;
  const metres = (name: string): number | undefined => {
    const value = Number(parts.get(name) ?? Number.NaN) / 1000;
    return Number.isFinite(value) ? value : undefined;
  };
  const notches: Record<string, Notch[]> = {};
  const values: Record<string, string> = {};
  for (const [key, value] of parts) {
    if (key.startsWith(NOTCH)) {
      const numbers = value.split(' ').map(Number).filter(Number.isFinite);
      notches[key.slice(NOTCH.length)] = Array.from({ length: Math.floor(numbers.length / 2) }, (_, i) => ({
        angle: numbers[2 * i]!,
        depth: numbers[2 * i + 1]! / 1000,
      }));
    } else if (!(OWN as readonly string[]).includes(key)) values[key] = value;
  }
  const topHeight = metres('top');
  return {
    case: parts.get('case'),
    state: {
      ...(parts.has('tub') ? { tub: parts.get('tub')! } : {}),
      ...(parts.has('tyre') ? { tyre: parts.get('tyre')! } : {}),
      ...(topHeight === undefined ? {} : { topHeight }),
      centre: metres('centre'),
      notches,
      values,
      units: parts.get('units') === 'mm' ? 'mm' : 'inch',
      measures: measuresIn(parts.get('measures')),
    },
  };
}
