/**
 * How much more height a value asks for than there is, m: by the upper and by the lower ends of all intervals. None or
 * less by the upper ones: surely enough; more by the lower ones: surely not. Infinity where no height will do.
 */
export interface Margins {
  upper: number;
  lower: number;
}

/** A point of a rough curve by which the search is led: nothing that is told rests on it. */
export interface RoughPoint {
  at: number;
  margin: number;
}

/** Where the search ended: what was looked at, and nothing else. */
export interface Found {
  /** Greatest place that is surely enough; undefined where the lowest is not. */
  within: number | undefined;
  /** A place that surely is not, near to the least one; undefined where the highest may be enough. */
  beyond: number | undefined;
}

type End = keyof Margins;

/** A search for the ends of what is enough, on whole numbers. */
export interface GridSearch {
  /** Places to look at next, none twice; empty when the ends are found. */
  wanted: () => number[];
  told: (place: number, margins: Margins) => void;
  found: () => Found;
}

/** After so many looks at one end its bracket is halved: a curve with a bend must not slow the search down. */
const PATIENCE = 4;

/**
 * What surely is not enough is looked for no closer than this share of its distance from what surely is, as far as the looks
 * foretell: nobody builds by where in between it begins.
 */
const SLACK = 0.34;

/** Where a rough curve, moved up or down, passes nothing: between its points straight; undefined where it does not. */
function rootOf(rough: readonly RoughPoint[], up: number): number | undefined {
  const after = rough.findIndex(({ margin }) => margin + up > 0);
  if (after <= 0) return undefined;
  const [one, next] = [rough[after - 1]!, rough[after]!];
  const [low, high] = [one.margin + up, next.margin + up];
  const share = Number.isFinite(high) ? -low / (high - low) : 0.5;
  return one.at + share * (next.at - one.at);
}

/** The rough curve at a place, straight between its points and level outside of them. */
function roughAt(rough: readonly RoughPoint[], place: number): number {
  const after = rough.findIndex(({ at }) => at >= place);
  if (after < 0) return rough.at(-1)!.margin;
  if (after === 0) return rough[0]!.margin;
  const [one, next] = [rough[after - 1]!, rough[after]!];
  return one.margin + ((next.margin - one.margin) * (place - one.at)) / (next.at - one.at);
}

/**
 * Searches the whole numbers from `first` to `last` for the greatest at which a margin that never falls is surely none,
 * and for one near to the least at which it surely is some. Both ends are looked at themselves, and so are their neighbours inwards.
 * @param rough  a curve of about the same shape, its places rising; at least one point
 * @param stands  margins at a place that need not be a whole number: it leads the search, and nothing rests on it
 * @param given  places that were looked at before
 */
export function openSearch(
  first: number,
  last: number,
  rough: readonly RoughPoint[],
  stands: Readonly<{ at: number; margins: Margins }>,
  given: ReadonlyMap<number, Margins> = new Map(),
): GridSearch {
  const known = new Map(given);
  const looks: Record<End, number> = { upper: 0, lower: 0 };

  /** Innermost places known to lie on either side of an end; one past the grid where none is known. */
  const bracket = (end: End): [number, number] => {
    let ok = first - 1;
    let bad = last + 1;
    for (const [place, margins] of known) {
      if (margins[end] <= 0) ok = Math.max(ok, place);
      else bad = Math.min(bad, place);
    }
    return [ok, bad];
  };

  /** The nearest place that was looked at on one side of another; NaN where there is none. */
  const beside = (place: number, side: 1 | -1): number => {
    const there = [...known.keys()].filter((other) => side * (other - place) > 0);
    return there.reduce(
      (near, other) => (Math.abs(other - place) < Math.abs(near - place) ? other : near),
      there[0] ?? Number.NaN,
    );
  };

  const byCurve = (end: End, ok: number, bad: number): number => {
    const looked = known.has(ok) ? ok : known.has(bad) ? bad : undefined;
    const [nearest, { [end]: margin }] =
      looked === undefined ? [stands.at, stands.margins] : [looked, known.get(looked)!];
    const up = margin - roughAt(rough, nearest);
    if (!Number.isFinite(up)) return (ok + bad) >> 1;
    const root = rootOf(rough, up);
    const guess = root === undefined ? (rough[0]!.margin + up > 0 ? first : last) : Math.floor(root);
    if (looked === undefined) return guess;
    // Of what surely is not enough a place a little beyond is told as well as the first: so that one look finds one.
    if (end === 'lower' && looks.lower === 1) {
      const within = bracket('upper')[0];
      return guess + Math.max(1, known.has(within) ? Math.round((SLACK / 2) * (guess - within)) : 1);
    }
    // A guess that fell short was led by a curve of another slope: now the looks themselves lead, by growing steps.
    const before = looked === ok ? known.get(beside(ok, -1))?.[end] : known.get(beside(bad, 1))?.[end];
    const slope =
      before === undefined
        ? Number.NaN
        : Math.abs(margin - before) / Math.abs(looked - beside(looked, looked === ok ? -1 : 1));
    const far = slope > 0 ? Math.abs(margin) / slope : Math.abs(guess - looked);
    const step = Math.max(1, Math.floor(far), 2 ** (looks[end] - 2));
    return looked === ok ? ok + step : bad - step;
  };

  /** Whether what surely is not enough begins near to a place that is not: as looked at, or straight between two looks. */
  const isNear = (ok: number, bad: number): boolean => {
    const [low, high] = [known.get(ok)?.lower, known.get(bad)?.lower];
    if (low === undefined || high === undefined) return false;
    const share = Number.isFinite(high - low) ? -low / (high - low) : 0;
    return bad - ok - share * (bad - ok) <= SLACK * (bad - bracket('upper')[0]);
  };

  const next = (end: End): number[] => {
    const [ok, bad] = bracket(end);
    if (bad - ok <= 1) return [];
    if (end === 'lower' && isNear(ok, bad)) return [];
    looks[end]++;
    const inside = (place: number): number[] => [Math.min(bad - 1, Math.max(ok + 1, place))];
    const [low, high] = [known.get(ok)?.[end], known.get(bad)?.[end]];
    if (looks[end] > PATIENCE && low !== undefined && high !== undefined) return inside((ok + bad) >> 1);
    if (low === undefined || high === undefined) return inside(byCurve(end, ok, bad));
    if (bad - ok === 3) return [ok + 1, ok + 2];
    if (!Number.isFinite(high - low)) return inside((ok + bad) >> 1);
    return inside(Math.round(ok + ((bad - ok) * -low) / (high - low)));
  };

  return {
    wanted: () => [...new Set([...next('upper'), ...next('lower')])],
    told: (place, margins) => void known.set(place, margins),
    found() {
      const [within] = bracket('upper');
      const [, beyond] = bracket('lower');
      return {
        within: within < first ? undefined : within,
        beyond: beyond > last ? undefined : beyond,
      };
    },
  };
}
