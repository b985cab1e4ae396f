import type { Case, Setting } from '@tubgap/casefile';
import { openCase } from '@tubgap/casefile/node';
import type { StudyOf } from '@tubgap/results';
import { middleValue, type StudySetup } from '@tubgap/simulation';
import { readLength } from '@tubgap/units';
import type { ReadCase } from '../options.ts';
import { compareSetups, type Effort, wholeHeights } from './compare-setups.ts';
import { StudyFault } from './fault.ts';
import { newCautions } from './new-cautions.ts';
import { cellOf, chosenOf, commonOf } from './record.ts';
import { variedInput } from './varied-input.ts';
import { readVary } from './vary.ts';

/** A comparison as it was asked for. */
export interface SetupsAsked {
  read: ReadCase;
  /** Another case that the first is to be compared with. */
  against: ReadCase | undefined;
  /** What the other setup has in place of its file's values. */
  set: readonly Setting[];
  /** 'path = one end, other end', each a setup of its own. */
  ends: readonly string[];
  /** 'shortest, longest': both ends of the wheelbase adjustment. */
  wheelbase: string | undefined;
}

function opened({ again }: ReadCase, set: readonly Setting[]): Case {
  const read = again(set);
  if (read.ok) return read.source;
  throw new StudyFault(read.lines);
}

/** Folder of the other case in a comparison's folder. */
const OTHER_FOLDER = 'against';

/** Reads the other case of a comparison. @throws StudyFault with what is to mend in it */
export function readOther(file: string): ReadCase {
  const read = openCase(file);
  if (read.ok) return read;
  throw new StudyFault(read.lines);
}

/** Another case and the files that it names, as they were read, and where they then lie in the folder. */
export function otherCase({ source, text, named }: ReadCase): {
  file: string;
  files: Record<string, string>;
} {
  const file = `${OTHER_FOLDER}/${source.file}`;
  const files: Record<string, string> = { [file]: text };
  for (const [name, content] of Object.entries(named)) files[`${OTHER_FOLDER}/${name}`] ??= content;
  return { file, files };
}

const settingsLabel = (set: readonly Setting[]): string =>
  set.map(({ path, value }) => `${path} = ${value}`).join(', ');

/** The case with the axle moved back on the car: all that is fixed to the body then stands further ahead of it. */
function withAxleBack(source: Case, back: number): Case {
  const limit = (place: number | undefined, sign: number): number | undefined =>
    place === undefined ? undefined : place + sign * back;
  const { envelope } = source;
  const furthestAhead = limit(envelope.furthestAhead, 1);
  const furthestBehind = limit(envelope.furthestBehind, -1);
  return {
    ...source,
    tubs: source.tubs.map((tub) => ({ ...tub, centreForward: tub.centreForward + back })),
    hardPoints: source.hardPoints.map((point) =>
      point.shape === 'circle'
        ? { ...point, ahead: point.ahead + back }
        : { ...point, points: point.points.map((corner) => ({ ...corner, ahead: corner.ahead + back })) },
    ),
    envelope: {
      ...envelope,
      ...(furthestAhead === undefined ? {} : { furthestAhead }),
      ...(furthestBehind === undefined ? {} : { furthestBehind }),
    },
  };
}

/** Both ends of the wheelbase adjustment; tub and hard points stay where they are on the body. */
function wheelbaseSetups({ read, wheelbase }: SetupsAsked): StudySetup[] {
  if (wheelbase === undefined) return [];
  const option = '--wheelbase';
  const { texts } = readVary(`car.wheelbase = ${wheelbase}`, option);
  const vary = { path: 'car.wheelbase', texts, place: option };
  const {
    settings,
    inputs: [input],
  } = variedInput(read, [], vary);
  const own = input && middleValue(input);
  return settings.map((setting, i) => {
    const length = readLength(texts[i]!.replace(/^~\s*/, ''));
    if (length === undefined || own === undefined) {
      throw new StudyFault([`${option}  read "${texts[i]}"; lengths such as "107 in, 109 in" are needed.`]);
    }
    return {
      label: `wheelbase ${texts[i]!.replace(/^~\s*/, '')}`,
      source: withAxleBack(opened(read, setting), length - own),
    };
  });
}

function endSetups({ read, ends }: SetupsAsked): StudySetup[] {
  return ends.flatMap((words) => {
    const vary = readVary(words, '--ends');
    if (vary.texts.length !== 2) {
      throw new StudyFault([
        `${vary.place}  has ${vary.texts.length} values; write the two ends, as in "${vary.path} = 5 psi, 7 psi".`,
      ]);
    }
    const { settings, label } = variedInput(read, [], vary);
    return settings.map((setting, i) => ({
      label: `${label} ${vary.texts[i]!.replace(/^~\s*/, '')}`,
      source: opened(read, setting),
    }));
  });
}

const AS_IT_STANDS = 'the case as it stands';

/** The first case's title where that tells it from the other. */
const ownLabel = (source: Case, others: readonly StudySetup[]): string =>
  others.length === 0 || others.some((other) => other.source.title === source.title)
    ? AS_IT_STANDS
    : source.title;

/** Every setup that is asked for, the case as it stands first. */
function askedSetups(asked: SetupsAsked): StudySetup[] {
  const { read: own, against, set } = asked;
  const { source } = own;
  const other: StudySetup[] = [];
  if (against !== undefined || set.length > 0) {
    const read = opened(against ?? own, set);
    // Two states of one car often have one title: then the file tells the other.
    const title = read.title === source.title ? read.file : read.title;
    const label = [
      ...(against === undefined ? [] : [title]),
      ...(set.length > 0 ? [settingsLabel(set)] : []),
    ];
    other.push({ label: label.join(' with '), source: read });
  }
  return [
    { label: ownLabel(source, against === undefined ? [] : other), source },
    ...other,
    ...endSetups(asked),
    ...wheelbaseSetups(asked),
  ];
}

const orNull = (index: number): number | null => (index < 0 ? null : index);

/** Sets setups side by side. @throws StudyFault when one cannot be read; RangeError when the model does not know it */
export async function runSetups(asked: SetupsAsked, effort: Effort): Promise<StudyOf<'setups'>> {
  const { source } = asked.read;
  const setups = askedSetups(asked);
  const { study, figures, base } = await compareSetups(source, setups, [], effort);
  const alone = setups.slice(1).flatMap((setup, i) => {
    const { tyreOf, tubOf } = study.points[i + 1]!;
    const names = [
      ...setup.source.tyres.filter((_, k) => tyreOf[k]! < 0).map(({ name }) => name),
      ...setup.source.tubs.filter((_, k) => tubOf[k]! < 0).map(({ name }) => name),
    ];
    return names.length === 0
      ? []
      : [
          `${setup.label}: ${names.join(', ')} ${names.length === 1 ? 'has' : 'have'} nothing to stand beside in ${source.title}.`,
        ];
  });
  return {
    ...commonOf(
      {
        source,
        settings: asked.set,
        sample: base,
        cars: effort.seasons ? source.simulation.cars : null,
        notes: [...alone, ...newCautions(source, setups.slice(1))],
      },
      wholeHeights(figures[0]!),
    ),
    kind: 'setups',
    setups: setups.map(({ label, source: own }, p) => {
      const { tyreOf, tubOf } = study.points[p]!;
      return {
        label,
        tyres: own.tyres.map(({ name }) => name),
        tubs: own.tubs.map(({ name }) => name),
        tyreOf: p === 0 ? own.tyres.map((_, i) => i) : tyreOf.map(orNull),
        tubOf: tubOf.map(orNull),
        chosen: chosenOf(own, wholeHeights(figures[p]!)),
        figures: figures[p]!.map((row) => row.map(cellOf)),
      };
    }),
  };
}
