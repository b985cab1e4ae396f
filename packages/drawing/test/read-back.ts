/** Reads shapes back out of a drawing's text, by the names that its parts carry. */

export interface SeenLine {
  x1: number;
  y1: number;
  x2: number;
  y2: number;
}

const attribute = (tag: string, name: string): string => {
  const found = new RegExp(` ${name}="([^"]*)"`).exec(tag)?.[1];
  if (found === undefined) throw new Error(`no ${name} in ${tag}`);
  return found;
};

const tags = (svg: string, element: string, part: string): string[] =>
  svg.match(new RegExp(`<${element} [^>]*data-part="${part}"[^>]*>`, 'g')) ?? [];

/** Straight lines of a part, in the drawing's units. */
export const linesOf = (svg: string, part: string): SeenLine[] =>
  tags(svg, 'line', part).map((tag) => {
    const [x1, y1, x2, y2] = ['x1', 'y1', 'x2', 'y2'].map((name) => Number(attribute(tag, name)));
    return { x1: x1!, y1: y1!, x2: x2!, y2: y2! };
  });

/** Path data of a part. */
export const pathsOf = (svg: string, part: string): string[] =>
  tags(svg, 'path', part).map((tag) => attribute(tag, 'd'));

/** A number that the drawing states about itself. */
export const factOf = (svg: string, name: string): number =>
  Number(attribute(/<svg [^>]*>/.exec(svg)?.[0] ?? '', `data-${name}`));

/** Corners of a path of straight pieces. */
export const cornersOf = (path: string): [number, number][] =>
  path
    .replace(/Z$/, '')
    .slice(1)
    .split('L')
    .map((pair) => {
      const [x, y] = pair.split(',').map(Number);
      return [x!, y!];
    });

/** Widths of the bars of a drawing. */
export const barWidths = (svg: string): number[] =>
  tags(svg, 'rect', 'bar').map((tag) => Number(attribute(tag, 'width')));

/** Corners of a tub's path and the circles of its arcs, in the drawing's units. */
export interface TubOutline {
  points: [number, number][];
  arcs: { x: number; y: number; radius: number }[];
}

/**
 * Reads a path of lines and circular arcs. The centre of an arc comes from its ends and flags as the SVG specification
 * has it (SVG 1.1, appendix F.6.5, for equal radii and no rotation).
 */
export function tubOutline(path: string): TubOutline {
  const points: [number, number][] = [];
  const arcs: TubOutline['arcs'] = [];
  for (const [, command, text] of path.matchAll(/([MLA])([^MLA]*)/g)) {
    const numbers = text!.split(',').map(Number);
    const end: [number, number] = [numbers.at(-2)!, numbers.at(-1)!];
    if (command === 'A') {
      const [radius, , , large, sweep] = numbers as [number, number, number, number, number];
      const [x1, y1] = points.at(-1)!;
      const halfX = 0.5 * (x1 - end[0]);
      const halfY = 0.5 * (y1 - end[1]);
      const half = halfX * halfX + halfY * halfY;
      const far = (large === sweep ? -1 : 1) * Math.sqrt(Math.max(0, radius * radius - half) / half);
      arcs.push({ x: 0.5 * (x1 + end[0]) + far * halfY, y: 0.5 * (y1 + end[1]) - far * halfX, radius });
    }
    points.push(end);
  }
  return { points, arcs };
}
