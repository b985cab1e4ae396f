import { DEFAULTS } from '../defaults.ts';
import { type Path, pathText } from '../text/node-place.ts';

const ROWS = [...DEFAULTS.car, ...DEFAULTS.tyre, ...DEFAULTS.exact];
const TABLE_PATHS = new Set(ROWS.map(({ path }) => path));

/** Path as the table has it; what the class of a tyre changes stands there under the car's own path. */
export function tablePath(path: Path): string {
  return pathText(path)
    .replace(/\[\d+\]/g, '[]')
    .replace(/^tyres\[\]\.class\./, '');
}

/** Whether the table has a number at this place. */
export const isTablePath = (path: Path): boolean => TABLE_PATHS.has(tablePath(path));

/** What stands at a place, in words: 'rear downforce'; undefined where the table has nothing. */
export function labelAt(path: Path): string | undefined {
  const place = tablePath(path);
  return ROWS.find((row) => row.path === place)?.label;
}
