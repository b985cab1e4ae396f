import { INK } from '@tubgap/drawing';
import type { Result } from '@tubgap/results';
import { INCH } from '@tubgap/units';
import { unbroken } from '@tubgap/wording';
import PDFDocument from 'pdfkit';
import { boardWords, degreesText } from './board-words.ts';
import type { BoardPoint, Dummy } from './dummy.ts';
import { FOOT, MARGIN, OVERLAP, type Paper, type Tile, type Tiling, tilesOf } from './tiles.ts';

type Page = PDFKit.PDFDocument;

/** PDF points a metre: 72 to the inch. */
const POINT = 72 / INCH;
const TICK = 0.012;
const GREY = '#767676';

/** Letters that the PDF's built-in fonts have; others become a question mark. */
const printable = (text: string): string =>
  text.replace(/[\u2018\u2019]/g, "'").replace(/[^\u0020-\u007e\u00a0-\u00ff]/gu, '?');

/** From the board, m, to a page's points; y runs down the page. */
type Placing = (point: BoardPoint) => readonly [x: number, y: number];

const placing =
  (tile: Tile): Placing =>
  ({ ahead, above }) => [(MARGIN + ahead - tile.left) * POINT, (MARGIN + tile.top - above) * POINT];

function straight(page: Page, from: readonly [number, number], to: readonly [number, number]): void {
  page.moveTo(from[0], from[1]).lineTo(to[0], to[1]).stroke();
}

/** Words at a place of the board, where that is on the page: the library starts a new page for words below it. */
function writeAt(page: Page, words: string, x: number, y: number, size: number, width = 0): void {
  if (x < 0 || y < 0 || x > page.page.width || y > page.page.height - 2 * size) return;
  const aligned = width === 0 ? {} : ({ width, align: 'center' } as const);
  page
    .fillColor(INK)
    .fontSize(size)
    .text(words, x - 0.5 * width, y, { lineBreak: false, ...aligned });
}

function drawMarks(page: Page, dummy: Dummy, place: Placing): void {
  page.lineWidth(0.6).strokeColor(GREY);
  const top = dummy.outline[Math.floor(dummy.outline.length / 2)]!;
  const lowest = Math.min(...dummy.holes.map((hole) => hole.above), 0);
  straight(page, place({ ahead: 0, above: lowest - 0.05 }), place(top));
  const [textX, textY] = place({ ahead: 0.004, above: 0.6 * top.above });
  page.fillColor(INK).fontSize(9).text('plumb line: straight up', textX, textY, { lineBreak: false });
  dummy.outline.forEach((point, k) => {
    if (k % 15 !== 0) return;
    const radius = Math.hypot(point.ahead, point.above);
    const inner = { ahead: point.ahead * (1 - TICK / radius), above: point.above * (1 - TICK / radius) };
    straight(page, place(inner), place(point));
    const [x, y] = place({
      ahead: point.ahead * (1 - (2.2 * TICK) / radius),
      above: point.above * (1 - (2.2 * TICK) / radius),
    });
    writeAt(page, degreesText(dummy, k), x, y - 4, 9, 60);
  });
}

function drawHoles(page: Page, dummy: Dummy, place: Placing): void {
  for (const hole of dummy.holes) {
    const [x, y] = place(hole);
    page.lineWidth(0.5).strokeColor(INK).circle(x, y, 4.5).stroke();
    straight(page, [x - 14, y], [x + 14, y]);
    straight(page, [x, y - 14], [x, y + 14]);
    writeAt(page, hole.mark, x + 8, y - 15, 12);
  }
}

function drawOutline(page: Page, dummy: Dummy, place: Placing): void {
  [...dummy.outline, ...dummy.closing].forEach((point, k) => {
    const [x, y] = place(point);
    if (k === 0) page.moveTo(x, y);
    else page.lineTo(x, y);
  });
  page.closePath().lineWidth(1).strokeColor(INK).stroke();
}

/** A bar with its ends marked and its length said: whoever prints at another size sees it. */
function drawBar(page: Page, x: number, y: number, length: number, words: string): void {
  page.lineWidth(0.8).strokeColor(INK);
  const end = x + length * POINT;
  straight(page, [x, y], [end, y]);
  for (const at of [x, end]) straight(page, [at, y - 4], [at, y + 4]);
  page
    .fillColor(INK)
    .fontSize(8)
    .text(words, end + 6, y - 4, { lineBreak: false });
}

/** A ring with a cross in the middle of each corner's overlap: laid on the neighbour's, the pages are in register. */
function drawRegister(page: Page, { width, height }: Tiling): void {
  const [near, half] = [(MARGIN + 0.5 * OVERLAP) * POINT, 0.4 * OVERLAP * POINT];
  page.lineWidth(0.4).strokeColor(GREY);
  for (const x of [near, near + (width - OVERLAP) * POINT]) {
    for (const y of [near, near + (height - OVERLAP) * POINT]) {
      page.circle(x, y, 0.5 * half).stroke();
      straight(page, [x - half, y], [x + half, y]);
      straight(page, [x, y - half], [x, y + half]);
    }
  }
}

function drawFoot(page: Page, name: string, tiling: Tiling): void {
  const x = MARGIN * POINT;
  const y = (tiling.paper.height - MARGIN - FOOT + 0.004) * POINT;
  drawBar(page, x, y, 0.1, 'must measure 100 mm: print at 100 %, no fit to page');
  drawBar(page, x, y + 14, 4 * INCH, 'must measure 4 in');
  page
    .fontSize(11)
    .text(`Tile ${name}`, x, y + 23, { lineBreak: false })
    .fontSize(8)
    .text(
      `of A1 to ${tiling.tiles.at(-1)!.name}; glue along the dashed lines, ring on ring, ${(OVERLAP * 1000).toFixed(0)} mm overlap`,
      x + 52,
      y + 25.5,
      { lineBreak: false },
    );
}

function drawTile(page: Page, dummy: Dummy, tile: Tile, tiling: Tiling): void {
  const { paper, width, height } = tiling;
  page.addPage({ size: [paper.width * POINT, paper.height * POINT], margin: 0 });
  const edge = MARGIN * POINT;
  page
    .save()
    .rect(edge, edge, width * POINT, height * POINT)
    .clip();
  const place = placing(tile);
  drawMarks(page, dummy, place);
  drawHoles(page, dummy, place);
  drawOutline(page, dummy, place);
  page.restore();
  page
    .save()
    .lineWidth(0.5)
    .strokeColor(GREY)
    .dash(4, { space: 3 })
    .rect(
      edge + OVERLAP * POINT,
      edge + OVERLAP * POINT,
      (width - 2 * OVERLAP) * POINT,
      (height - 2 * OVERLAP) * POINT,
    )
    .stroke()
    .restore();
  page
    .lineWidth(0.3)
    .strokeColor(GREY)
    .rect(edge, edge, width * POINT, height * POINT)
    .stroke();
  drawRegister(page, tiling);
  drawFoot(page, tile.name, tiling);
}

/** First page: what it is, how to use it, and where each tile goes. */
function drawCover(page: Page, result: Result, dummy: Dummy, tiling: Tiling): void {
  const { columns, rows, width, height, tiles, paper } = tiling;
  page.addPage({ size: [paper.width * POINT, paper.height * POINT], margin: 0 });
  const left = MARGIN * POINT;
  const textWidth = (paper.width - 2 * MARGIN) * POINT;
  page
    .fillColor(INK)
    .font('Helvetica-Bold')
    .fontSize(16)
    .text(printable(`Template of ${dummy.tyre} at its largest`), left, left, { width: textWidth });
  page.font('Helvetica').fontSize(10);
  for (const line of boardWords(result, dummy)) {
    page.moveDown(0.35).text(printable(unbroken(line)), { width: textWidth });
  }
  page
    .moveDown(0.35)
    .text('Measure both bars on every tile before cutting board. Keep this page with the board.', {
      width: textWidth,
    });
  const mapTop = page.y + 16;
  const whole = { width: columns * (width - OVERLAP) + OVERLAP, height: rows * (height - OVERLAP) + OVERLAP };
  const room = (paper.height - MARGIN) * POINT - mapTop - 10;
  const scale = Math.min(textWidth / whole.width, room / whole.height);
  const first = tiles[0]!;
  const at: Placing = ({ ahead, above }) => [
    left + (ahead - first.left) * scale,
    mapTop + (first.top - above) * scale,
  ];
  page.lineWidth(0.4).strokeColor(GREY).fontSize(11);
  for (const tile of tiles) {
    const [x, y] = at({ ahead: tile.left, above: tile.top });
    page.rect(x, y, width * scale, height * scale).stroke();
    page.fillColor(GREY).text(tile.name, x + 4, y + 4, { lineBreak: false });
  }
  drawOutline(page, dummy, at);
  for (const hole of dummy.holes) {
    const [x, y] = at(hole);
    page.circle(x, y, 2).fill(INK);
  }
}

/** The template at full size over pages of one paper size, scale bars on each. */
export async function templatePdf(result: Result, dummy: Dummy, paper: Paper): Promise<Uint8Array> {
  const page = new PDFDocument({
    autoFirstPage: false,
    info: {
      Title: printable(`Template, ${result.case.name}, ${dummy.tyre}`),
      Creator: printable(result.madeBy),
      // The same result gives the same bytes: no clock.
      CreationDate: new Date(0),
    },
    lang: 'en',
  });
  const parts: Uint8Array[] = [];
  const done = new Promise<void>((resolve, reject) => {
    page.on('data', (part: Uint8Array) => parts.push(part));
    page.on('end', resolve);
    page.on('error', reject);
  });
  const tiling = tilesOf(dummy, paper);
  drawCover(page, result, dummy, tiling);
  for (const tile of tiling.tiles) drawTile(page, dummy, tile, tiling);
  page.end();
  await done;
  return Buffer.concat(parts);
}
