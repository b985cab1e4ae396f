import { DxfWriter, LWPolylineFlags, point3d, Units } from '@tarikjabiri/dxf';
import type { Result } from '@tubgap/results';
import { INCH, MM_PER_INCH } from '@tubgap/units';
import { figuresOf } from '../figures-of.ts';
import { boardWords, degreesText } from './board-words.ts';
import type { BoardPoint, Dummy } from './dummy.ts';

/** Pilot holes, m across: opened up to the hub's size on the bench. */
const PILOT = INCH / 8;
/** Letters, in. */
const TEXT_HEIGHT = 0.35;
const TICK = 0.012;

/** Layers by what the cutter does with them; colours are the standard's index numbers. */
const LAYERS = { cut: 'CUT', holes: 'HOLES', marks: 'MARKS', text: 'TEXT', round: 'ROUND' } as const;
const COLOURS = { CUT: 7, HOLES: 1, MARKS: 5, TEXT: 3, ROUND: 8 } as const;

/** A line of text that cannot break out of its place in the file, nor be read as a control code. */
const plainText = (text: string): string =>
  text
    .replace(/\p{C}+/gu, ' ')
    .replace(/%%/g, '% %')
    .replace(/\^/g, ' ')
    .replace(/\\/g, '/');

/** The unit of a drawing: so many m, and so many of it to the inch. */
interface Scale {
  unit: number;
  inch: number;
}

const INCHES: Scale = { unit: INCH, inch: 1 };
const MILLIMETRES: Scale = { unit: 1e-3, inch: MM_PER_INCH };

function drawBoard(dxf: DxfWriter, dummy: Dummy, { unit, inch }: Scale): void {
  const placed = ({ ahead, above }: BoardPoint): ReturnType<typeof point3d> =>
    point3d(ahead / unit, above / unit);
  const letters = TEXT_HEIGHT * inch;
  dxf.addLWPolyline(
    [...dummy.outline, ...dummy.closing].map((point) => ({ point: placed(point) })),
    { flags: LWPolylineFlags.Closed, layerName: LAYERS.cut },
  );
  for (const hole of dummy.holes) {
    dxf.addCircle(placed(hole), (0.5 * PILOT) / unit, { layerName: LAYERS.holes });
    for (const [ahead, above] of [
      [TICK, 0],
      [0, TICK],
    ] as const) {
      dxf.addLine(
        placed({ ahead: hole.ahead - ahead, above: hole.above - above }),
        placed({ ahead: hole.ahead + ahead, above: hole.above + above }),
        { layerName: LAYERS.marks },
      );
    }
    dxf.addText(
      point3d(hole.ahead / unit + 0.6 * inch, hole.above / unit + 0.15 * inch),
      letters,
      hole.mark,
      {
        layerName: LAYERS.text,
      },
    );
  }
  const top = dummy.outline[Math.floor(dummy.outline.length / 2)]!;
  dxf.addLine(placed({ ahead: 0, above: 0.5 * top.above }), placed(top), { layerName: LAYERS.marks });
  const write = (point: BoardPoint, words: string): void => {
    dxf.addText(placed(point), letters, words, { layerName: LAYERS.text });
  };
  write({ ahead: 0.006, above: 0.55 * top.above }, 'plumb line: straight up');
  const low = dummy.closing[0]!;
  write({ ahead: -0.04, above: low.above + 0.006 }, 'level: the tyre goes on below');
  dummy.outline.forEach((point, k) => {
    if (k % 15 !== 0) return;
    const share = 1 - TICK / Math.hypot(point.ahead, point.above);
    dxf.addLine(placed({ ahead: share * point.ahead, above: share * point.above }), placed(point), {
      layerName: LAYERS.marks,
    });
    const inner = 1 - (5 * TICK) / Math.hypot(point.ahead, point.above);
    write({ ahead: inner * point.ahead - 0.015, above: inner * point.above }, degreesText(dummy, k));
  });
}

/** A bar of 4 in and of 100 mm: who opens the file in the wrong unit sees it. */
function drawScale(dxf: DxfWriter, above: number, { inch }: Scale): void {
  const bar = (y: number, length: number, words: string): void => {
    dxf.addLine(point3d(0, y), point3d(length, y), { layerName: LAYERS.marks });
    for (const x of [0, length]) {
      dxf.addLine(point3d(x, y - 0.2 * inch), point3d(x, y + 0.2 * inch), { layerName: LAYERS.marks });
    }
    dxf.addText(point3d(length + 0.4 * inch, y - 0.15 * inch), TEXT_HEIGHT * inch, words, {
      layerName: LAYERS.text,
    });
  };
  bar(above, 4 * inch, '4 in: measure before you cut');
  bar(above - 0.8 * inch, (100 / MM_PER_INCH) * inch, '100 mm');
}

/** The template as DXF, in inches or in the millimetres of a metric case: board, round dummy beside it, hub holes, plumb line, marks every 15 degrees. */
export function templateDxf(result: Result, dummy: Dummy): string {
  const { length } = figuresOf(result);
  const isMetric = result.case.units === 'mm';
  const dxf = new DxfWriter();
  const scale = isMetric ? MILLIMETRES : INCHES;
  const { unit, inch } = scale;
  dxf.setUnits(isMetric ? Units.Millimeters : Units.Inches);
  dxf.setVariable('$MEASUREMENT', { 70: isMetric ? 1 : 0 });
  dxf.setVariable('$LASTSAVEDBY', { 1: plainText(result.madeBy) });
  for (const layer of Object.values(LAYERS)) dxf.addLayer(layer, COLOURS[layer]);
  drawBoard(dxf, dummy, scale);
  const radius = dummy.largestRadius / unit;
  const beside = point3d(2.2 * radius, 0);
  dxf.addCircle(beside, radius, { layerName: LAYERS.round });
  dxf.addCircle(beside, (0.5 * PILOT) / unit, { layerName: LAYERS.holes });
  dxf.addText(
    point3d(beside.x - 0.5 * radius, 0.4 * inch),
    TEXT_HEIGHT * inch,
    `round dummy, radius ${length(dummy.largestRadius, 'up')}; hole on the hub`,
    { layerName: LAYERS.text },
  );
  const below = Math.min(...dummy.outline.map((point) => point.above)) / unit - 2 * inch;
  drawScale(dxf, below, scale);
  boardWords(result, dummy).forEach((line, k) => {
    dxf.addText(point3d(-radius, below - 2 * inch - 0.6 * inch * k), TEXT_HEIGHT * inch, plainText(line), {
      layerName: LAYERS.text,
    });
  });
  return dxf.stringify();
}
