import { DxfWriter, LWPolylineFlags, point3d, Units } from '@tarikjabiri/dxf';
import type { Result } from '@tubgap/results';
import { INCH, MM_PER_INCH } from '@tubgap/units';
import { figuresOf } from '../figures-of.ts';
import { boardWords, degreesText } from './board-words.ts';
import type { BoardPoint, Dummy } from './dummy.ts';

/** Pilot holes, m across: opened up to the hub's size on the bench. */
const PILOT = INCH / 8;
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

const inInches = ({ ahead, above }: BoardPoint): ReturnType<typeof point3d> =>
  point3d(ahead / INCH, above / INCH);

function drawBoard(dxf: DxfWriter, dummy: Dummy): void {
  dxf.addLWPolyline(
    [...dummy.outline, ...dummy.closing].map((point) => ({ point: inInches(point) })),
    { flags: LWPolylineFlags.Closed, layerName: LAYERS.cut },
  );
  for (const hole of dummy.holes) {
    dxf.addCircle(inInches(hole), (0.5 * PILOT) / INCH, { layerName: LAYERS.holes });
    for (const [ahead, above] of [
      [TICK, 0],
      [0, TICK],
    ] as const) {
      dxf.addLine(
        inInches({ ahead: hole.ahead - ahead, above: hole.above - above }),
        inInches({ ahead: hole.ahead + ahead, above: hole.above + above }),
        { layerName: LAYERS.marks },
      );
    }
    dxf.addText(point3d(hole.ahead / INCH + 0.6, hole.above / INCH + 0.15), TEXT_HEIGHT, hole.mark, {
      layerName: LAYERS.text,
    });
  }
  const top = dummy.outline[Math.floor(dummy.outline.length / 2)]!;
  dxf.addLine(inInches({ ahead: 0, above: 0.5 * top.above }), inInches(top), { layerName: LAYERS.marks });
  const write = (point: BoardPoint, words: string): void => {
    dxf.addText(inInches(point), TEXT_HEIGHT, words, { layerName: LAYERS.text });
  };
  write({ ahead: 0.006, above: 0.55 * top.above }, 'plumb line: straight up');
  const low = dummy.closing[0]!;
  write({ ahead: -0.04, above: low.above + 0.006 }, 'level: the tyre goes on below');
  dummy.outline.forEach((point, k) => {
    if (k % 15 !== 0) return;
    const share = 1 - TICK / Math.hypot(point.ahead, point.above);
    dxf.addLine(inInches({ ahead: share * point.ahead, above: share * point.above }), inInches(point), {
      layerName: LAYERS.marks,
    });
    const inner = 1 - (5 * TICK) / Math.hypot(point.ahead, point.above);
    write({ ahead: inner * point.ahead - 0.015, above: inner * point.above }, degreesText(dummy, k));
  });
}

/** A bar of 4 in and of 100 mm: who opens the file in the wrong unit sees it. */
function drawScale(dxf: DxfWriter, above: number): void {
  const bar = (y: number, length: number, words: string): void => {
    dxf.addLine(point3d(0, y), point3d(length, y), { layerName: LAYERS.marks });
    for (const x of [0, length]) {
      dxf.addLine(point3d(x, y - 0.2), point3d(x, y + 0.2), { layerName: LAYERS.marks });
    }
    dxf.addText(point3d(length + 0.4, y - 0.15), TEXT_HEIGHT, words, { layerName: LAYERS.text });
  };
  bar(above, 4, '4 in: measure before you cut');
  bar(above - 0.8, 100 / MM_PER_INCH, '100 mm');
}

/** The template as DXF in inches: board, round dummy beside it, hub holes, plumb line, marks every 15 degrees. */
export function templateDxf(result: Result, dummy: Dummy): string {
  const { length } = figuresOf(result);
  const dxf = new DxfWriter();
  dxf.setUnits(Units.Inches);
  dxf.setVariable('$MEASUREMENT', { 70: 0 });
  dxf.setVariable('$LASTSAVEDBY', { 1: plainText(result.madeBy) });
  for (const layer of Object.values(LAYERS)) dxf.addLayer(layer, COLOURS[layer]);
  drawBoard(dxf, dummy);
  const radius = dummy.largestRadius / INCH;
  const beside = point3d(2.2 * radius, 0);
  dxf.addCircle(beside, radius, { layerName: LAYERS.round });
  dxf.addCircle(beside, (0.5 * PILOT) / INCH, { layerName: LAYERS.holes });
  dxf.addText(
    point3d(beside.x - 0.5 * radius, 0.4),
    TEXT_HEIGHT,
    `round dummy, radius ${length(dummy.largestRadius, 'up')}; hole on the hub`,
    { layerName: LAYERS.text },
  );
  const below = Math.min(...dummy.outline.map((point) => point.above)) / INCH - 2;
  drawScale(dxf, below);
  boardWords(result, dummy).forEach((line, k) => {
    dxf.addText(point3d(-radius, below - 2 - 0.6 * k), TEXT_HEIGHT, plainText(line), {
      layerName: LAYERS.text,
    });
  });
  return dxf.stringify();
}
