import { KMH, type LengthUnits, MPH } from '@tubgap/units';
import { scaleLinear } from 'd3-scale';
import { area, line } from 'd3-shape';
import {
  type Box,
  bottomAxis,
  leftAxis,
  multiples,
  rightAxis,
  secondRow,
  stepFor,
  type Tick,
} from './axes.ts';
import { BLUE, INK, PALE, PALE_BLUE, PAPER, SOFT_INK } from './ink.ts';
import { legend, legendHeight } from './legend.ts';
import { axisUnits, unitTicks } from './length-axis.ts';
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
  /** Units that lead on the axes of lengths; left out: inches. */
  units?: LengthUnits | undefined;
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

/** A number with a true minus. */
const signed = (count: number): string => `${count < 0 ? '−' : ''}${Math.abs(count)}`;

const BEFORE = { ink: SOFT_INK, width: 1.4, dashes: '7 3' };
const AFTER = { ink: BLUE, width: 1.8 };

/** A tyre's growth by speed: as assumed before, as learned, and what the logs showed. */
export function growthPicture(drawn: GrowthPicture): string {
  const { speeds, before, after, points, pointWords = LOG_POINTS } = drawn;
  const most = Math.max(...before.high, ...after.high, ...points.map(({ value }) => value));
  // A tyre that rolls freely reads below its outer radius: some of its points lie below 0.
  const least = Math.min(0, ...points.map(({ value }) => value));
  const { own, other } = axisUnits(drawn.units);
  const step = stepFor(most / own.size, own.fineSteps, 8);
  const x = scaleLinear([0, speeds.at(-1)!], [BOX.left, BOX.right]);
  const low = Math.floor(least / own.size / step + 1e-9) * step * own.size;
  const high = Math.ceil(most / own.size / step) * step * own.size;
  const y = scaleLinear([low, high], [BOX.bottom, BOX.top]);
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
    return markup`${straight(cx, y(Math.max(low, value - sd)), cx, y(Math.min(high, value + sd)), { ink, width: 0.7 })}<circle cx="${cx}" cy="${cy}" r="2.4" fill="${free ? INK : PAPER}" stroke="${ink}" stroke-width="0.8" data-part="${free ? 'rolling' : 'driven'}"/>`;
  };
  const top = speeds.at(-1)!;
  const speedTicks = (unit: number, counts: readonly number[]): Tick[] =>
    counts.map((speed) => ({ at: x(speed * unit), text: String(speed) }));
  const mph = speedTicks(MPH, multiples(stepFor(top / MPH, [10, 25, 50], 8), 0, top / MPH));
  const kmh = speedTicks(KMH, multiples(stepFor(top / KMH, [20, 50, 100], 8), 0, top / KMH));
  const inside = points.filter(({ speed }) => speed <= top);
  const rows = [
    { style: BEFORE, text: 'as assumed; pale: nine cars in ten' },
    { style: AFTER, text: 'as learned; blue: nine cars in ten' },
  ];
  const legendAt = BOX.bottom + 62;
  const body = markup`${leftAxis(
    BOX,
    unitTicks(own, [step], low, high, 1, y, signed),
    `growth of the radius, ${own.name}`,
  )}
${rightAxis(BOX, unitTicks(other, other.fineSteps, low, high, 10, y, signed), other.name)}
${bottomAxis(BOX, own.name === 'in' ? mph : kmh, `speed of the tread: ${own.name === 'in' ? 'km/h above, mph' : 'mph above, km/h'} below`, 28)}
${secondRow(BOX, own.name === 'in' ? kmh : mph, 15)}
${low < 0 && straight(BOX.left, y(0), BOX.right, y(0), { ink: INK, width: 0.8, part: 'no growth' })}
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
