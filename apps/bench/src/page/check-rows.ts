import type { Case } from '@tubgap/casefile';
import { type CheckedPlace, type CheckReading, noReadings, readHandTables } from '@tubgap/evidence';
import { type CaseSetup, GAP_ANGLES, middleStaticGaps } from '@tubgap/simulation';
import { DEGREE, wholeDegrees } from '@tubgap/units';
import type { Carried } from '../carried/carried.ts';
import type { Measures } from '../carried/measures.ts';
import { SIDES, typedCheck } from './measured-tables.ts';
import type { Units } from './words.ts';

/** One blank of the check sheet on the page: where, what passes, and what was typed; m. */
export interface CheckRow extends CheckReading {
  /** Names its field: 'left 15', 'right top'. */
  key: string;
  text: string;
  /** Why what was typed cannot be. */
  problem: string | undefined;
}

/** What passes at a place, m; undefined where nothing says. */
export interface Limits {
  /** 'sheet': of the results that the page lies beside. 'page': from the lowest height within what is accepted. */
  from: 'sheet' | 'page';
  of: (side: string, place: CheckedPlace) => { least: number | undefined; most: number | undefined };
  /** Hub angles at which gaps are asked for, degrees. */
  angles: readonly number[];
}

const samePlace = (a: CheckedPlace, b: CheckedPlace): boolean =>
  a.kind === b.kind &&
  (a.kind !== 'gap' || b.kind !== 'gap' || wholeDegrees(a.angle) === wholeDegrees(b.angle)) &&
  (a.kind !== 'hard point' || b.kind !== 'hard point' || a.name === b.name);

/** What the check sheet of results lets pass, as its tables say. */
export function sheetLimits(sheet: NonNullable<Carried['sheet']>, source: Case, setup: CaseSetup): Limits {
  const readings = noReadings();
  readHandTables((file) => sheet.tables[file], source, setup, readings);
  const { checks } = readings;
  const asked = checks.flatMap(({ place }) => (place.kind === 'gap' ? [wholeDegrees(place.angle)] : []));
  return {
    from: 'sheet',
    angles: [...new Set([...GAP_ANGLES, ...asked])].sort((a, b) => a - b),
    of: (side, place) => {
      const found = checks.find((one) => one.side === side && samePlace(one.place, place));
      return { least: found?.least, most: found?.most };
    },
  };
}

/**
 * What passes by the page's own count: the gaps that are seen with the tub at the lowest height within what is accepted.
 * The builder's error is still in that count, so that it asks for more than a check sheet does.
 * @param lowest  that height, m; undefined where there is none or it is not known yet
 */
export function pageLimits(setup: CaseSetup, tub: number, lowest: number | undefined): Limits {
  const gaps = lowest === undefined ? undefined : middleStaticGaps(setup, tub, lowest, GAP_ANGLES);
  return {
    from: 'page',
    angles: GAP_ANGLES,
    of: (_, place) => ({
      least:
        place.kind === 'gap'
          ? gaps?.[(GAP_ANGLES as readonly number[]).indexOf(wholeDegrees(place.angle))]
          : place.kind === 'top height'
            ? lowest
            : undefined,
      most: undefined,
    }),
  };
}

/** Every blank of the check sheet, both sides, with what was typed in it. */
export function checkRows(
  { gaps, checks }: Measures,
  { angles, of }: Limits,
  hardPoints: readonly string[],
  units: Units,
): CheckRow[] {
  const places: [string, CheckedPlace, Readonly<Record<string, string>>][] = [
    ...angles.map((angle): [string, CheckedPlace, typeof gaps] => [
      String(angle),
      { kind: 'gap', angle: angle * DEGREE },
      gaps,
    ]),
    ['top', { kind: 'top height' }, checks],
    ['centre', { kind: 'centre forward' }, checks],
    ...hardPoints.map((name): [string, CheckedPlace, typeof gaps] => [
      `point ${name}`,
      { kind: 'hard point', name },
      checks,
    ]),
  ];
  return places.flatMap(([name, place, texts]) =>
    SIDES.map((side): CheckRow => {
      const key = `${side} ${name}`;
      const text = texts[key] ?? '';
      const { value, problem } = typedCheck(text, place, units);
      const own = { file: 'the check sheet', line: 0, date: '' };
      return { ...own, key, side, place, text, measured: value, problem, ...of(side, place) };
    }),
  );
}
