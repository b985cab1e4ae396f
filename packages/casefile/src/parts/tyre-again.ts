import type { WrittenCase } from '../schema.ts';
import { tyreInClass } from './class-name.ts';
import { type Contradiction, contradiction } from './contradiction.ts';

/** What an entry says of the class and its runs; all else was measured of the tyre, and is one and the same in all classes. */
const OF_THE_CLASS = ['tyre', 'class', 'runsPerSeason', 'coldPressure', 'airHeating', 'rideHeightChange'];

/** Position of the entry that says what a tyre is: the first one of its name. */
export const firstOfTyre = ({ tyres }: WrittenCase, index: number): number =>
  tyres.findIndex(({ tyre }) => tyre === tyres[index]?.tyre);

/** Names of the case's entries, one each. */
export const entryNames = ({ tyres }: WrittenCase): string[] =>
  tyres.map(({ tyre, class: its }) => tyreInClass(tyre, its?.name));

/** A tyre that stands in the list again: in a class with a name of its own, and nothing told of the tyre twice. */
export function againFaults(written: WrittenCase): Contradiction[] {
  const names = entryNames(written);
  return written.tyres.flatMap((entry, index): Contradiction[] => {
    const first = firstOfTyre(written, index);
    if (first === index) return [];
    const twin = names.indexOf(names[index]!);
    if (twin < index) {
      const reason = `this tyre is listed twice, as tyres[${twin}] in the same class`;
      const hint =
        'Give each class of it a name, class: { name: quarter mile }, or add its runs up in one entry';
      return [contradiction(['tyres', index, 'tyre'], reason, hint, 'duplicate-name')];
    }
    return Object.entries(entry)
      .filter(([field, value]) => value !== undefined && !OF_THE_CLASS.includes(field))
      .map(([field]) =>
        contradiction(
          ['tyres', index, field],
          `it is the tyre of tyres[${first}], and one tyre is the same in all its classes`,
          `Say ${field} there. A class has its own runsPerSeason, coldPressure, airHeating, rideHeightChange and class`,
        ),
      );
  });
}
