import { type GapFigures, gapsAt, type RunPlace } from '@tubgap/simulation';
import { useEffect, useState } from 'preact/hooks';

/** How long a tub stands before it is looked at, ms: some 2,000 runs hold the page for a moment. */
const REST = 300;

/** Where the tightest twentieth of the runs is tight, as a decision says it; undefined until a place was looked at. */
export function useTightest(place: RunPlace, seed: number, dragging: boolean): GapFigures | undefined {
  const [looked, setLooked] = useState<{ place: RunPlace; figures: GapFigures }>();
  useEffect(() => {
    if (dragging) return undefined;
    const timer = setTimeout(() => setLooked({ place, figures: gapsAt(place, seed) }), REST);
    return () => clearTimeout(timer);
  }, [place, seed, dragging]);
  return looked?.place === place ? looked.figures : undefined;
}
