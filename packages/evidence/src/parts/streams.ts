import { type CaseSetup, normalSpace, partsOf } from '@tubgap/simulation';

/** Streams of everything fixed for the car that has a part in the runs of a tyre. */
export function allStreams(setup: CaseSetup, tyre: number): Set<string> {
  const space = normalSpace(setup);
  return new Set(
    partsOf(setup, space, tyre)
      .map((part) => space.directions[part]!)
      .filter(({ fixedForCar }) => fixedForCar)
      .map(({ stream }) => stream),
  );
}
