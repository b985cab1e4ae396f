import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { inflateSync } from 'node:zlib';
import { readResults } from '@tubgap/results';
import type * as dxfParser from 'dxf-parser';
import type { IEntity } from 'dxf-parser';
import { describe, expect, inject, it } from 'vitest';
import { canRead, joined, names } from './joined-tiles.ts';
import { inchesOf, nameHostile, paper, withResult } from './paper-folder.ts';

// The package's own types name an export that its CommonJS build hands over as the whole module.
const DxfParser = createRequire(import.meta.url)('dxf-parser') as typeof dxfParser.DxfParser;

const INCH = 0.0254;
const demo = inject('demo');
const result = readResults(demo);
const height = result.picks[result.chosen!]!.height!;
const index = result.tyres.findIndex((tyre) => tyre.name === height.limitingTyre);
const { angles } = result.outlines;
/** The rarest outline of the result at its own angles, m: what the template has to pass through. */
const radii = result.outlines.tyres[index]!.quantiles.at(-1)!;
const rare = result.outlines.pick!.shown[index]!.at(-1)!;
const NAME = `template-${height.limitingTyre}`;

interface Vertex {
  x: number;
  y: number;
}
const entities = (text: string): IEntity[] => new DxfParser().parseSync(text)!.entities;
const on = (layer: string, list: IEntity[]): IEntity[] => list.filter((entity) => entity.layer === layer);

describe('the template as DXF', () => {
  const text = paper(demo, `${NAME}.dxf`);
  const drawing = entities(text);
  const [cut] = on('CUT', drawing) as (IEntity & { vertices: Vertex[]; shape: boolean })[];

  it('is in inches and says so', () => {
    // $INSUNITS 1 is inches in the published DXF reference; from memory.
    expect(new DxfParser().parseSync(text)!.header.$INSUNITS).toBe(1);
  });

  it('holds one closed outline through the result’s outline at every one of its angles', () => {
    expect(on('CUT', drawing)).toHaveLength(1);
    expect(cut!.shape).toBe(true);
    expect(cut!.vertices).toHaveLength(242);
    let worst = 0;
    angles.forEach((angle, k) => {
      const { x, y } = cut!.vertices[5 * k]!;
      worst = Math.max(
        worst,
        Math.hypot(x * INCH - radii[k]! * Math.sin(angle), y * INCH - radii[k]! * Math.cos(angle)),
      );
    });
    expect(worst).toBeLessThan(1e-6);
  });

  it('closes level, and says what everything on it is, without a name of whoever wrote the writer', () => {
    const corner = cut!.vertices.at(-1)!;
    const [rear, front] = [cut!.vertices[0]!, cut!.vertices[240]!];
    expect(corner.y).toBeCloseTo(Math.min(rear.y, front.y), 9);
    expect([rear.x, front.x]).toContain(corner.x);
    const texts = (on('TEXT', drawing) as (IEntity & { text: string })[]).map((entity) => entity.text);
    for (const words of ['plumb line', 'level', 'round dummy', '15° ahead', '90° back', 'top'])
      expect(
        texts.some((own) => own.includes(words)),
        words,
      ).toBe(true);
    expect(text).not.toMatch(/tarik/i);
  });

  it('runs smoothly between them: no corner, no radius outside its neighbours by more than the bend of the curve', () => {
    const radius = cut!.vertices.slice(0, 241).map(({ x, y }) => Math.hypot(x, y) * INCH);
    for (let k = 2; k < radius.length - 2; k++) {
      const bend = radius[k - 1]! - 2 * radius[k]! + radius[k + 1]!;
      expect(Math.abs(bend)).toBeLessThan(4e-4);
    }
  });

  it('drills the hub where the body stands at rest, on the stop and fully down, and the round dummy’s', () => {
    const holes = on('HOLES', drawing) as (IEntity & { center: Vertex; radius: number })[];
    expect(holes).toHaveLength(4);
    const [rest, stop, down] = holes.map(({ center }) => ({ x: center.x * INCH, y: center.y * INCH }));
    expect(rest!.x).toBeCloseTo(-rare.forward, 6);
    expect(rest!.y).toBeCloseTo(-rare.drop, 6);
    expect(down).toEqual({ x: 0, y: 0 });
    expect(stop!.y).toBeGreaterThan(rest!.y);
    expect(stop!.y).toBeLessThanOrEqual(0);
    const [round] = on('ROUND', drawing) as (IEntity & { center: Vertex; radius: number })[];
    expect(round!.radius * INCH).toBeCloseTo(Math.max(...radii), 6);
    expect(round!.center).toMatchObject({ x: holes[3]!.center.x, y: holes[3]!.center.y });
  });

  it('is not broken by hostile names', () => {
    const folder = withResult(demo, nameHostile);
    const files = readdirSync(folder).filter((file) => file.endsWith('.dxf'));
    expect(files).toHaveLength(result.tyres.length);
    for (const file of files) expect(file).toMatch(/^template-[a-z0-9-]+\.dxf$/);
    const deciding = files.find((file) => paper(folder, file).includes('This tyre decides'))!;
    const hostile = entities(paper(folder, deciding));
    expect(hostile.map(({ type, layer }) => type + layer)).toEqual(
      drawing.map(({ type, layer }) => type + layer),
    );
  });
});

describe('the template at the hard points', () => {
  it('says how near it comes to the nearest, where the rare run puts them', () => {
    // Derived: both hard points moved down by the drop and back by the axle's path, against the outline's own points.
    const moved = result.hardPoints.map((point) => {
      const spots = point.shape === 'circle' ? [point] : point.points;
      const size = point.shape === 'circle' ? point.radius : 0;
      return Math.min(
        ...spots.flatMap(({ ahead, above }) =>
          angles.map((angle, k) => {
            const x = radii[k]! * Math.sin(angle) - (ahead - rare.forward);
            const z = radii[k]! * Math.cos(angle) - (above - rare.drop);
            return Math.hypot(x, z) - size;
          }),
        ),
      );
    });
    const told = /It clears (.*), the nearest hard point, by about (.*? in)\./.exec(
      paper(demo, `${NAME}.dxf`),
    )!;
    const nearest = Math.min(...moved);
    expect(told[1]).toBe(result.hardPoints[moved.indexOf(nearest)]!.name);
    expect(inchesOf(told[2]!) * INCH).toBeLessThan(nearest + 1e-6);
    expect(inchesOf(told[2]!) * INCH).toBeGreaterThan(nearest - 0.01);
  });
});

describe('a car with several tyres', () => {
  it('gets a template of each under its own name, through its own outline; the one that decides says so', () => {
    expect(result.tyres.length).toBeGreaterThan(1);
    for (const [i, { name }] of result.tyres.entries()) {
      const text = paper(demo, `template-${name}.dxf`);
      const [own] = on('CUT', entities(text)) as (IEntity & { vertices: Vertex[] })[];
      const largest = Math.max(...own!.vertices.map(({ x, y }) => Math.hypot(x, y) * INCH));
      const outline = result.outlines.tyres[i]!.quantiles.at(-1)!;
      expect(largest).toBeGreaterThanOrEqual(Math.max(...outline) - 1e-9);
      expect(largest).toBeLessThan(Math.max(...outline) + 5e-4);
      expect(text.includes('This tyre decides')).toBe(i === index);
      for (const size of ['a4', 'letter'])
        expect(existsSync(join(demo, `template-${name}-${size}.pdf`))).toBe(true);
    }
    expect(paper(demo, 'READ-ME.txt')).toMatch(new RegExp(`${NAME}.dxf .*the tyre that decides`));
  });
});

/** One page of a PDF: its size in mm and its content. */
interface PdfPage {
  width: number;
  height: number;
  content: string;
}

/** Pages of a PDF in order, their streams unpacked; knows no more of PDF than that. */
function pdfPages(file: string): PdfPage[] {
  const bytes = readFileSync(file);
  const text = bytes.toString('latin1');
  const objects = new Map<string, number>();
  for (const match of text.matchAll(/(?:^|\n)(\d+) 0 obj/g)) objects.set(match[1]!, match.index);
  return [...text.matchAll(/\/Type \/Page\n[\s\S]*?endobj/g)].map((page) => {
    const box = /\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(page[0])!;
    const number = /\/Contents (\d+) 0 R/.exec(page[0])![1]!;
    const from = text.indexOf('stream\n', objects.get(number)!) + 7;
    const content = inflateSync(bytes.subarray(from, text.indexOf('\nendstream', from))).toString('latin1');
    return { width: (Number(box[1]) * 25.4) / 72, height: (Number(box[2]) * 25.4) / 72, content };
  });
}

/** Paths of a page's content in mm from its upper left: the library turns the page's y down by its first operator. */
function paths({ content }: PdfPage): Vertex[][] {
  expect(content).toMatch(/^1 0 0 -1 0 [\d.]+ cm/);
  const found: Vertex[][] = [];
  for (const match of content.matchAll(/(-?[\d.]+) (-?[\d.]+) ([ml])\b/g)) {
    const point = { x: (Number(match[1]) * 25.4) / 72, y: (Number(match[2]) * 25.4) / 72 };
    if (match[3] === 'm') found.push([point]);
    else found.at(-1)!.push(point);
  }
  return found;
}

const papers = [
  // ISO 216: 210 × 297 mm; ANSI/ASME Y14.1, size A: 8.5 × 11 in. Both from memory.
  [`${NAME}-a4.pdf`, 210, 297],
  [`${NAME}-letter.pdf`, 215.9, 279.4],
] as const;

describe.each(papers)('the template as %s', (file, short, long) => {
  const pages = pdfPages(join(demo, file));
  const tiles = pages.slice(1);

  it('is on that paper, a cover and as many tiles as its last one says', () => {
    for (const { width, height: tall } of pages) {
      expect(Math.min(width, tall)).toBeCloseTo(short, 2);
      expect(Math.max(width, tall)).toBeCloseTo(long, 2);
    }
    expect(tiles.length).toBeGreaterThan(5);
  });

  it('is at full size: every outline on every tile is the outline of the DXF, shifted and nothing else', () => {
    const outline = entities(paper(demo, `${NAME}.dxf`)).find(({ layer }) => layer === 'CUT') as IEntity & {
      vertices: Vertex[];
    };
    for (const tile of tiles) {
      const drawn = paths(tile).find((path) => path.length === 242)!;
      const dx = drawn[0]!.x - outline.vertices[0]!.x * 25.4;
      const dy = drawn[0]!.y + outline.vertices[0]!.y * 25.4;
      drawn.forEach(({ x, y }, k) => {
        expect(Math.abs(x - dx - outline.vertices[k]!.x * 25.4)).toBeLessThan(0.001);
        expect(Math.abs(y - dy + outline.vertices[k]!.y * 25.4)).toBeLessThan(0.001);
      });
    }
  });

  it('shows every point of the outline on some tile, inside its frame', () => {
    const seen = new Set<number>();
    for (const tile of tiles) {
      const drawn = paths(tile).find((path) => path.length === 242)!;
      drawn.forEach(({ x, y }, k) => {
        // The frame leaves 12 mm round the page and 20 mm more under it.
        if (x >= 12 && x <= tile.width - 12 && y >= 12 && y <= tile.height - 32) seen.add(k);
      });
    }
    expect(seen.size).toBe(242);
  });

  it('has no hole and no plumb line in a seam, and a ring for its neighbour in every corner', () => {
    const board = entities(paper(demo, `${NAME}.dxf`));
    const drilled = on('HOLES', board).slice(0, 3) as (IEntity & { center: Vertex })[];
    const [first] = on('CUT', board) as (IEntity & { vertices: Vertex[] })[];
    for (const tile of tiles) {
      const drawn = paths(tile).find((path) => path.length === 242)!;
      const dx = drawn[0]!.x - first!.vertices[0]!.x * 25.4;
      const dy = drawn[0]!.y + first!.vertices[0]!.y * 25.4;
      // A seam is 10 mm wide along the frame of 12 mm, 20 mm more at the foot.
      const inSeam = (at: number, whole: number): boolean =>
        (at > 12 && at < 22) || (at > whole - 22 && at < whole - 12);
      for (const { center } of drilled) {
        expect(inSeam(center.x * 25.4 + dx, tile.width)).toBe(false);
        expect(inSeam(-center.y * 25.4 + dy, tile.height - 20)).toBe(false);
      }
      expect(inSeam(dx, tile.width)).toBe(false);
      const crosses = paths(tile).filter(
        ([from, to, more]) =>
          to !== undefined &&
          more === undefined &&
          Math.abs(Math.hypot(to.x - from!.x, to.y - from!.y) - 8) < 0.01,
      );
      expect(crosses).toHaveLength(8);
    }
  });

  it.skipIf(!canRead)('put together by another reader gives the outline to half a millimetre', () => {
    const columns = new Set(names(join(demo, file)).map((name) => name[0])).size;
    const sheet = joined(join(demo, file), columns, tiles.length, tiles[0]!);
    const [cut] = on('CUT', entities(paper(demo, `${NAME}.dxf`))) as (IEntity & { vertices: Vertex[] })[];
    const xs = cut!.vertices.map(({ x }) => x * 25.4);
    const ys = cut!.vertices.map(({ y }) => -y * 25.4);
    // The outermost ink is the outline's: half of its line lies outside of it.
    const half = (0.5 * 25.4) / 72;
    const dx = sheet.left + half - Math.min(...xs);
    const dy = sheet.top + half - Math.min(...ys);
    for (let k = 0; k < xs.length; k++)
      expect(sheet.inkNear(xs[k]! + dx, ys[k]! + dy), `vertex ${k}`).toBeLessThan(0.5);
    expect(Math.abs(sheet.right - half - dx - Math.max(...xs))).toBeLessThan(0.5);
    expect(Math.abs(sheet.bottom - half - dy - Math.max(...ys))).toBeLessThan(0.5);
  });

  it('carries a bar of 100 mm and one of 4 in on every tile', () => {
    for (const tile of tiles) {
      const lengths = paths(tile)
        .filter((path) => path.length === 2 && path[0]!.y === path[1]!.y)
        .map(([from, to]) => Math.abs(to!.x - from!.x));
      expect(lengths.some((length) => Math.abs(length - 100) < 0.001)).toBe(true);
      expect(lengths.some((length) => Math.abs(length - 101.6) < 0.001)).toBe(true);
    }
  });
});
