import { INCH_CELLS, MM_CELLS } from './cell.ts';
import { FOOT, INCH, KMH, MPH, SIXTEENTH } from './factors.ts';
import { formatQuantity, type QuantityKind } from './quantity.ts';
import { feetText, hundredths, mphText, psiText, shownQuantity } from './shop-text.ts';
import { shopWords, usualUnit } from './shop-words.ts';
import { alongText, changeText, gapWords, offsetText, onTape, type Rounding, shownLength } from './tape.ts';
import type { LengthUnits } from './told.ts';

/** A length, m, and the side that it is rounded to where it stands. */
type Shown = readonly [metres: number, rounding: Rounding];

/** How the papers of a case tell its figures: a shop reads those of its own tools, sixteenths or whole millimetres. */
export interface Figures {
  units: LengthUnits;
  /** '39 1/4 in', or '997 mm'. */
  length: (metres: number, rounding: Rounding) => string;
  /** The same length in the other units: '997 mm', or '39 1/4 in'. */
  other: (metres: number, rounding: Rounding) => string;
  /** '39 1/4 in (997 mm)', or '997 mm (39 1/4 in)'. */
  both: (metres: number, rounding: Rounding) => string;
  /** All three of one length. */
  shown: (metres: number, rounding: Rounding) => Readonly<Record<'own' | 'other' | 'both', string>>;
  /** A gap that is left, or that there is none. */
  gapLeft: (metres: number) => string;
  /** A place ahead of the axle, see `alongText`: also in the other units, in both, and beside a drawing's axle. */
  along: (metres: number) => string;
  alongOther: (metres: number) => string;
  alongBoth: (metres: number) => string;
  offset: (metres: number) => string;
  /** The least step of the tape, m, and a length on it. */
  step: number;
  onTape: (metres: number, rounding: Rounding) => number;
  /** What two shown lengths differ by, m. */
  tapeDifference: (more: Shown, less: Shown) => number;
  /** A change of a height in words, see `changeText`; `more` says 'the same' where a tape shows none. */
  changeText: (metres: number) => string | undefined;
  more: (metres: number) => string;
  /** Finer than a tape, for what is only reckoned: '0.43 in', or '10.9 mm'. */
  fine: (metres: number) => string;
  /** The number alone of `fine`. */
  fineNumber: (metres: number) => string;
  /** '224 mph', '1,320 ft', '6.0 psi' or '360 km/h', '402 m', '41.4 kPa'. */
  speedText: (metresPerSecond: number) => string;
  distanceText: (metres: number) => string;
  pressureText: (pascals: number) => string;
  /** Any quantity, thousands parted. */
  quantity: (value: number, kind: QuantityKind) => string;
  /** The same to five digits, as a case is written. */
  exact: (value: number, kind: QuantityKind) => string;
  /** Words that name measures, as a result keeps them. */
  wordsOf: (text: string, kind?: string) => string;
  /** Cells of a table, and heads of its columns: lengths on either side, speeds, distances. */
  column: (name: string) => string;
  cell: (metres: number | null | undefined) => string;
  /** What two cells differ by, of what they show. */
  cellDifference: (more: number, less: number) => string;
  cellUp: (metres: number) => string;
  cellDown: (metres: number) => string;
  speedColumn: (name: string) => string;
  speedNumber: (metresPerSecond: number) => number;
  distanceColumn: (name: string) => string;
  distanceNumber: (metres: number) => number;
}

/** What both have alike. */
function figures(units: LengthUnits): LengthFigures {
  const other: LengthUnits = units === 'inch' ? 'mm' : 'inch';
  const both = units === 'inch' ? 'both' : 'mm first';
  const step = units === 'inch' ? SIXTEENTH : 1e-3;
  const marked = (metres: number, rounding: Rounding): number => onTape(metres, rounding, units);
  return {
    units,
    length: (metres, rounding) => shownLength(metres, rounding)[units],
    other: (metres, rounding) => shownLength(metres, rounding)[other],
    both: (metres, rounding) => shownLength(metres, rounding)[both],
    shown: (metres, rounding) => {
      const all = shownLength(metres, rounding);
      return { own: all[units], other: all[other], both: all[both] };
    },
    gapLeft: (metres) => gapWords(metres, units),
    along: (metres) => alongText(metres, units),
    alongOther: (metres) => alongText(metres, other),
    alongBoth: (metres) => alongText(metres, both),
    offset: (metres) => offsetText(metres, units),
    step,
    onTape: marked,
    tapeDifference: ([more, moreSide], [less, lessSide]) => marked(more, moreSide) - marked(less, lessSide),
    changeText: (metres) => changeText(metres, units),
    more: (metres) => changeText(metres, units) ?? 'the same',
  };
}

type LengthFigures = Pick<
  Figures,
  | 'units'
  | 'length'
  | 'other'
  | 'both'
  | 'shown'
  | 'gapLeft'
  | 'along'
  | 'alongOther'
  | 'alongBoth'
  | 'offset'
  | 'step'
  | 'onTape'
  | 'tapeDifference'
  | 'changeText'
  | 'more'
>;

const FIGURES: Readonly<Record<LengthUnits, Figures>> = {
  inch: {
    ...figures('inch'),
    ...INCH_CELLS,
    fine: hundredths,
    fineNumber: (metres) => (metres / INCH).toFixed(2),
    speedText: mphText,
    distanceText: feetText,
    pressureText: psiText,
    quantity: shownQuantity,
    exact: (value, kind) => formatQuantity(value, kind),
    wordsOf: (text) => text,
    speedColumn: (name) => `${name}_mph`,
    speedNumber: (speed) => speed / MPH,
    distanceColumn: (name) => `${name}_ft`,
    distanceNumber: (metres) => metres / FOOT,
  },
  mm: {
    ...figures('mm'),
    ...MM_CELLS,
    fine: (metres) => `${(metres * 1000).toFixed(1)} mm`,
    fineNumber: (metres) => (metres * 1000).toFixed(1),
    speedText: (speed) => `${(speed / KMH).toFixed(0)} km/h`,
    distanceText: (metres) => `${metres.toFixed(0)} m`,
    pressureText: (pascals) => `${(pascals / 1000).toFixed(1)} kPa`,
    quantity: (value, kind) => shownQuantity(value, kind, usualUnit(kind, 'mm').name),
    exact: (value, kind) => formatQuantity(value, kind, usualUnit(kind, 'mm').name),
    wordsOf: (text, kind) => shopWords(text, 'mm', kind),
    speedColumn: (name) => `${name}_kmh`,
    speedNumber: (speed) => speed / KMH,
    distanceColumn: (name) => `${name}_m`,
    distanceNumber: (metres) => metres,
  },
};

/** The figures of those units; inches where a file names none. */
export const figuresIn = (units: LengthUnits = 'inch'): Figures => FIGURES[units];
