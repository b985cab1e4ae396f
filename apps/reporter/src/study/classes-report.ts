import type { StudyOf } from '@tubgap/results';
import { preferred, type SideFault, sideWords, type TubRoom } from '@tubgap/simulation';
import {
  BLANK,
  type Block,
  columnsOf,
  figureTable,
  row,
  type SheetTable,
  strongRow,
  yesNo,
} from '@tubgap/wording';
import { figuresOf } from '../figures-of.ts';
import { verdictWord } from '../fit-words.ts';
import { ending, headline, listText, tubText } from './study-words.ts';

type Classes = StudyOf<'classes'>;

/** How one tyre stands in one tub. */
interface Fit {
  /** Lowest top height of this tyre alone, m; null where none keeps the accepted risk. */
  alone: number | null;
  /** What keeps it out at the sides. */
  sides: readonly SideFault[];
  /** What it adds to the height that the car's other tyres ask for, m; null where either has none. */
  adds: number | null;
}

const greatest = (heights: readonly (number | null)[]): number | null =>
  heights.some((height) => height === null) ? null : Math.max(0, ...(heights as number[]));

function fitOf(study: Classes, tub: number, tyre: number): Fit {
  const { alone } = study.picks[tub]!;
  const all = greatest(alone);
  const others = greatest(alone.filter((_, i) => i !== tyre));
  return {
    alone: alone[tyre]!,
    sides: study.tubs[tub]!.sides[tyre]!,
    adds: all === null || others === null || others === 0 ? null : all - others,
  };
}

const goesIn = ({ alone, sides }: Fit): boolean => alone !== null && sides.length === 0;

/** Index of the tub that a pick would choose of those that a tyre, or every tyre, goes into: one in stock before any other. */
function bestTub(
  study: Classes,
  fits: (tub: number) => boolean,
  height: (tub: number) => number,
): number | undefined {
  const room = (t: number): TubRoom => ({
    diameter: study.tubs[t]!.diameter,
    topHeight: height(t),
    order: study.tubs[t]!.inStock === false,
  });
  return [...study.tubs.keys()]
    .filter(fits)
    .reduce<number | undefined>(
      (best, t) => (best === undefined || preferred(room(t), room(best)) ? t : best),
      undefined,
    );
}

/** Which tyre fits which tub at which height, and what each adds to the car. */
export function classesTable(study: Classes): SheetTable {
  const { units, cell } = figuresOf(study);
  const rows = study.tubs.flatMap((tub, t) => {
    const pick = study.picks[t]!;
    return study.tyres.map((tyre, i) => {
      const fit = fitOf(study, t, i);
      return [
        study.case.name,
        tub.name,
        cell(tub.diameter),
        tyre,
        yesNo(goesIn(fit)),
        cell(fit.alone),
        cell(fit.adds),
        cell(greatest(pick.alone)),
        cell(pick.topHeight),
        verdictWord(pick.verdict),
        pick.decidedBy ?? '',
        [sideWords(fit.sides), fit.alone === null ? pick.reason : ''].filter(Boolean).join('; '),
        study.draws,
      ];
    });
  });
  return {
    columns: columnsOf(
      units,
      'case',
      'tub',
      'tub_diameter',
      'tyre',
      'fits',
      'run_top_height',
      'adds_to_others',
      'run_top_height_all',
      'top_height',
      'all_tyres_fit',
      'decided_by',
      'why_not',
      'draws',
    ),
    rows,
  };
}

function fitTable(study: Classes): Block {
  const { length } = figuresOf(study);
  const rows = study.tubs.map((tub, t) => {
    const { topHeight, verdict } = study.picks[t]!;
    const none = verdict === 'not known' ? 'not known' : 'no height';
    return [
      tub.name,
      length(tub.diameter, 'down'),
      ...study.tyres.map((_, i) => {
        const { alone, sides } = fitOf(study, t, i);
        if (sides.length > 0) return 'too wide';
        return alone === null ? none : length(alone, 'up');
      }),
      topHeight === null ? none : `${length(topHeight, 'up')}${verdict === 'fits' ? '' : ' (too wide)'}`,
    ];
  });
  return figureTable(['tub', 'inside', ...study.tyres, 'whole car, season too'], rows);
}

/** What one tyre costs in height where all go in. */
function priceRows(study: Classes, tub: number): Block[] {
  const { length } = figuresOf(study);
  if (study.tyres.length < 2) return [];
  const words = study.tyres.flatMap((tyre, i) => {
    const { adds } = fitOf(study, tub, i);
    if (adds === null) return [];
    return [`adding ${tyre} costs ${adds < 1e-6 ? 'no height' : `${length(adds, 'nearest')} of height`}`];
  });
  return words.map((text, i) => row(i === 0 ? 'Each tyre' : '', `in ${study.tubs[tub]!.name} ${text}`));
}

/** Which tyres fit which tubs, the smallest common one, and what each tyre costs, in words. */
export function classesText(study: Classes): Block[] {
  const { length } = figuresOf(study);
  const common = bestTub(
    study,
    (t) => study.tyres.every((_, i) => goesIn(fitOf(study, t, i))),
    (t) => greatest(study.picks[t]!.alone)!,
  );
  const alone = study.tyres.map((tyre, i) => {
    const tub = bestTub(
      study,
      (t) => goesIn(fitOf(study, t, i)),
      (t) => fitOf(study, t, i).alone!,
    );
    return `${tyre}: ${tub === undefined ? 'none' : `${study.tubs[tub]!.name}${orderWords(study, tub)}, top at least ${length(fitOf(study, tub, i).alone!, 'up')}`}`;
  });
  return [
    ...headline(study),
    strongRow(
      'COMMON TUB',
      common === undefined
        ? `none: no tub of the case takes ${listText(study.tyres)} at any height`
        : `${tubText(figuresOf(study), study.tubs[common]!)} takes least room for ${listText(study.tyres)}${orderWords(study, common)}: top at least ${length(greatest(study.picks[common]!.alone)!, 'up')} for a run's risk${seasonWords(study, common)}`,
    ),
    ...(common !== undefined && study.chosen !== common
      ? [
          row(
            '',
            study.chosen === null
              ? 'but the car has no room for any (tubgap pick says where)'
              : `but the car has room only for ${study.tubs[study.chosen]!.name}`,
          ),
        ]
      : []),
    ...alone.map((words, i) => row(i === 0 ? 'Alone' : '', words)),
    ...(common === undefined ? [] : priceRows(study, common)),
    BLANK,
    fitTable(study),
    BLANK,
    ...ending(study),
  ];
}

/** That a tub is to be ordered; of one in stock nothing. */
const orderWords = (study: Classes, tub: number): string =>
  study.tubs[tub]!.inStock === false ? ' (to order: none in stock does)' : '';

function seasonWords(study: Classes, tub: number): string {
  const { length } = figuresOf(study);
  const { alone, topHeight } = study.picks[tub]!;
  const all = greatest(alone);
  if (topHeight === null || all === null || topHeight <= all + 1e-9) return '';
  return `, ${length(topHeight, 'up')} with the season's`;
}
