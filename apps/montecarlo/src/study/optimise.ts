import type { Case, Setting } from '@tubgap/casefile';
import type { StudyCell, StudyOf } from '@tubgap/results';
import {
  type CellFigures,
  caseSetup,
  chosenTub,
  type FoundOptimum,
  findFastest,
  findingRisks,
  findOptimum,
  type LatticePlace,
  type Optimum,
  type OptimumRoom,
  type OptimumWork,
  openStudy,
  pickHeights,
  pickSample,
  type StudySample,
  type StudySetup,
  searchSample,
} from '@tubgap/simulation';
import type { ReadCase } from '../options.ts';
import { openBench } from '../pool.ts';
import { performBy } from '../tasks-by-bench.ts';
import { beyondEnds, type OptimumInputs, optimumInputs } from './beyond.ts';
import { type Effort, SAMPLED } from './compare-setups.ts';
import { StudyFault } from './fault.ts';
import { newCautions } from './new-cautions.ts';
import { cellOf, commonOf } from './record.ts';
import { openSetupsBench } from './setups-bench.ts';
import { blockTimes, studySeconds } from './study-time.ts';
import { buildNotes, classNotes, shownOf, withAskedTubs } from './sweep.ts';
import { pointSetup } from './sweep-points.ts';
import type { Vary } from './vary.ts';

/** What is to be the best: the height of a tub, the tub, or the speed in a tub at its height. */
export type Goal = StudyOf<'optimum'>['goal'];

/** What is asked for. */
export interface OptimiseAsked {
  read: ReadCase;
  set: readonly Setting[];
  goal: Goal;
  overs: readonly Vary[];
  /** Names of tubs; none: those of the case. */
  tubs: readonly string[];
  /** Greatest height, or the one at which the tub stands, m. */
  height: number | undefined;
}

/** Times that a search's draws are gone through in a common case, by the number of inputs: measured on the demo. */
const LOOKS = [25, 55, 100, 130];

/** The room of some inputs of a case; a setup that was made is kept. */
function roomOf(read: ReadCase, set: readonly Setting[], { inputs }: OptimumInputs): OptimumRoom {
  const known = new Map<string, StudySetup>();
  const { source } = read;
  return {
    source,
    sizes: inputs.map(({ texts }) => texts.length),
    setupAt(place: LatticePlace): StudySetup {
      const key = place.join();
      const made = known.get(key) ?? pointSetup(read, set, inputs, [...place]);
      made.source.simulation = source.simulation;
      known.set(key, made);
      return made;
    },
  };
}

/** Where a study's setups, and cases by themselves, are worked out. */
function workBy(workers: number): OptimumWork & { close: () => Promise<void> } {
  const bench = openSetupsBench(workers);
  return {
    ...bench,
    async ofCase(source, work) {
      const own = openBench(source, workers);
      try {
        return await work(performBy(own));
      } finally {
        await own.close();
      }
    },
  };
}

/** The heights of a cell: risks at one height, which tell places apart, are no part of the record. */
const heightsOf = (figures: CellFigures): StudyCell => cellOf({ ...figures, compared: [] });

const NAME_ONE = 'name the tub that is meant by --tub';

/** Which tubs are looked at, in the order in which they are wanted. @throws StudyFault */
function wantedTubs({ goal, tubs }: OptimiseAsked, source: Case, chosen: number | undefined): number[] {
  const named = shownOf(
    source.tubs.map(({ name }) => name),
    tubs.length === 0 ? undefined : { path: 'tub', texts: [...tubs], place: '--tub' },
    'tub',
  );
  if (goal === 'tub') return named.toSorted((a, b) => source.tubs[a]!.diameter - source.tubs[b]!.diameter);
  if (named.length === 1) return named;
  if (tubs.length > 0)
    throw new StudyFault([`--tub  names ${named.length} tubs; one has a best ${goal}, ${NAME_ONE}.`]);
  if (chosen !== undefined) return [chosen];
  throw new StudyFault([`The case as it stands has no tub to build; ${NAME_ONE}.`]);
}

/** That a height is given where it is asked for, and nowhere else. @throws StudyFault */
function heightAsked({ goal, height }: OptimiseAsked): void {
  if (goal === 'height' && height !== undefined) {
    throw new StudyFault([
      '--height  is what is sought here; leave it out, or ask for --goal tub with that height as the greatest that will do.',
    ]);
  }
  if (goal !== 'height' && height === undefined) {
    const what = goal === 'tub' ? 'greatest top height that will do' : 'top height of the tub that stands';
    throw new StudyFault([`--goal ${goal} needs the ${what}: --height "39 1/4 in".`]);
  }
}

const placesOf = (found: FoundOptimum): StudyOf<'optimum'>['places'] =>
  found.places.map(({ place, figures, isAgain, isApart }) => ({
    at: [...place],
    isAgain,
    isApart,
    cells: figures.map(heightsOf),
  }));

function bestOf({ judged }: FoundOptimum): StudyOf<'optimum'>['best'] {
  const { pick, moment, roomMissing } = judged;
  const { verdict, reason, height } = pick;
  return {
    verdict,
    reason,
    topHeight: height?.topHeight ?? null,
    limitedBy: height?.decidedBy ?? null,
    limitingTyre: height?.limitingTyre ?? null,
    moment: moment ?? null,
    runRisk: height?.runRisk ?? null,
    seasonRisk: height?.seasonRisk ?? null,
    roomMissing,
  };
}

/** The ranges with what was found of each. */
const rangesOf = (
  { inputs, beyondTexts }: OptimumInputs & { beyondTexts: ReadonlyMap<number, string> },
  found: FoundOptimum,
): StudyOf<'optimum'>['ranges'] =>
  inputs.map(({ path, label, texts, values, unit, own }, axis) => {
    const { heldBy, from, to } = found.held[axis]!;
    const beyond = found.beyond.find((one) => one.axis === axis);
    return {
      path,
      label,
      texts,
      values,
      unit,
      own,
      best: found.place[axis]!,
      heldBy,
      from,
      to,
      beyond:
        beyond === undefined ? null : { text: beyondTexts.get(axis)!, cells: beyond.figures.map(heightsOf) },
    };
  });

/** Seconds that a search takes on one thread. */
function secondsOf(source: Case, tubs: readonly number[], sample: StudySample, axes: number): number {
  const only = { ...source, tubs: tubs.slice(0, 1).map((t) => source.tubs[t]!) };
  const times = blockTimes(openStudy([{ label: source.name, source: only }]), sample.centres);
  const looks = LOOKS[axes - 1]!;
  return studySeconds(times, searchSample(sample), looks) + studySeconds(times, sample, 15);
}

/** Finds the best values of some inputs. @throws StudyFault when what is asked for cannot be; RangeError when the model does not know it */
export async function runOptimise(
  asked: OptimiseAsked,
  { workers, tell, expect }: Pick<Effort, 'workers' | 'tell' | 'expect'>,
): Promise<StudyOf<'optimum'>> {
  heightAsked(asked);
  const { goal, overs, tubs, height } = asked;
  const named = tubs.length === 0 ? undefined : { path: 'tub', texts: [...tubs], place: '--tub' };
  const { read, set } = withAskedTubs(asked, named);
  const { source } = read;
  const sought = optimumInputs(read, set, overs);
  const room = roomOf(read, set, sought);
  const work = workBy(workers);
  try {
    const base = await work.ofCase(source, (perform) =>
      pickSample(source, perform, false, (done) => tell(SAMPLED * done)),
    );
    const { found: findings, heights: _, ...sample } = base;
    const picks = pickHeights(source, caseSetup(source), findingRisks(findings!), findings!.runs);
    const wanted = wantedTubs(asked, source, chosenTub(source, picks));
    expect(secondsOf(source, wanted, sample, room.sizes.length) / workers);
    const beyondTexts = new Map<number, string>();
    const beyondAt = (place: LatticePlace) => beyondEnds(read, set, sought, place, beyondTexts);
    const told = (done: number): void => tell(SAMPLED + (1 - SAMPLED) * done);
    const [tub] = wanted;
    const limiting = picks[tub!]!.height?.limitingTyre;
    const tyre = Math.max(
      0,
      source.tyres.findIndex(({ name }) => name === limiting),
    );
    const optimum: Optimum & Partial<Awaited<ReturnType<typeof findFastest>>> =
      goal === 'speed'
        ? await findFastest(room, { tub: tub!, tyre, topHeight: height! }, sample, work, beyondAt, told)
        : await findOptimum(room, { tubs: wanted, most: height }, sample, work, beyondAt, told);
    const { found, tried, limits } = optimum;
    const best = { label: 'the best', source: room.setupAt(found.place).source };
    const notes = [
      ...classNotes(source, sought.inputs),
      ...buildNotes(source, sought.inputs),
      ...newCautions(source, [best, ...sought.ends]),
    ];
    return {
      ...commonOf(
        {
          source,
          settings: set,
          sample: { ...found.judged.sample, asked: false },
          cars: source.simulation.cars,
          notes,
        },
        [],
      ),
      chosen: found.does ? found.tub : null,
      kind: 'optimum',
      goal,
      tub: found.tub,
      does: found.does,
      mostHeight: height ?? null,
      searchDraws: searchSample(sample).draws,
      besideDraws: Math.min(found.judged.sample.draws, 32_768),
      ranges: rangesOf({ ...sought, beyondTexts }, found),
      places: placesOf(found),
      best: bestOf(found),
      own: {
        topHeight: picks[found.tub]!.height?.topHeight ?? null,
        cells: found.own?.map(heightsOf) ?? null,
      },
      limits: limits ?? null,
      tried: tried.map((one) => ({ tub: one.tub, topHeight: one.topHeight ?? null })),
    };
  } finally {
    await work.close();
  }
}
