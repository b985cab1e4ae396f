import type { Case, Setting } from '@tubgap/casefile';
import type { StudyOf } from '@tubgap/results';
import { findPlaces, type PlacedTub } from '@tubgap/simulation';
import { openStudyBench } from './bench.ts';
import { type Effort, SAMPLED, sampleBase } from './compare-setups.ts';
import { cellOf, commonOf } from './record.ts';
import { blockTimes, studySeconds } from './study-time.ts';

/** A second look at the best places, a few for each tub, against the search. */
const CLOSER = 1.2;

type Place = StudyOf<'places'>['places'][number]['own'];

const placeOf = ({ centreForward, figures }: PlacedTub): Place => ({
  centreForward,
  cells: figures.map(cellOf),
});
const orNull = (place: PlacedTub | undefined): Place | null => (place === undefined ? null : placeOf(place));

/** Finds the best fore-aft place of every tub. @throws RangeError when the model does not know the case */
export async function runPlaces(
  source: Case,
  set: readonly Setting[],
  effort: Effort,
): Promise<StudyOf<'places'>> {
  const { workers, tell, expect } = effort;
  const base = await sampleBase(source, { ...effort, tell: (done) => tell(SAMPLED * done) });
  let told = false;
  const found = await findPlaces(
    source,
    base,
    (placed) => {
      const bench = openStudyBench([{ label: source.name, source: placed }], workers, base);
      if (!told) expect((CLOSER * studySeconds(blockTimes(bench.study, base.centres), base, 1)) / workers);
      told = true;
      return bench;
    },
    (done) => tell(SAMPLED + (1 - SAMPLED) * done),
  );
  const own = found.map((tub) => tub.own.figures.at(-1)!.topHeight);
  return {
    ...commonOf({ source, settings: set, sample: base, notes: [] }, own),
    kind: 'places',
    places: found.map((tub) => ({
      searched: tub.searched.map(placeOf),
      best: orNull(tub.best),
      atEnd: tub.atEnd,
      asGood: tub.asGood ?? null,
      inchBehind: orNull(tub.inchBehind),
      inchAhead: orNull(tub.inchAhead),
      own: placeOf(tub.own),
    })),
  };
}
