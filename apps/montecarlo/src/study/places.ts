import type { Case, Setting } from '@tubgap/casefile';
import type { StudyOf } from '@tubgap/results';
import {
  findPlaces,
  openStudy,
  type PlacedTub,
  performTubs,
  pickSample,
  searchSample,
} from '@tubgap/simulation';
import { openBench } from '../pool.ts';
import { performBy } from '../tasks-by-bench.ts';
import { type Effort, SAMPLED } from './compare-setups.ts';
import { cellOf, commonOf } from './record.ts';
import { blockTimes, studySeconds } from './study-time.ts';

/** Times that the case's own tubs are gone through in all draws, searches in some of them included: measured on the demo. */
const TIMES_GONE_THROUGH = 3.5;

type Place = StudyOf<'places'>['places'][number]['own'];

const placeOf = ({ centreForward, figures }: PlacedTub): Place => ({
  centreForward,
  cells: figures.map(cellOf),
});
const orNull = (place: PlacedTub | undefined): Place | null => (place === undefined ? null : placeOf(place));

/** Finds the best fore-aft place of every tub. @throws RangeError when the model does not know the case */
export async function runPlaces(
  whole: Case,
  set: readonly Setting[],
  { draws, workers, tell, expect }: Effort,
): Promise<StudyOf<'places'>> {
  const asked = draws !== undefined;
  const source = asked ? { ...whole, simulation: { ...whole.simulation, draws } } : whole;
  const bench = openBench(source, workers);
  const perform = performBy(bench);
  try {
    const sample = await pickSample(source, perform, asked, (done) => tell(SAMPLED * done));
    const times = blockTimes(openStudy([{ label: source.name, source }]), sample.centres);
    expect((TIMES_GONE_THROUGH * studySeconds(times, sample, 1)) / workers);
    const found = await findPlaces(source, sample, performTubs(perform), (done) =>
      tell(SAMPLED + (1 - SAMPLED) * done),
    );
    return {
      ...commonOf(
        { source, settings: set, sample: { ...sample, asked }, cars: source.simulation.cars, notes: [] },
        found.map(({ pick }) => pick.height?.topHeight),
      ),
      kind: 'places',
      searchDraws: searchSample(sample).draws,
      places: found.map(({ best, own, atBest, searched, inchBehind, inchAhead, atEnd, asGood }) => ({
        searched: searched.map(placeOf),
        best:
          best === null || atBest === undefined
            ? null
            : { ...placeOf(atBest), topHeight: best.topHeight, limitedBy: best.decidedBy },
        atEnd,
        asGood: asGood ?? null,
        inchBehind: orNull(inchBehind),
        inchAhead: orNull(inchAhead),
        own: placeOf(own),
      })),
    };
  } finally {
    await bench.close();
  }
}
