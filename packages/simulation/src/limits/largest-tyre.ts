import type { Case, CaseTyre } from '@tubgap/casefile';
import { centralValue } from '@tubgap/statistics';
import { SIXTEENTH } from '@tubgap/units';
import { sideFaults } from '../side-rooms.ts';
import type { Perform } from '../simulate.ts';
import type { Standing } from '../verdict.ts';
import type { LimitSample } from './find-limits.ts';
import type { Margins } from './grid-search.ts';
import { type LimitPlace, openLooks } from './look.ts';

/** A tyre in the place of the one that asks for the most height. */
export interface TriedTyre {
  name: string;
  /** Middle of its free diameter, m. */
  diameter: number;
  standing: Standing;
}

/** Which tyres of a catalogue a tub at its height takes, all else as it stands. */
export interface LargestTyre {
  /** The tyre in whose place they were put. */
  now: TriedTyre;
  /** Those that were looked at with all draws, that one among them: by diameter. */
  looked: TriedTyre[];
  /** Names of those that do not go in at the sides, whatever the height. */
  tooWide: string[];
  /** Tyres that a rough look has told to be far from either end. */
  passedOver: number;
  /** The largest that is within; null where none is. */
  largest: TriedTyre | null;
  /** The smallest that surely is not; null where there is none. */
  smallest: TriedTyre | null;
}

/** By so much may a rough look be out, m: what it has nearer to what there is is looked at with all draws. */
const NEAR = 6 * SIXTEENTH;

const diameterOf = ({ inputs }: CaseTyre): number => 2 * centralValue(inputs.referenceRadius.law);

const standingBy = (upper: number, lower: number): Standing =>
  upper <= 0 ? 'within' : lower > 0 ? 'not within' : 'not known';

interface Candidate {
  tyre: CaseTyre;
  diameter: number;
  /** About how much height it lacks, m; undefined where it leaves the model. */
  lacks: number | undefined;
  standing: Standing | undefined;
}

/**
 * The largest tyre of a list with which a tub at its height keeps what the shop accepts, and the smallest with which it
 * surely does not: each put in the place of the limiting tyre, on the same draws, and judged by the rule of a pick. A rough
 * look at all tells which lie near; both that are told were looked at with all draws of the case. The case must say where the
 * axle stands: else the tub's place would go with the tyre.
 * @param sample  the draws of the verdict on that tub, and what it lacks by them
 * @param tyres  as the case would have each in that place; none has the name of one of its own
 */
export async function findLargestTyre(
  source: Case,
  place: LimitPlace,
  { stands, ...sample }: LimitSample,
  perform: Perform,
  tyres: readonly CaseTyre[],
): Promise<LargestTyre> {
  const looks = openLooks(source, place, sample, perform);
  const own = source.tyres[place.tyre]!;
  const tub = source.tubs[place.tub]!;
  const worst = (end: keyof Margins): number => Math.max(stands.runs[end], stands.seasons[end]);
  const isTooWide = (tyre: CaseTyre): boolean => sideFaults({ ...source, tyres: [tyre] }, tub).length > 0;
  const goesIn = tyres.filter((tyre) => !isTooWide(tyre));
  const rough = await looks.rough(goesIn.map((tyre) => ({ tyre })));
  const up = worst('upper') - (await looks.roughNow());
  const candidates = goesIn.map((tyre, k): Candidate => {
    const told = rough[k];
    return {
      tyre,
      diameter: diameterOf(tyre),
      lacks: told === undefined ? undefined : told + up,
      standing: told === undefined ? 'not within' : undefined,
    };
  });
  const now: Candidate = {
    tyre: own,
    diameter: diameterOf(own),
    lacks: worst('upper'),
    standing: isTooWide(own) ? 'not within' : standingBy(worst('upper'), worst('lower')),
  };
  const all = [...candidates, now].sort((a, b) => a.diameter - b.diameter);

  /** Looks at some with all draws; at seasons only where the runs leave it open that they are within. */
  const look = async (some: readonly Candidate[]): Promise<void> => {
    const trials = some.map(({ tyre }) => ({ tyre }));
    const runs = await looks.runs(trials);
    const kept = some.filter((_, k) => runs[k] !== undefined && runs[k].lower <= 0);
    const seasons = await looks.seasons(kept.map(({ tyre }) => ({ tyre })));
    some.forEach((one, k) => {
      const byRuns = runs[k];
      const bySeasons = seasons[kept.indexOf(one)];
      if (byRuns === undefined) one.standing = 'not within';
      else if (bySeasons === undefined) one.standing = kept.includes(one) ? 'not known' : 'not within';
      else
        one.standing = standingBy(
          Math.max(byRuns.upper, bySeasons.upper),
          Math.max(byRuns.lower, bySeasons.lower),
        );
    });
  };
  const isOpen = ({ standing }: Candidate): boolean => standing === undefined;
  /** What has to be looked at before an end can be told: the outermost that may be it. */
  const atEnds = (): Candidate[] => {
    const largest = all.findLast((one) => one.standing === 'within' || (isOpen(one) && one.lacks! <= 0));
    const smallest = all.find((one) => one.standing === 'not within' || (isOpen(one) && one.lacks! > 0));
    return [...new Set([largest, smallest])].filter((one) => one !== undefined).filter(isOpen);
  };
  await look(all.filter((one) => isOpen(one) && Math.abs(one.lacks!) <= NEAR));
  for (let open = atEnds(); open.length > 0; open = atEnds()) await look(open);

  const tried = ({ tyre: { name }, diameter, standing }: Candidate): TriedTyre => ({
    name,
    diameter,
    standing: standing!,
  });
  const looked = all.filter((one) => !isOpen(one)).map(tried);
  return {
    now: tried(now),
    looked,
    tooWide: tyres.filter(isTooWide).map(({ name }) => name),
    passedOver: all.length - looked.length,
    largest: looked.findLast(({ standing }) => standing === 'within') ?? null,
    smallest: looked.find(({ standing }) => standing === 'not within') ?? null,
  };
}
