import type { Result } from './schema.ts';
import type { Study, StudyCell } from './study-schema.ts';

/** A list of a file, its place in words, and how long it must be by the rest of the file. */
export type Sized = readonly [place: string, list: readonly unknown[], length: number];

/** A list of lists with all their lengths. */
const grid = (
  place: string,
  lists: readonly (readonly unknown[])[],
  rows: number,
  columns: number,
): Sized[] => [[place, lists, rows], ...lists.map((list, i): Sized => [`${place}.${i}`, list, columns])];

export const lengthFault = (lists: readonly Sized[]): string | undefined => {
  const wrong = lists.find(([, list, length]) => list.length !== length);
  return wrong && `${wrong[0]}: has ${wrong[1].length} entries where ${wrong[2]} are needed`;
};

/** Where an index or name leads nowhere. */
type Reference = readonly [place: string, leads: boolean];

const referenceFault = (references: readonly Reference[]): string | undefined => {
  const wrong = references.find(([, leads]) => !leads);
  return wrong && `${wrong[0]}: speaks of what the file does not hold`;
};

const within = (index: number | null, list: readonly unknown[]): boolean =>
  index === null || index < list.length;

/** Why the parts of a result do not belong together: lists of other lengths, names of nothing; undefined when they do. */
export function resultDisagreement(result: Result): string | undefined {
  const { tyres, tubs, hardPoints, build, outlines, tolerances, picks } = result;
  const each = tyres.length + 1;
  const tallies = [...result.runs.tyres, result.runs.all, result.seasons];
  const { angles } = outlines;
  const byHeight = Object.entries({
    risks: result.risks,
    contactRisks: result.contactRisks,
    gaps: result.gaps,
  }).flatMap(([place, rows]): Sized[] => [
    ...grid(place, rows, each, tubs.length),
    ...rows.flatMap((row, r) =>
      row.map((list, t): Sized => [`${place}.${r}.${t}`, list, result.heights[t]?.length ?? 0]),
    ),
  ]);
  const inPick = outlines.pick?.gaps;
  const lengths = lengthFault([
    ...grid('hardPointFigures', result.hardPointFigures, hardPoints.length, tyres.length),
    ['runs.tyres', result.runs.tyres, tyres.length],
    ...tallies.flatMap(({ tubs: counted, hardTouches }): Sized[] => [
      ['tubs of a tally', counted, tubs.length],
      ['hardTouches of a tally', hardTouches, hardPoints.length],
      ...counted.map(({ contactSteps, steps }): Sized => ['contactSteps', contactSteps, steps.length]),
    ]),
    ['heights', result.heights, tubs.length],
    ...byHeight,
    ['picks', picks, tubs.length],
    ['bestPlaces', result.bestPlaces, tubs.length],
    ...picks.flatMap(({ alone, height }, t): Sized[] => [
      [`picks.${t}.alone`, alone, tyres.length],
      ...(height
        ? [[`picks.${t}.staticGaps`, height.staticGaps, build.staticGapAngles.length] as const]
        : []),
    ]),
    ...grid('pickGaps', result.pickGaps, each, tubs.length),
    ['shares', result.shares, tubs.length],
    // A tub without a height has none.
    ...result.shares.flatMap((list, t): Sized[] =>
      list.length === 0 ? [] : [[`shares.${t}`, list, tyres.length]],
    ),
    ['outlines.tyres', outlines.tyres, tyres.length],
    ...outlines.tyres.flatMap(({ standing, quantiles }, i): Sized[] => [
      [`outlines.tyres.${i}.standing`, standing, angles.length],
      ...grid(`outlines.tyres.${i}.quantiles`, quantiles, outlines.quantiles.length, angles.length),
    ]),
    ...(outlines.pick
      ? ([
          ['outlines.pick.shown', outlines.pick.shown, tyres.length],
          ...outlines.pick.shown.flatMap((runs) =>
            runs.flatMap(({ radii, gaps }): Sized[] => [
              ['radii of a shown run', radii, angles.length],
              ['gaps of a shown run', gaps, angles.length],
            ]),
          ),
        ] as const)
      : []),
    ...(inPick
      ? [
          ...grid('outlines.pick.gaps.atRest', inPick.atRest, inPick.quantiles.length, angles.length),
          ...grid('outlines.pick.gaps.inRun', inPick.inRun, inPick.quantiles.length, angles.length),
        ]
      : []),
    ...(tolerances?.rows ?? []).map(
      ({ staticGaps }): Sized => ['staticGaps of a tolerance', staticGaps, tolerances!.angles.length],
    ),
  ]);
  const isTyre = (name: string): boolean => tyres.some((tyre) => tyre.name === name);
  return (
    lengths ??
    referenceFault([
      ['chosen', within(result.chosen, tubs)],
      ['nearest', within(result.nearest, tubs)],
      ['build.tyre', isTyre(build.tyre)],
      ['existing', result.existing?.verdict.tyres.every(({ tyre }) => isTyre(tyre)) ?? true],
      ['asSetOut', (result.asSetOut === null) === (tolerances === null)],
      ['asSetOut.limitingTyre', result.asSetOut === null || isTyre(result.asSetOut.limitingTyre)],
      ...picks.flatMap(({ tub, height }, t): Reference[] => [
        [`picks.${t}.tub`, tub === tubs[t]!.name],
        [`picks.${t}.limitingTyre`, height === undefined || isTyre(height.limitingTyre)],
      ]),
      ...result.bestPlaces.map(
        (search, t): Reference => [
          `bestPlaces.${t}.best.limitingTyre`,
          search === null || search.best === null || isTyre(search.best.limitingTyre),
        ],
      ),
      ...(inPick ? [['outlines.pick.gaps.tyre', isTyre(inPick.tyre)] as const] : []),
    ])
  );
}

type Figures = readonly (readonly StudyCell[])[];

const figureLengths = (place: string, figures: Figures, tyres: number, tubs: number): Sized[] =>
  grid(place, figures, tyres + 1, tubs);

/** The same for a study. */
export function studyDisagreement(study: Study): string | undefined {
  const { tyres, tubs } = study;
  const sides = tubs.map((tub): Sized => [`sides of ${tub.name}`, tub.sides, tyres.length]);
  const chosen: Reference = ['chosen', within(study.chosen, tubs)];
  switch (study.kind) {
    case 'sweep':
      return (
        lengthFault([
          ...sides,
          ...study.varied.map(({ path, texts, values }): Sized => [path, values ?? texts, texts.length]),
          ...study.points.flatMap(({ at, tyres: own = tyres, figures }, p): Sized[] => [
            [`points.${p}.at`, at, study.varied.length],
            [`points.${p}.tyres`, own, tyres.length],
            ...figureLengths(`points.${p}.figures`, figures, tyres.length, tubs.length),
          ]),
        ]) ??
        referenceFault([
          chosen,
          ['points', study.points.length > 0],
          ['shown.tyres', study.shown.tyres.every((tyre) => within(tyre, tyres))],
          ...study.points.map(
            ({ at, chosen: own }, p): Reference => [
              `points.${p}`,
              within(own, tubs) && at.every((value, i) => within(value, study.varied[i]!.texts)),
            ],
          ),
        ])
      );
    case 'setups': {
      const [first] = study.setups;
      return (
        lengthFault([
          ...sides,
          ...study.setups.flatMap((setup, s): Sized[] => [
            [`setups.${s}.tyreOf`, setup.tyreOf, setup.tyres.length],
            [`setups.${s}.tubOf`, setup.tubOf, setup.tubs.length],
            ...figureLengths(`setups.${s}.figures`, setup.figures, setup.tyres.length, setup.tubs.length),
          ]),
        ]) ??
        referenceFault([
          chosen,
          ['setups', first !== undefined],
          ...study.setups.map(
            (setup, s): Reference => [
              `setups.${s}`,
              within(setup.chosen, setup.tubs) &&
                setup.tyreOf.every((tyre) => within(tyre, first!.tyres)) &&
                setup.tubOf.every((tub) => within(tub, first!.tubs)),
            ],
          ),
        ])
      );
    }
    case 'classes':
      return (
        lengthFault([
          ...sides,
          ['picks', study.picks, tubs.length],
          ...study.picks.map(({ alone }, t): Sized => [`picks.${t}.alone`, alone, tyres.length]),
        ]) ?? referenceFault([chosen])
      );
    case 'places':
      return (
        lengthFault([
          ...sides,
          ['places', study.places, tubs.length],
          ...study.places.flatMap(({ searched, best, inchBehind, inchAhead, own }, t) =>
            [...searched, best, inchBehind, inchAhead, own].flatMap((place): Sized[] =>
              place === null ? [] : [[`places.${t}`, place.cells, tyres.length + 1]],
            ),
          ),
        ]) ?? referenceFault([chosen])
      );
    case 'optimum': {
      const { ranges, places, own } = study;
      const cells = (place: string, list: readonly StudyCell[]): Sized => [place, list, tyres.length + 1];
      return (
        lengthFault([
          ...sides,
          ...ranges.map(({ path, texts, values }): Sized => [path, values ?? texts, texts.length]),
          ...ranges.flatMap(({ path, beyond }): Sized[] =>
            beyond === null ? [] : [cells(`beyond of ${path}`, beyond.cells)],
          ),
          ...places.flatMap(({ at, cells: own }, p): Sized[] => [
            [`places.${p}.at`, at, ranges.length],
            cells(`places.${p}`, own),
          ]),
          ...(own.cells === null ? [] : [cells('own', own.cells)]),
        ]) ??
        referenceFault([
          chosen,
          ['tub', within(study.tub, tubs)],
          ['places', places.length > 0],
          ...study.tried.map(({ tub }): Reference => ['tried', within(tub, tubs)]),
          ...ranges.map(
            ({ path, texts, best, from, to }): Reference => [
              path,
              [best, from, to].every((value) => within(value, texts)),
            ],
          ),
          ...places.map(
            ({ at }, p): Reference => [
              `places.${p}.at`,
              at.every((value, i) => within(value, ranges[i]!.texts)),
            ],
          ),
        ])
      );
    }
  }
}
