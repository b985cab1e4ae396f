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
