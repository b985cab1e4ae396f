import { type Measures, NO_MEASURES, readMeasures } from '../carried/measures.ts';
import type { BenchState, Notch } from './bench-state.ts';

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
  if (state.measures.car !== undefined) parts.set('measures', JSON.stringify(state.measures));
  for (const [tub, notches] of Object.entries(state.notches)) {
    parts.set(NOTCH + tub, notches.map(({ angle, depth }) => `${angle} ${millimetres(depth)}`).join(' '));
  }
  for (const [path, value] of Object.entries(state.values)) parts.set(path, value);
  return parts.toString();
}

function measuresIn(text: string | null): Measures {
  try {
    return readMeasures(JSON.parse(text ?? 'null'));
  } catch {
    return NO_MEASURES;
  }
}

/** What a link says, in so far as it can be understood; undefined when it says nothing. */
export function readLink(
  text: string,
): { case: string | null; state: Partial<BenchState>; problems: string[] } | undefined {
  const parts = new URLSearchParams(text);
  if (!parts.has('top') && !parts.has('tub')) return undefined;
  const problems: string[] = [];
  const metres = (name: string): number | undefined => {
    const text = parts.get(name);
    if (text === null) return undefined;
    const value = text.trim() === '' ? Number.NaN : Number(text) / 1000;
    if (Number.isFinite(value)) return value;
    problems.push(`${name}: read "${text.slice(0, 40)}"; millimetres are needed`);
    return undefined;
  };
  const notches: Record<string, Notch[]> = {};
  const values: Record<string, string> = {};
  for (const [key, value] of parts) {
    if (key.startsWith(NOTCH)) {
      const numbers = value === '' ? [] : value.split(' ').map(Number);
      if (numbers.length % 2 !== 0 || !numbers.every(Number.isFinite)) {
        problems.push(`${key}: read "${value.slice(0, 40)}"; pairs of an angle and a depth are needed`);
      }
      notches[key.slice(NOTCH.length)] = Array.from({ length: Math.floor(numbers.length / 2) }, (_, i) => ({
        angle: numbers[2 * i]!,
        depth: numbers[2 * i + 1]! / 1000,
      }));
    } else if (!(OWN as readonly string[]).includes(key)) values[key] = value;
  }
  const topHeight = metres('top');
  const centre = metres('centre');
  return {
    case: parts.get('case'),
    state: {
      ...(parts.has('tub') ? { tub: parts.get('tub')! } : {}),
      ...(parts.has('tyre') ? { tyre: parts.get('tyre')! } : {}),
      ...(topHeight === undefined ? {} : { topHeight }),
      centre,
      notches,
      values,
      units: parts.get('units') === 'mm' ? 'mm' : 'inch',
      measures: measuresIn(parts.get('measures')),
    },
    problems,
  };
}
