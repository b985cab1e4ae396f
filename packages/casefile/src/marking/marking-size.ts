import { type Construction, nominalSize } from '@tubgap/core';
import type { TyreMarking, WidthMeaning } from './tyre-marking.ts';

/** A length that is not known but for its limits, m. */
export interface LengthRange {
  low: number;
  nominal: number;
  high: number;
}

/**
 * Section height of a new tyre over that of its marking, by construction: UN Regulation 30, 6.1.4 (from memory), 0.97 and
 * 1.04 for a radial, 1.08 for a bias tyre. Tyres made for competition are out of its scope: it is the nearest there is.
 */
const HEIGHT_LIMITS: Readonly<Record<Construction, readonly [number, number]>> = {
  radial: [0.97, 1.04],
  bias: [0.97, 1.08],
};

/**
 * Diameter of a competition tyre over the one in its inch marking, judgement: no standard fixes it. A bias slick grows
 * from its mounted size over its first runs, a radial hardly (word of the trade, no figures).
 */
const INCH_LIMITS: Readonly<Record<Construction, readonly [number, number]>> = {
  radial: [0.985, 1.015],
  bias: [0.985, 1.025],
};

const MM = 1e-3;
/** A length rounded to whole millimetres, m. */
const wholeMillimetres = (metres: number): number => Math.round(metres / MM + 1e-9) * MM;

/** Free diameter of a metric marking by the regulation's rule, m: rim and section height each rounded to 1 mm. */
export function ruleDiameter(width: number, aspect: number, rim: number): number {
  return wholeMillimetres(rim) + 2 * wholeMillimetres(nominalSize(width, aspect, rim).sectionHeight);
}

/**
 * Free diameter that a marking allows, m: one marking covers about an inch on a 315/60R15, as much as a whole clearance,
 * so a rollout by tape is asked for next. Metric: between d + 2·0.97 H and d + 2·1.04 H (bias: 1.08), H and d rounded to
 * 1 mm. Inch: a range of judgement about the nominal diameter.
 * @param construction  as told; the marking's own hint gives way to it
 */
export function diameterPrior(
  marking: Exclude<TyreMarking, { form: 'rollout' }>,
  construction: Construction,
): LengthRange {
  if (marking.form === 'inch') {
    const [low, high] = INCH_LIMITS[construction];
    return { low: low * marking.diameter, nominal: marking.diameter, high: high * marking.diameter };
  }
  const { width, aspect, rim } = marking;
  const nominal = ruleDiameter(width, aspect, rim);
  const across = wholeMillimetres(rim);
  const height = nominal - across;
  const [low, high] = HEIGHT_LIMITS[construction];
  return { low: across + low * height, nominal, high: across + high * height };
}

/** Width of the rim on which a marking's section is measured, over that section: 0.7 for ordinary sizes (from memory). */
const MEASURING_RIM = 0.7;

/**
 * Section width on a rim of another width than the measuring one, m, rounded to 1 mm: S = S1 + 0.4 (A − 0.7 S1).
 * Source: UN Regulation 30, 6.1.1.1 as amended; the share 0.7 is from memory. Beyond the rims that a maker allows it is
 * stretched.
 * @param marked  S1, m
 * @param rimWidth  A, between the flanges, m
 */
export const sectionOnRim = (marked: number, rimWidth: number): number =>
  wholeMillimetres(marked + 0.4 * (rimWidth - MEASURING_RIM * marked));

/** Tread over section width of a slick or drag radial, judgement; both invented tyres of the demo lie near it. */
export const TREAD_SHARE = 0.86;
/** Half of the range of that share. */
const TREAD_SHARE_SPREAD = 0.05;

/** Section and tread width, each with its limits, m. */
export interface Widths {
  section: LengthRange;
  tread: LengthRange;
}

const spread = (nominal: number, low: number, high: number): LengthRange => ({
  low: nominal * low,
  nominal,
  high: nominal * high,
});

/** Limits of a section: 4 % wider at most by the regulation (bias 6 %, from memory), as much narrower by judgement. */
const SECTION_SPREAD = 0.05;

/**
 * What a nominal width says of section and tread. Where it is not known which of the two it is, both ranges take both
 * readings in, and only touch.
 * @param width  m
 */
export function widthsOf(width: number, means: WidthMeaning): Widths {
  const [least, most] = [TREAD_SHARE - TREAD_SHARE_SPREAD, TREAD_SHARE + TREAD_SHARE_SPREAD];
  if (means === 'section') {
    const section = spread(width, 1 - SECTION_SPREAD, 1 + SECTION_SPREAD);
    return {
      section,
      tread: spread(TREAD_SHARE * width, least / TREAD_SHARE, (1 - SECTION_SPREAD) / TREAD_SHARE),
    };
  }
  if (means === 'tread') {
    const section = width / TREAD_SHARE;
    return {
      tread: spread(width, 0.98, 1.02),
      section: { low: width / most, nominal: section, high: width / least },
    };
  }
  const middle = { section: (width * (1 + 1 / TREAD_SHARE)) / 2, tread: (width * (1 + TREAD_SHARE)) / 2 };
  return {
    section: { low: width, nominal: middle.section, high: width / TREAD_SHARE },
    tread: { low: TREAD_SHARE * width, nominal: middle.tread, high: width },
  };
}
