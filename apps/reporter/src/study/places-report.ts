import { type HeightPoint, heightLines } from '@tubgap/drawing';
import type { StudyCell, StudyOf } from '@tubgap/results';
import type { Figures } from '@tubgap/units';
import { INCH, SIXTEENTH } from '@tubgap/units';
import { BLANK, type Block, columnsOf, figureTable, row, type SheetTable, strongRow } from '@tubgap/wording';
import { figuresOf } from '../figures-of.ts';
import { rowNames } from './study-cells.ts';
import { decidedText, decidedWords, ending, headline, noHeight, tubText } from './study-words.ts';

type Places = StudyOf<'places'>;
type TubPlaces = Places['places'][number];
type Place = TubPlaces['own'];

const whole = (place: Place): StudyCell => place.cells.at(-1)!;

/** The best place as the search saw it: what was looked at on the way is held against that, by the same draws. */
const bestSearched = ({ best, searched }: TubPlaces): Place | undefined =>
  best === null
    ? undefined
    : searched.find(({ centreForward }) => Math.abs(centreForward - best.centreForward) < 1e-9);

/** The step of misplacement that is told, an inch, in the units of the case. */
const stepText = ({ units, length }: Figures): string =>
  units === 'mm' ? length(INCH, 'nearest') : 'an inch';

const whatIs = ({ inchBehind, inchAhead }: TubPlaces, { centreForward }: Place, figures: Figures): string => {
  const isThere = (place: Place | null): boolean => place?.centreForward === centreForward;
  if (isThere(inchBehind)) return `${stepText(figures)} behind the best`;
  return isThere(inchAhead) ? `${stepText(figures)} ahead of the best` : 'searched';
};

/** Every place that was looked at with every tyre, and all together, in every tub. */
export function placeTable(study: Places): SheetTable {
  const { units, cell, cellDifference } = figuresOf(study);
  const names = rowNames(study.tyres);
  const rows = study.places.flatMap((places, t) => {
    const heightAt = (place: Place | null | undefined): number | null =>
      (place && whole(place).heightAtRisk) ?? null;
    const [best, searchedBest] = [places.best, bestSearched(places)].map(heightAt);
    const named: [string, Place | null][] = [
      ...places.searched
        .filter((place) => place !== bestSearched(places))
        .map((place): [string, Place] => [whatIs(places, place, figuresOf(study)), place]),
      ['as in the case', places.own],
      ['best', places.best],
    ];
    return named.flatMap(([what, place]) => {
      if (place === null) return [];
      const isOfAll = place === places.own || place === places.best;
      const least = isOfAll ? best! : searchedBest!;
      return place.cells.map((found, i) => [
        study.case.name,
        study.tubs[t]!.name,
        cell(study.tubs[t]!.diameter),
        what,
        cell(place.centreForward),
        names[i]!,
        cell(found.topHeight),
        cell(found.heightAtRisk),
        i === names.length - 1 && least !== null && found.heightAtRisk !== null
          ? cellDifference(found.heightAtRisk, least)
          : '',
        decidedText(found),
        isOfAll ? study.draws : study.searchDraws,
        place === places.best && i === names.length - 1 ? cell(places.best.topHeight) : '',
      ]);
    });
  });
  return {
    columns: columnsOf(
      units,
      'case',
      'tub',
      'tub_diameter',
      'place',
      'centre_forward',
      'tyre',
      'run_top_height',
      'even_height',
      'above_best',
      'decided_by',
      'draws',
      'top_height',
    ),
    rows,
  };
}

const searchedText = ({ searched }: TubPlaces, { along }: Figures): string =>
  `${along(searched[0]!.centreForward)} to ${along(searched.at(-1)!.centreForward)}`;

/** What another place costs against the best in the same draws: '5/16 in more', or why it has no height. */
function costText(place: Place | null, best: Place | null | undefined, { more }: Figures): string {
  if (place === null || !best) return '';
  const cell = whole(place);
  if (cell.heightAtRisk === null) return `no height: ${noHeight(cell)}`;
  return `${more(Math.max(0, cell.heightAtRisk - whole(best).heightAtRisk!))}${cell.decidedBy === 'arc' ? '' : ` (${decidedWords(cell)} decides)`}`;
}

/** Why a tub has no good place. */
function nowhere(places: TubPlaces, figures: Figures): string {
  const cells = places.searched.map(whole);
  if (cells.length === 0) return 'the car has room for it at no place near the one it has';
  const looked = `no place looked at, from ${searchedText(places, figures)},`;
  if (cells.some(({ heightAtRisk }) => heightAtRisk !== null))
    return `${looked} is known to keep the accepted risks with a height that the car has room for`;
  const often = (cell: StudyCell): number =>
    cells.filter((other) => decidedText(other) === decidedText(cell)).length;
  const main = cells.toSorted((a, b) => often(b) - often(a))[0]!;
  return `${looked} has a height: ${noHeight(main)}`;
}

function placesTable(study: Places): Block {
  const off = stepText(figuresOf(study));
  const { length, along, more } = figuresOf(study);
  const short = (place: Place | null, best: Place | undefined): string => {
    if (place === null || best === undefined) return '';
    const cell = whole(place);
    const { heightAtRisk } = cell;
    if (heightAtRisk === null)
      return cell.decidedBy === 'arc' ? 'none' : `none: ${decidedText(cell)} in the way`;
    return more(Math.max(0, heightAtRisk - whole(best).heightAtRisk!));
  };
  const rows = study.places.map((places, t) => {
    const { best, own, inchBehind, inchAhead } = places;
    const { name } = study.tubs[t]!;
    if (best === null) return [name, 'none', '', '', '', ''];
    return [
      name,
      along(best.centreForward),
      length(best.topHeight, 'up'),
      short(own, best),
      short(inchBehind, bestSearched(places)),
      short(inchAhead, bestSearched(places)),
    ];
  });
  return figureTable(
    ['tub', 'best centre', 'top at least', 'as in the case', `${off} behind`, `${off} ahead`],
    rows,
  );
}

/** The tub that the words are about: that to build, else the smallest that has a good place. */
function reportedTub(study: Places): number {
  if (study.chosen !== null) return study.chosen;
  const found = [...study.places.keys()]
    .filter((t) => study.places[t]!.best !== null)
    .toSorted((a, b) => study.tubs[a]!.diameter - study.tubs[b]!.diameter);
  return found[0] ?? 0;
}

function inchOff(places: TubPlaces, figures: Figures): string {
  const { inchBehind, inchAhead } = places;
  const best = bestSearched(places);
  const [behind, ahead] = [costText(inchBehind, best, figures), costText(inchAhead, best, figures)];
  if (behind === ahead) return `further back or ahead: ${behind}`;
  return `further back: ${behind}; further ahead: ${ahead}`;
}

/** Where the tub is to stand, in words, and what an inch of misplacement costs. */
export function placeWords(study: Places): Block[] {
  const figures = figuresOf(study);
  const { length, along } = figures;
  const tub = reportedTub(study);
  const places = study.places[tub]!;
  const { best, own, asGood } = places;
  const name = tubText(figuresOf(study), study.tubs[tub]!);
  if (best === null) {
    return [
      ...headline(study),
      strongRow('BEST PLACE', `${name}: ${nowhere(places, figures)}`),
      BLANK,
      placesTable(study),
      BLANK,
      ...ending(study),
    ];
  }
  const where = along(best.centreForward);
  return [
    ...headline(study),
    strongRow('BEST PLACE', `${name}: centre ${where}, top at least ${length(best.topHeight, 'up')}`),
    strongRow('IN THE CASE', `${along(own.centreForward)}: ${costText(own, best, figures)}`),
    strongRow(`${stepText(figures).toUpperCase()} OFF`, inchOff(places, figures)),
    BLANK,
    ...(whole(best).decidedBy === 'arc'
      ? []
      : [row('Decides', `${decidedWords(whole(best))} decides at the best place, not the arc`)]),
    ...(places.atEnd
      ? [
          row(
            'At the end',
            `the best place lies at the end of what was looked at, from ${searchedText(places, figures)}: there may be a better one beyond`,
          ),
        ]
      : []),
    ...(asGood === null
      ? []
      : [
          row(
            'As good',
            `from ${along(asGood.from)} to ${along(asGood.to)}: within ${length(SIXTEENTH, 'up')} of height`,
          ),
        ]),
    BLANK,
    placesTable(study),
    BLANK,
    ...ending(study),
  ];
}

/** What stands this far above a tub's best height is not drawn, m: it would flatten all that matters. */
const DRAWN_ABOVE = 1.5 * INCH;

/** Height against the place of the centre, a line a tub. */
export function placeFigure(study: Places): string {
  const { units, length } = figuresOf(study);
  const unit = units === 'mm' ? 1e-3 : INCH;
  const curves = study.places.map(({ searched }, t) => {
    const pieces: HeightPoint[][] = [[]];
    const most = Math.min(...searched.map((place) => whole(place).heightAtRisk ?? Infinity)) + DRAWN_ABOVE;
    for (const place of searched) {
      const height = whole(place).heightAtRisk;
      if (height === null || height > most) {
        if (pieces.at(-1)!.length > 0) pieces.push([]);
        continue;
      }
      const value = Math.round((place.centreForward / unit) * 100) / 100;
      pieces.at(-1)!.push({ value, height, low: height, high: height });
    }
    return { label: study.tubs[t]!.name, pieces: pieces.filter((piece) => piece.length > 0) };
  });
  return heightLines({
    words: {
      id: 'place',
      title: 'Lowest top height against the fore-aft place of the tub',
      description:
        'Lowest top height of the whole car for the accepted run risk, against the place of the centre of each tub’s arc. A line ends where no height helps.',
    },
    units,
    axis: `centre of the arc ahead of the axle, ${units === 'mm' ? 'mm' : 'in'}`,
    curves: curves.filter(({ pieces }) => pieces.length > 0).slice(0, 5),
    own: { value: study.places[reportedTub(study)]!.own.centreForward / unit, text: 'as in the case' },
    note: `The whole car; inside of the tub, above the track. A line ends ${length(DRAWN_ABOVE, 'up').replaceAll(' ', '\u00a0')} above the best, or where no height helps.`,
    noneText: 'No place has a height that keeps the accepted risk.',
  });
}
