import { oneIn } from '@tubgap/units';
import { scaleLog } from 'd3-scale';
import { type Box, bottomAxis, leftAxis } from './axes.ts';
import { BLUE, INK, PAPER, SOFT_INK } from './ink.ts';
import { type Markup, markup } from './markup.ts';
import { type PictureWords, picture, straight, WIDTH } from './picture.ts';

/** Forecasts of about the same chance, and the share that came true with its interval. */
export interface ReliabilityPoint {
  /** Mean of the forecasts, and the share that came true, 0 to 1. */
  foretold: number;
  share: number;
  low: number;
  high: number;
}

export interface Reliability {
  words: PictureWords;
  points: readonly ReliabilityPoint[];
}

const BOX: Box = { left: 62, right: 334, top: 34, bottom: 250 };
/** What is rarer stands at this edge. */
const RAREST = 1e-4;
const TICKS = [1e-4, 1e-3, 1e-2, 1e-1, 1];
const tickText = (chance: number): string => (chance === 1 ? 'always' : oneIn(chance));

/**
 * How often what was foretold came true: on the slanted line chances are what happens. A share of none stands hollow at the
 * lower edge, with the bound that its count allows.
 */
export function reliabilityPicture({ words, points }: Reliability): string {
  const x = scaleLog([RAREST, 1], [BOX.left, BOX.right]).clamp(true);
  const y = scaleLog([RAREST, 1], [BOX.bottom, BOX.top]).clamp(true);
  const dot = ({ foretold, share, low, high }: ReliabilityPoint): Markup => {
    const [cx, cy] = [x(Math.max(RAREST, foretold)), y(Math.max(RAREST, share))];
    return markup`${straight(cx, y(Math.max(RAREST, low)), cx, y(Math.max(RAREST, high)), { ink: BLUE, width: 1.6 })}<circle cx="${cx}" cy="${cy}" r="3.4" fill="${share > 0 ? INK : PAPER}" stroke="${INK}" data-part="forecasts"/>`;
  };
  const body = markup`${leftAxis(
    BOX,
    TICKS.map((chance) => ({ at: y(chance), text: chance === RAREST ? 'rarer' : tickText(chance) })),
    'share that left a mark',
  )}
${bottomAxis(
  BOX,
  TICKS.map((chance) => ({ at: x(chance), text: chance === RAREST ? 'rarer' : tickText(chance) })),
  'chance of a mark, foretold from the other cars',
)}
${straight(BOX.left, BOX.bottom, BOX.right, BOX.top, { ink: SOFT_INK, dashes: '5 3', part: 'as foretold' })}
${points.map(dot)}`;
  return picture(words, WIDTH, BOX.bottom + 42, body);
}
