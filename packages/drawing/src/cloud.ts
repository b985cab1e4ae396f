import { FAINT_BLUE } from './ink.ts';
import { type Markup, markup } from './markup.ts';
import { stroke } from './picture.ts';
import { outlinePath, type View } from './shapes.ts';

/** Outlines of single runs, faint. */
export const CLOUD = { ink: FAINT_BLUE, width: 0.5, part: 'cloud' };

interface Drawn {
  key: string;
  path: Markup;
}

const drawn = new WeakMap<object, Drawn>();

/**
 * Outlines of many runs as one path. While a tub is dragged they stand still under it and are drawn at every move:
 * the same outlines in the same view are written once.
 * @param runs  radii at the angles, m, run by run; not changed afterwards
 */
export function cloudPath(
  view: View,
  angles: readonly number[],
  runs: readonly (readonly number[])[],
): Markup {
  const key = `${view.scale} ${view.x(0)} ${view.y(0)}`;
  const before = drawn.get(runs);
  if (before?.key === key) return before.path;
  const outlines = runs.map((radii) => outlinePath(view, angles, radii)).join('');
  const path = markup`<path d="${outlines}" ${stroke(CLOUD)}/>`;
  drawn.set(runs, { key, path });
  return path;
}
