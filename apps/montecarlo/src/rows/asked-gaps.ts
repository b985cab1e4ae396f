import type { Case } from '@tubgap/casefile';
import { BAD_INPUT, indexNamed, stop } from '@tubgap/casefile/command-line';
import type { AskedGaps } from '@tubgap/simulation';
import { DEGREE } from '@tubgap/units';

/** What a command line says of gaps; height m. */
export interface GapOptions {
  gaps?: readonly number[] | undefined;
  tub?: string | undefined;
  height?: number | undefined;
}

/** Most hub angles of one table. */
export const MOST_ANGLES = 121;

/** The gaps that are asked for: angles, and the tub at its height. @throws Stop where something of it is missing */
export function askedGaps(source: Case, { gaps = [], tub, height }: GapOptions): AskedGaps | undefined {
  if (gaps.length === 0) {
    if (tub === undefined && height === undefined) return undefined;
    return stop('--gaps: say at which hub angles, in degrees, such as --gaps 0,30,45.', BAD_INPUT);
  }
  if (height === undefined) {
    return stop(
      '--height: a gap is one to a tub at its height; say it, such as --height "39 1/4 in".',
      BAD_INPUT,
    );
  }
  const only = source.tubs.length === 1 ? 0 : undefined;
  const index = indexNamed(source.tubs, tub, 'tub') ?? only;
  if (index === undefined) {
    const names = source.tubs.map(({ name }) => name).join(', ');
    return stop(`--tub: say to which tub the gaps are; the case has ${names}.`, BAD_INPUT);
  }
  return { tub: index, topHeight: height, angles: gaps.map((degrees) => degrees * DEGREE) };
}
