import { DEGREE, INCH, type LengthUnits } from '@tubgap/units';
import { scaleLinear } from 'd3-scale';
import { area, line } from 'd3-shape';
import { type Box, bottomAxis, leftAxis, multiples, rightAxis, stepFor } from './axes.ts';
import { BLUE, INK, PALE_BLUE, PALE_RUST, RUST } from './ink.ts';
import { legend, legendHeight } from './legend.ts';
import { axisUnits } from './length-axis.ts';
import { type Markup, markup } from './markup.ts';
import { label, type PictureWords, picture, straight, stroke, WIDTH } from './picture.ts';

/** How a gap spreads over runs at each hub angle, m. */
export interface GapSpread {
  low: readonly number[];
  middle: readonly number[];
  high: readonly number[];
}

export interface GapByAngle {
  words: PictureWords;
  /** Units that lead on the axes of lengths; left out: inches. */
  units?: LengthUnits | undefined;
  /** rad, rising. */
  angles: readonly number[];
  atRest: GapSpread;
  inRun: GapSpread;
  /** Of one rare run, at the moment that leaves it least, m; left out where it is not known. */
  rare?: { gaps: readonly number[]; label: string };
  /** m */
  reserve: number;
  reserveText: string;
  /** Hub angles that are shown, rad. */
  from: number;
  to: number;
}

const BOX: Box = { left: 30, right: 318, top: 30, bottom: 250 };

/** Gap to the tub by hub angle: standing still and at its smallest in a run, each with the spread over the runs. */
export function gapByAngle(drawn: GapByAngle): string {
  const shown = drawn.angles.flatMap((angle, k) =>
    angle >= drawn.from - 1e-9 && angle <= drawn.to + 1e-9 ? [k] : [],
  );
  const most = Math.max(...shown.map((k) => drawn.atRest.high[k]!), 2 * INCH);
  const { rare } = drawn;
  const least = Math.min(0, ...(rare === undefined ? [] : shown.map((k) => rare.gaps[k]!)));
  const { own, other } = axisUnits(drawn.units);
  // Gaps in whole inches, or tens of millimetres.
  const step = stepFor(most / own.size, own.name === 'in' ? [1, 2, 5] : [20, 50, 100], 9);
  const x = scaleLinear([drawn.from, drawn.to], [BOX.left, BOX.right]);
  const y = scaleLinear(
    [
      Math.floor(least / own.size / step) * step * own.size,
      Math.ceil(most / own.size / step) * step * own.size,
    ],
    [BOX.bottom, BOX.top],
  );
  const curve = line<number>((k) => x(drawn.angles[k]!)).digits(2);
  const through = (values: readonly number[]): string => curve.y((k) => y(values[k]!))(shown) ?? '';
  const band = ({ low, high }: GapSpread, ink: string): Markup => {
    const shape = area<number>(
      (k) => x(drawn.angles[k]!),
      (k) => y(low[k]!),
      (k) => y(high[k]!),
    ).digits(2);
    return markup`<path d="${shape(shown) ?? ''}" fill="${ink}"/>`;
  };
  const [bottom = 0, top = 0] = y.domain();
  const rows = [
    { style: REST, text: 'standing still; band: 9 cars in 10' },
    { style: RUN, text: 'smallest in a run; band: 9 runs in 10' },
    ...(rare === undefined ? [] : [{ style: RARE, text: rare.label }]),
  ];
  const beside =
    own.name === 'in' ? multiples(50, bottom * 1000, top * 1000) : multiples(1, bottom / INCH, top / INCH);
  const degrees = multiples(30, drawn.from / DEGREE, drawn.to / DEGREE);
  const body = markup`${leftAxis(
    BOX,
    multiples(step, bottom / own.size, top / own.size).map((count) => ({
      at: y(count * own.size),
      text: String(count),
    })),
    `gap, ${own.name}`,
  )}
${rightAxis(
  BOX,
  beside.map((count) => ({ at: y(count * other.size), text: String(count) })),
  other.name,
)}
${bottomAxis(
  BOX,
  degrees.map((degree) => ({
    at: x(degree * DEGREE),
    text: degree === 0 ? 'top' : `${degree < 0 ? '−' : ''}${Math.abs(degree)}°`,
  })),
  'behind  ·  degrees from straight up, at the axle  ·  ahead',
)}
${band(drawn.atRest, PALE_BLUE)}
${band(drawn.inRun, PALE_RUST)}
<path d="${through(drawn.atRest.middle)}" ${stroke({ ...REST, part: 'at rest' })}/>
<path d="${through(drawn.inRun.middle)}" ${stroke({ ...RUN, part: 'in a run' })}/>
${rare !== undefined && markup`<path d="${through(rare.gaps)}" ${stroke({ ...RARE, part: 'rare' })}/>`}
${straight(BOX.left, y(drawn.reserve), BOX.right, y(drawn.reserve), { ink: INK, dashes: '2 2', part: 'reserve' })}
${label(BOX.left + 4, Math.min(y(drawn.reserve) + 12, BOX.bottom - 3), drawn.reserveText, { halo: true })}
${legend(BOX.left, BOX.bottom + 53, rows)}`;
  return picture(drawn.words, WIDTH, BOX.bottom + 50 + legendHeight(rows), body);
}

const REST = { ink: BLUE, width: 1.6 };
const RUN = { ink: RUST, width: 1.6, dashes: '7 3' };
const RARE = { ink: RUST, width: 1.2, dashes: '2 2' };
