import { isShopPriors, issueText, parseCase } from '@tubgap/casefile';
import { useState } from 'preact/hooks';
import type { Carried } from '../carried/carried.ts';
import { textWith, UnwritableError } from '../carried/case-text.ts';
import { type Measures, NO_MEASURES } from '../carried/measures.ts';
import { withRemark } from '../carried/shown-remark.ts';
import { allSettings, caseIn, readCarried } from './bench-case.ts';
import type { BenchState } from './bench-state.ts';
import { download } from './download.ts';
import { measuredState, sameValues } from './measured-car.ts';
import { OpenFiles } from './open-files.tsx';

interface Props {
  carried: Carried;
  state: BenchState;
  onOpen: (carried: Carried) => void;
}

/**
 * What was measured, as a saved case keeps it: its car is the case's own then. None where the page shows the car with
 * other values than it was measured with, for those stand in the case.
 */
function savedMeasures(carried: Carried, state: BenchState): Measures {
  const { car } = state.measures;
  if (car === undefined || !sameValues(state.values, car.values)) return NO_MEASURES;
  const found = caseIn(carried, measuredState(state, car));
  if (!found.ok) return NO_MEASURES;
  const { name, centreForward, notches } = found.source.tubs[found.tub]!;
  const moved = car.centre !== undefined || state.centre !== undefined;
  return {
    ...state.measures,
    car: {
      tub: name,
      topHeight: car.topHeight,
      ...(moved ? { centre: centreForward } : {}),
      notches: { [name]: notches },
      values: {},
    },
  };
}

/** The case with all that the page has set, as text; or why there is none. */
function savedCase(carried: Carried, state: BenchState): { text: string } | { issues: string[] } {
  const settings = allSettings(carried, state);
  const read = readCarried(carried, settings);
  if (!read.ok) return { issues: read.issues.map(issueText) };
  try {
    const text = textWith(carried.files[carried.file]!, read.value, settings);
    const { tub, tyre, units } = state;
    return { text: withRemark(text, { tub, tyre, units, measures: savedMeasures(carried, state) }) };
  } catch (error) {
    if (error instanceof UnwritableError) return { issues: [error.message] };
    throw error;
  }
}

/** How a learned file begins, after its remarks. */
const LEARNED = /^format: tubgap learned$/m;
/** Whether a text is what this car or its shop's others taught, and no case. */
const isTaught = (text: string): boolean => LEARNED.test(text) || isShopPriors(text);

const lastPart = (path: string): string =>
  path.slice(1 + Math.max(path.lastIndexOf('/'), path.lastIndexOf('\\')));

/** Opened files as a case; catalogues that were not among them are taken from the page where it has them. */
export async function carriedFrom(
  files: readonly File[],
  before: Pick<Carried, 'files'>,
): Promise<{ carried: Carried } | { issues: string[] }> {
  const texts = new Map<string, string>();
  for (const one of files) texts.set(one.name, await one.text());
  const yaml = files.filter(({ name }) => /\.ya?ml$/i.test(name));
  const lessons = yaml.filter(({ name }) => isTaught(texts.get(name)!));
  const cases = yaml.filter((one) => !lessons.includes(one));
  const file = cases[0];
  if (file === undefined || cases.length > 1) {
    return { issues: ['Choose one case file (.yaml) and, with it, the tables (.csv) that it names.'] };
  }
  const named: Record<string, string> = { [file.name]: texts.get(file.name)! };
  const load = (path: string): string | undefined => {
    // A browser gives a second download another name: the only file of what was taught is the one that is meant.
    const lesson = /\.ya?ml$/i.test(path) && lessons.length === 1 ? lessons[0]!.name : undefined;
    const text = texts.get(lastPart(path)) ?? texts.get(lesson ?? '') ?? before.files[path];
    if (text !== undefined) named[path] = text;
    return text;
  };
  const read = parseCase({ file: file.name, text: texts.get(file.name)!, load });
  if (!read.ok) return { issues: read.issues.map(issueText) };
  return { carried: { file: file.name, files: named } };
}

/** Saving, opening and passing on. */
export function FilesPart({ carried, state, onOpen }: Props) {
  const [report, setReport] = useState<{ words: string[]; fault: boolean }>({ words: [], fault: false });
  const say = (words: string[], fault = false): void => setReport({ words, fault });
  const save = (): void => {
    const saved = savedCase(carried, state);
    if ('issues' in saved) {
      say(saved.issues, true);
      return;
    }
    download(lastPart(carried.file), saved.text);
    const others = Object.keys(carried.files).filter((name) => name !== carried.file);
    const { car } = state.measures;
    const left =
      car !== undefined && !sameValues(state.values, car.values)
        ? ' What was measured is not in it, for the page shows other values of the car: show the car as it was measured and save again, or save what was measured.'
        : '';
    say([
      `Saved as ${lastPart(carried.file)}. It reads ${others.join(' and ')}: keep them in its folder.${left}`,
    ]);
  };
  const open = async (files: readonly File[]): Promise<void> => {
    const opened = await carriedFrom(files, carried);
    if ('issues' in opened) {
      say(opened.issues, true);
      return;
    }
    onOpen(opened.carried);
    say([`Opened ${opened.carried.file}.`]);
  };
  const copy = async (): Promise<void> => {
    try {
      await navigator.clipboard.writeText(location.href);
      say(['The link is copied. It opens this place in this page; whoever gets it needs the page too.']);
    } catch {
      say([`Copy the address of this page by hand: it holds everything that is set.`], true);
    }
  };
  return (
    <div class="files">
      <div class="row">
        <button type="button" onClick={save}>
          Save case file
        </button>
        <OpenFiles
          words="Open case file…"
          label="Case file with its tables"
          accept=".yaml,.yml,.csv"
          several
          onFiles={open}
        />
        <button type="button" onClick={() => void copy()}>
          Copy link
        </button>
        {Object.keys(carried.files)
          .filter((name) => name !== carried.file)
          .map((name) => (
            <button key={name} type="button" onClick={() => download(lastPart(name), carried.files[name]!)}>
              Save {lastPart(name)}
            </button>
          ))}
      </div>
      {report.words.length > 0 && (
        <ul class={report.fault ? 'fault' : 'told'} role="status">
          {report.words.map((words) => (
            <li key={words}>{words}</li>
          ))}
        </ul>
      )}
    </div>
  );
}
