import type { Case } from '@tubgap/casefile';
import type { PerformSetups } from '../insight/assumed-costs.ts';
import { sideFaults } from '../side-rooms.ts';
import { compareLacks, type Lack, lackOf, searchSample } from '../study/search-places.ts';
import { type CellFigures, studyFigures } from '../study/study-figures.ts';
import type { StudySetup } from '../study/study-point.ts';
import { openStudy, runStudy, type StudySample } from '../study/study-tasks.ts';
import { type LatticePlace, openLatticeSearch } from './lattice-search.ts';

/** A case over values of some of its inputs. */
export interface OptimumRoom {
  /** As it stands, with all of its tubs. */
  source: Case;
  /** Values of each input that is looked over. */
  sizes: readonly number[];
  /** The case with all of its tubs at a place of the lattice of those values. */
  setupAt: (place: LatticePlace) => StudySetup;
}

/** What was looked at, in one tub. */
export interface LookedPlace {
  place: LatticePlace;
  /** Of each tyre and, last, all of them. */
  figures: CellFigures[];
  lack: Lack;
}

/**
 * Draws of a search are another seed's than those that its end is judged by: the least of many looks better than it is in the
 * draws by which it is the least, and in no others.
 */
const SEARCH_SEED = 0x9e3779b1;
export const seedOfSearch = (seed: number): number => (seed + SEARCH_SEED) % Number.MAX_SAFE_INTEGER;

/** The case with some of its tubs alone. */
export const withTubsOf = (source: Case, tubs: readonly number[]): Case => ({
  ...source,
  tubs: tubs.map((t) => source.tubs[t]!),
});

/** Setups are compared at no height on the way. */
const NOWHERE: readonly (readonly number[])[] = [];

/** What keeps the case's one tub out, its sides before all. */
function lackIn(only: Case, figures: readonly CellFigures[]): Lack {
  const faults = sideFaults(only, only.tubs[0]!);
  return faults.length > 0 ? [2, 1 + faults.length] : lackOf(only, figures);
}

/** Looks at places in tubs, each once; kept for whoever asks again. */
export type LookAt = (places: readonly LatticePlace[], tubs: readonly number[]) => Promise<LookedPlace[][]>;

/**
 * Opens ways of looking at places of a lattice, all by the same draws.
 * @param sample  the draws of the case's pick, of which as few are taken as `searchSample` has
 */
export function openLookAt(room: OptimumRoom, sample: StudySample, perform: PerformSetups): LookAt {
  const { source, setupAt } = room;
  const { simulation } = source;
  const known = new Map<string, LookedPlace>();
  const keyOf = (place: LatticePlace, tub: number): string => `${tub}:${place.join()}`;
  const seeded = { ...source, simulation: { ...simulation, seed: seedOfSearch(simulation.seed) } };
  return async (places, tubs) => {
    const open = places.filter((place) => tubs.some((tub) => !known.has(keyOf(place, tub))));
    if (open.length > 0) {
      const setups = [
        { label: source.name, source: withTubsOf(seeded, tubs) },
        ...open.map((place) => {
          const setup = setupAt(place);
          return { ...setup, source: withTubsOf(setup.source, tubs) };
        }),
      ];
      const study = openStudy(setups);
      const plan = { ...searchSample(sample), heights: NOWHERE, firstPoint: 1 };
      await runStudy(study, plan, perform(setups), (totals, p) => {
        const rows = studyFigures(study.points[p]!, totals, source.accept.runRisk, NOWHERE);
        const place = open[p - 1]!;
        tubs.forEach((tub, t) => {
          const figures = rows.map((row) => row[t]!);
          const only = withTubsOf(setups[p]!.source, [t]);
          known.set(keyOf(place, tub), { place, figures, lack: lackIn(only, figures) });
        });
      });
    }
    return tubs.map((tub) => places.map((place) => known.get(keyOf(place, tub))!));
  };
}

/** What a search in one tub has come to: everything that it looked at, and the best of it. */
export interface SearchedOptimum {
  looked: LookedPlace[];
  best: LookedPlace;
}

/**
 * Searches for the place of a lattice at which a tub asks for the least height: by the estimate of the run risk, see
 * `openLatticeSearch` for what it finds.
 * @throws ModelRangeError that names the setup which leaves what the model knows
 */
export async function searchOptimum(
  sizes: readonly number[],
  tub: number,
  lookAt: LookAt,
  tell: (looks: number) => void = () => {},
): Promise<SearchedOptimum> {
  const search = openLatticeSearch<LookedPlace>(sizes, {
    compare: (one, other) => compareLacks(one.lack, other.lack),
    size: ({ lack: [what, height] }) => (what === 0 ? height : Number.POSITIVE_INFINITY),
  });
  const looked: LookedPlace[] = [];
  for (let wanted = search.wanted(); wanted.length > 0; wanted = search.wanted()) {
    const [found] = await lookAt(wanted, [tub]);
    for (const one of found!) {
      search.told(one.place, one);
      looked.push(one);
    }
    tell(looked.length);
  }
  return { looked, best: search.best().value };
}
