import { isMap, parseDocument, stringify } from 'yaml';
import type { Carried } from './carried.ts';

/** What made a learned file that was learned on this page. */
export const AT_THE_CAR = 'tubgap, at the car';

/** The first words of a field that stands in no group. */
const FIELD = /^learned:/m;

/**
 * A case, and apart from it what it holds that was learned at the car: so the page can go back to what was assumed, and
 * learn anew from all that was typed in. What was learned elsewhere stays in its place.
 */
export function withLessonApart(carried: Carried): { carried: Carried; learned?: string } {
  const text = carried.files[carried.file] ?? '';
  if (!FIELD.test(text)) return { carried };
  const document = parseDocument(text, { uniqueKeys: false, version: '1.2' });
  if (document.errors.length > 0 || !isMap(document.contents)) return { carried };
  const held = document.contents.get('learned', true);
  if (!isMap(held) || held.get('madeBy') !== AT_THE_CAR) return { carried };
  document.contents.delete('learned');
  const bare = document.toString({ lineWidth: 0, flowCollectionPadding: true });
  return {
    carried: { ...carried, files: { ...carried.files, [carried.file]: bare } },
    learned: stringify(held.toJS(document), { lineWidth: 110 }),
  };
}
