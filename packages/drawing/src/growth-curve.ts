import { INCH, KMH, MPH } from '@tubgap/units';
import { scaleLinear } from 'd3-scale';
import { area, line } from 'd3-shape';
import { type Box, bottomAxis, leftAxis, multiples, rightAxis, secondRow, stepFor } from './axes.ts';
import { BLUE, INK, PALE, PALE_BLUE, PAPER, SOFT_INK } from './ink.ts';
import { legend, legendHeight } from './legend.ts';
import { type Markup, markup } from './markup.ts';
import { type PictureWords, picture, straight, stroke, WIDTH } from './picture.ts';

/** A quantity by speed with the range that holds nine in ten. */
export interface SpeedBand {
  low: readonly number[];
  middle: readonly number[];
  high: readonly number[];
}

/** One speed of a log. */
export interface MeasuredPoint {
  /** m/s and m. */
  speed: number;
  value: number;
  sd: number;
  /** Whether the wheel rolled freely; driven points carry the slip's uncertainty and are drawn fainter. */
  free: boolean;
}

export interface GrowthPicture {
  words: PictureWords;
  /** m/s, rising; values in m. */
  speeds: readonly number[];
  before: SpeedBand;
  after: SpeedBand;
  points: readonly MeasuredPoint[];
  /** At the finish, m/s. */
  finish: number;
  /** What the points are, in words: the filled and the hollow ones; left out: those of run logs. */
  pointWords?: { free: string; other: string };
}

const LOG_POINTS = {
  free: 'run logs, rolling freely after the lift',
  other: 'driven: the slip is only guessed',
};

const BOX: Box = { left: 34, right: 318, top: 34, bottom: 270 };

const BEFORE = { ink: SOFT_INK, width: 1.4, dashes: '7 3' };
const AFTER = { ink: BLUE, width: 1.8 };

/** A tyre's growth by speed: as assumed before, as learned, and what the logs showed. */
export function growthPicture(drawn: GrowthPicture): string {
  const { speeds, before, after, points, pointWords = LOG_POINTS } = drawn;
  const most = Math.max(...before.high, ...after.high, ...points.map(({ value }) => value));
  const step = stepFor(most / INCH, [0.1, 0.25, 0.5, 1], 8);
  const x = scaleLinear([0, speeds.at(-1)!], [BOX.left, BOX.right]);
  const y = scaleLinear([0, Math.ceil(most / INCH / step) * step * INCH], [BOX.bottom, BOX.top]);
  const index = speeds.map((_, k) => k);
  const band = ({ low, high }: SpeedBand, ink: string): Markup => {
    const shape = area<number>(
      (k) => x(speeds[k]!),
      (k) => y(low[k]!),
      (k) => y(high[k]!),
    ).digits(2);
    return markup`<path d="${shape(index) ?? ''}" fill="${ink}"/>`;
  };
  const through = ({ middle }: SpeedBand): string =>
    line<number>(
      (k) => x(speeds[k]!),
      (k) => y(middle[k]!),
    ).digits(2)(index) ?? '';
  const dot = ({ speed, value, sd, free }: MeasuredPoint): Markup => {
    const [cx, cy] = [x(speed), y(value)];
    const ink = free ? INK : SOFT_INK;
    return markup`${straight(cx, y(Math.max(0, value - sd)), cx, y(value + sd), { ink, width: 0.7 })}<circle cx="${cx}" cy="${cy}" r="2.4" fill="${free ? INK : PAPER}" stroke="${ink}" stroke-width="0.8" data-part="${free ? 'rolling' : 'driven'}"/>`;
  };
  const top = speeds.at(-1)!;
  const inches = multiples(step, 0, y.domain()[1]! / INCH);
  const mm = multiples(stepFor(y.domain()[1]! * 1000, [2, 5, 10, 20], 10), 0, y.domain()[1]! * 1000);
  const mph = multiples(stepFor(top / MPH, [10, 25, 50], 8), 0, top / MPH);
  const kmh = multiples(stepFor(top / KMH, [20, 50, 100], 8), 0, top / KMH);
  const inside = points.filter(
    ({ speed, value, sd }) => speed <= top && value > 0 && value + sd <= y.domain()[1]!,
  );
  const rows = [
    { style: BEFORE, text: 'as assumed; pale: nine cars in ten' },
    { style: AFTER, text: 'as learned; blue: nine cars in ten' },
  ];
  const legendAt = BOX.bottom + 62;
  const body = markup`${leftAxis(
    BOX,
    inches.map((inch) => ({ at: y(inch * INCH), text: String(Number(inch.toFixed(2))) })),
    'growth of the radius, in',
  )}
${rightAxis(
  BOX,
  mm.map((value) => ({ at: y(value / 1000), text: String(value) })),
  'mm',
)}
${bottomAxis(
  BOX,
  mph.map((speed) => ({ at: x(speed * MPH), text: String(speed) })),
  'speed of the tread: km/h above, mph below',
  28,
)}
${secondRow(
  BOX,
  kmh.map((speed) => ({ at: x(speed * KMH), text: String(speed) })),
  15,
)}
${band(before, PALE)}
${band(after, PALE_BLUE)}
<path d="${through(before)}" ${stroke({ ...BEFORE, part: 'before' })}/>
<path d="${through(after)}" ${stroke({ ...AFTER, part: 'after' })}/>
${straight(x(drawn.finish), BOX.top, x(drawn.finish), BOX.bottom, { ink: INK, dashes: '2 2', part: 'finish' })}
${inside.map(dot)}
${legend(BOX.left, legendAt, rows)}
<circle cx="${BOX.left + 13}" cy="${legendAt + 26}" r="2.4" fill="${INK}"/><text x="${BOX.left + 33}" y="${legendAt + 30}">${pointWords.free}</text>
<circle cx="${BOX.left + 13}" cy="${legendAt + 41}" r="2.4" fill="${PAPER}" stroke="${SOFT_INK}" stroke-width="0.8"/><text x="${BOX.left + 33}" y="${legendAt + 45}">${pointWords.other}</text>`;
  return picture(drawn.words, WIDTH, legendAt + 36 + legendHeight(rows), body);
}
