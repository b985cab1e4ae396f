import type { Case } from '@tubgap/casefile';
import { INCH } from '@tubgap/units';
import { ModelRangeError } from '../count.ts';
import type { PerformSetups } from '../insight/assumed-costs.ts';
import type { Perform } from '../simulate.ts';
import type { CellFigures } from '../study/study-figures.ts';
import type { StudySetup } from '../study/study-point.ts';
import type { StudySample } from '../study/study-tasks.ts';
import { type HeldInput, heldInputs } from './held-by.ts';
import {
  besideOptimum,
  isFit,
  isToldApart,
  type JudgedOptimum,
  judgeOptimum,
  nearPlaces,
} from './judge-optimum.ts';
import { coarsePlaces, type LatticePlace } from './lattice-search.ts';
import {
  type LookAt,
  type LookedPlace,
  type OptimumRoom,
  openLookAt,
  type SearchedOptimum,
  searchOptimum,
  withTubsOf,
} from './search-optimum.ts';

/** Where work is done: of some setups side by side, and of one case by itself. */
export interface OptimumWork {
  perform: PerformSetups;
  /** Has a case worked on, and puts away what that took. */
  ofCase: <T>(source: Case, work: (perform: Perform) => Promise<T>) => Promise<T>;
}

/** What is asked for: the least height of the first of some tubs that does. */
export interface OptimumGoal {
  /** Indices of tubs in the order in which they are wanted. */
  tubs: readonly number[];
  /** Greatest top height that will do, m; left out: any. */
  most?: number | undefined;
}

/** A step beyond the range of an input, from the best place. */
export interface Beyond {
  axis: number;
  setup: StudySetup;
}

/** The best place of one tub, and how everything else stands beside it. */
export interface FoundOptimum {
  tub: number;
  /** Whether it does: it fits, and no higher than is asked. */
  does: boolean;
  place: LatticePlace;
  /** By the rule of a pick, by draws that no search saw. */
  judged: JudgedOptimum;
  /** Every place that was looked at, the best first; whether it surely asks for more, and by which draws its figures are. */
  places: (Pick<LookedPlace, 'place' | 'figures'> & { isApart: boolean; isAgain: boolean })[];
  held: HeldInput[];
  /** As the case stands, by the draws that the best is judged by; undefined where nothing stands beside it. */
  own: CellFigures[] | undefined;
  beyond: { axis: number; figures: CellFigures[] }[];
}

/** What was found of all tubs that were asked for. */
export interface Optimum {
  /** Of the first tub that does, else of the last that was judged. */
  found: FoundOptimum;
  /** Tubs that were judged, in their order, with the height that each asks for at its best place, m. */
  tried: { tub: number; topHeight: number | undefined }[];
}

/** Where a tub asks for so much more than is asked at all places of the coarse grid, m, no finer place of it is looked for. */
const HOPELESS = INCH;

/** Tubs, of those that are asked for, that may do: the last stays in any case, so that something is told. */
async function hopeful({ tubs, most }: OptimumGoal, sizes: readonly number[], lookAt: LookAt) {
  if (most === undefined || tubs.length === 1) return tubs;
  const looked = await lookAt(coarsePlaces(sizes), tubs);
  return tubs.filter(
    (_, t) =>
      t === tubs.length - 1 ||
      looked[t]!.some(({ lack: [what, height] }) => what < 2 && (what === 1 || height <= most + HOPELESS)),
  );
}

/** What stands beside the best place of a search, and what holds that. */
type BesideBest = Pick<FoundOptimum, 'places' | 'own' | 'beyond' | 'held'>;

/** Where no height helps at any place that was looked at nothing stands beside anything. */
function unheld(sizes: readonly number[], { looked, best }: SearchedOptimum): BesideBest {
  const all = [best, ...looked.filter((one) => one !== best)];
  return {
    places: all.map(({ place, figures }) => ({ place, figures, isApart: false, isAgain: false })),
    own: undefined,
    beyond: [],
    held: heldInputs(
      sizes,
      best.place,
      looked.map(({ place }) => place),
    ),
  };
}

/**
 * Setups that stand beside the best one, and what is told of them.
 * @param place  the tub, the height at which risks are compared, m, and the draws of the best one's pick
 */
export async function besideBest(
  room: OptimumRoom,
  searched: SearchedOptimum,
  place: { tub: number; topHeight: number | undefined; sample: StudySample },
  beyond: readonly Beyond[],
  { perform }: Pick<OptimumWork, 'perform'>,
  tell: (done: number) => void,
): Promise<BesideBest> {
  const { best, looked } = searched;
  if (best.lack[0] === 2) return unheld(room.sizes, searched);
  const { tub, topHeight, sample } = place;
  const { again, open } = nearPlaces(searched);
  const { simulation } = room.source;
  const inTub = ({ source, ...setup }: StudySetup): StudySetup => ({
    ...setup,
    source: { ...withTubsOf(source, [tub]), simulation },
  });
  const setups = [
    room.setupAt(best.place),
    { label: room.source.name, source: room.source },
    ...again.map(({ place }) => room.setupAt(place)),
    ...beyond.map(({ setup }) => setup),
  ].map(inTub);
  const told = await besideOptimum(setups, sample, topHeight, perform, tell).catch((error: unknown) => {
    if (error instanceof ModelRangeError && beyond.length > 0) return undefined;
    throw error;
  });
  // What lies beyond the range may lie beyond the model as well, and is no part of what was asked.
  if (told === undefined) return besideBest(room, searched, place, [], { perform }, tell);
  const [ofBest, own, ...others] = told;
  const lookedAgain = again.map(({ place }, k) => {
    const figures = others[k]!;
    return { place, figures, isApart: isToldApart(figures.at(-1)!), isAgain: true };
  });
  const left = looked
    .filter((one) => one !== best && !again.includes(one))
    .map((one) => ({
      place: one.place,
      figures: one.figures,
      isApart: !open.includes(one),
      isAgain: false,
    }));
  const places = [
    { place: best.place, figures: ofBest!, isApart: false, isAgain: true },
    ...lookedAgain,
    ...left,
  ];
  const alike = places.filter(({ isApart }) => !isApart).map(({ place }) => place);
  return {
    places,
    own,
    beyond: beyond.map(({ axis }, k) => ({ axis, figures: others[again.length + k]! })),
    held: heldInputs(room.sizes, best.place, alike),
  };
}

/**
 * Finds the values of some inputs at which a tub asks for the least height, or the first of several tubs that asks for no
 * more than will do. The search has draws of its own; its end, and nothing else, is then picked by the case's own draws,
 * so that the figure is that of `tubgap pick` of the case with these values, and its bound holds as there. What may be as good is
 * held against it by the same draws, pair by pair.
 * @param sample  draws of the case's pick
 * @param beyondAt  what lies a step beyond the ends at which the best place is
 * @throws ModelRangeError that names the setup which leaves what the model knows
 */
export async function findOptimum(
  room: OptimumRoom,
  goal: OptimumGoal,
  sample: StudySample,
  work: OptimumWork,
  beyondAt: (place: LatticePlace) => Beyond[] = () => [],
  tell: (done: number) => void = () => {},
): Promise<Optimum> {
  const { source, sizes, setupAt } = room;
  const lookAt = openLookAt(room, sample, work.perform);
  const tried: Optimum['tried'] = [];
  let end: { tub: number; searched: SearchedOptimum; judged: JudgedOptimum; does: boolean } | undefined;
  const tubs = await hopeful(goal, sizes, lookAt);
  for (const [k, tub] of tubs.entries()) {
    const from = (0.7 * k) / tubs.length;
    const share = 0.7 / tubs.length;
    const searched = await searchOptimum(sizes, tub, lookAt, (looks) =>
      tell(from + (0.7 * share * looks) / (looks + 30)),
    );
    const { best } = searched;
    const there = { ...setupAt(best.place).source, simulation: source.simulation };
    const judged = await work.ofCase(there, (perform) =>
      judgeOptimum(there, tub, perform, (done) => tell(from + share * (0.7 + 0.3 * done))),
    );
    const topHeight = judged.pick.height?.topHeight;
    const does = isFit(judged) && topHeight! <= (goal.most ?? Number.POSITIVE_INFINITY) + 1e-9;
    tried.push({ tub, topHeight });
    end = { tub, searched, judged, does };
    if (does) break;
  }
  const { tub, searched, judged, does } = end!;
  const { place } = searched.best;
  const { pick, sample: judgedBy } = judged;
  const beside = await besideBest(
    room,
    searched,
    { tub, topHeight: pick.height?.topHeight, sample: judgedBy },
    beyondAt(place),
    work,
    (done) => tell(0.7 + 0.3 * done),
  );
  return { found: { tub, does, place, judged, ...beside }, tried };
}
