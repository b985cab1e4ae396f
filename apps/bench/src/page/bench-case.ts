import { type Case, type Issue, numbersIn, parseCase, readCaseText, type Setting } from '@tubgap/casefile';
import { MOMENTS } from '@tubgap/core';
import { type CaseSetup, caseSetup, caseState, sideFaults } from '@tubgap/simulation';
import { INCH, onTape, toDegrees } from '@tubgap/units';
import type { Carried } from '../carried/carried.ts';
import { NO_MEASURES } from '../carried/measures.ts';
import { remarkIn } from '../carried/shown-remark.ts';
import type { BenchState, Notch } from './bench-state.ts';

/**
 * A case with what the page has set in it, ready to be drawn and counted; or why it cannot be read. `whole` is all that it
 * says, `source` the same as it is for the tyre in hand in its class.
 */
export type BenchCase =
  | { ok: true; whole: Case; source: Case; setup: CaseSetup; tub: number; tyre: number; inputs: string }
  | { ok: false; issues: Issue[] };

const settingsOf = (values: BenchState['values']): Setting[] =>
  Object.entries(values).map(([path, value]) => ({ path, value }));

type Reading = ReturnType<typeof parseCase>;

const readings = new WeakMap<Carried, Map<string, Reading>>();
/** Readings that are kept a case: the case itself and what was set last. */
const KEPT = 8;

/** Reads the case a page carries with values in place of its own; the same again costs nothing. */
export function readCarried(carried: Carried, settings: readonly Setting[]): Reading {
  const kept = readings.get(carried) ?? new Map<string, Reading>();
  readings.set(carried, kept);
  const key = JSON.stringify(settings);
  const before = kept.get(key);
  if (before !== undefined) return before;
  const read = parseCase({
    file: carried.file,
    text: carried.files[carried.file] ?? '',
    load: (path) => carried.files[path],
    set: settings,
  });
  const oldest = [...kept.keys()].find((one) => one !== '[]');
  if (kept.size >= KEPT && oldest !== undefined) kept.delete(oldest);
  kept.set(key, read);
  return read;
}

/** The tubs where and as the page has them. */
export const movedTubs = (source: Case, state: Pick<BenchState, 'centre' | 'notches'>): Case['tubs'] =>
  source.tubs.map((tub) => ({
    ...tub,
    centreForward: state.centre ?? tub.centreForward,
    notches: (state.notches[tub.name] ?? tub.notches).map((notch: Notch) => ({ ...notch })),
  }));

const opened = new WeakMap<Carried, number>();
let openings = 0;

/** Number of a case among all that the page has opened: another may have the same name. */
function numberOf(carried: Carried): number {
  const known = opened.get(carried);
  if (known !== undefined) return known;
  openings++;
  opened.set(carried, openings);
  return openings;
}

/**
 * The page's case in a state. Where the tub stands and how it is notched is put into the case as read, so that dragging
 * the tub reads nothing again.
 */
export function caseIn(
  carried: Carried,
  state: Pick<BenchState, 'tub' | 'tyre' | 'centre' | 'notches' | 'values'>,
): BenchCase {
  const read = readCarried(carried, settingsOf(state.values));
  if (!read.ok) return { ok: false, issues: read.issues };
  const tyre = Math.max(
    0,
    read.value.tyres.findIndex(({ name }) => name === state.tyre),
  );
  const whole: Case = { ...read.value, tubs: movedTubs(read.value, state) };
  const source = inClassOf(whole, tyre);
  const tub = Math.max(
    0,
    source.tubs.findIndex(({ name }) => name === state.tub),
  );
  const inputs = JSON.stringify([numberOf(carried), state.values, source.tyres[tyre]!.name]);
  try {
    return { ok: true, whole, source, setup: caseSetup(source), tub, tyre, inputs };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return {
      ok: false,
      issues: [
        { severity: 'error', code: 'contradiction', file: carried.file, path: '', message: error.message },
      ],
    };
  }
}

/** The same case, its gap to be kept and its accepted risk said as they are in the class of one tyre: the one in hand. */
function inClassOf(source: Case, tyre: number): Case {
  const { reserve, runRisk } = source.tyres[tyre]!.own ?? {};
  if (reserve === undefined && runRisk === undefined) return source;
  return {
    ...source,
    build: { ...source.build, ...(reserve !== undefined && { reserve }) },
    accept: { ...source.accept, ...(runRisk !== undefined && { runRisk }) },
    tyres: source.tyres.map((one) => {
      const its = numbersIn(source, one);
      return {
        ...one,
        own: {
          ...one.own,
          ...(reserve !== undefined && { reserve: its.reserve }),
          ...(runRisk !== undefined && { runRisk: its.runRisk }),
        },
      };
    }),
  };
}

/** Where to begin: as the page was told, as the case says it was saved, as its first height says, or with an inch more than middle values ask for. */
export function firstState(carried: Carried, source: Case, setup: CaseSetup): BenchState {
  const saved = remarkIn(carried.files[carried.file] ?? '');
  const start = { ...saved, ...carried.start };
  const fits = source.tubs.filter((tub) => sideFaults(source, tub).length === 0);
  const smallest = [...(fits.length > 0 ? fits : source.tubs)].sort((a, b) => a.diameter - b.diameter)[0]!;
  const tub = source.tubs.find(({ name }) => name === start.tub) ?? smallest;
  const tyre =
    source.tyres.find(({ name }) => name === (start.tyre ?? source.build.tyre)) ?? source.tyres[0]!;
  const t = source.tubs.indexOf(tub);
  const needed = setup.tyres.flatMap((_, i) =>
    MOMENTS.map((moment) => caseState(setup, { tyre: i, tub: t, topHeight: 1, moment }))
      .filter((state) => state.happens)
      .map((state) => state.requiredHeight)
      .filter(Number.isFinite),
  );
  const middle = Math.max(setup.lowestHeights[t]!, ...needed) + INCH;
  return {
    tub: tub.name,
    tyre: tyre.name,
    topHeight: start.topHeight ?? source.heights?.[0] ?? onTape(middle, 'up'),
    notches: {},
    values: {},
    units: start.units ?? 'inch',
    measures: saved?.measures ?? NO_MEASURES,
  };
}

const exactInches = (metres: number): string => `${Number((metres / INCH).toPrecision(12))} in`;
const exactDegrees = (radians: number): string => `${Number(toDegrees(radians).toPrecision(12))} deg`;

/** All that the page has set as settings of a command line, the height among them. */
export function allSettings(carried: Carried, state: BenchState): Setting[] {
  const settings = settingsOf(state.values);
  const read = readCarried(carried, []);
  const notched = Object.keys(state.notches).length > 0;
  const changed = notched || state.centre !== undefined;
  if (changed && read.ok) {
    const tubs = movedTubs(read.value, state);
    settings.push(
      notched || hasOwnPlaces(carried)
        ? { path: 'tubs', value: `[${tubs.map(tubWords).join(', ')}]` }
        : { path: 'tubCentreForward', value: exactInches(state.centre!) },
    );
  }
  return [...settings, { path: 'heights', value: `[${exactInches(state.topHeight)}]` }];
}

/** Whether tubs of the case have places or notches of their own: those stand before the place given for all. */
function hasOwnPlaces({ file, files }: Carried): boolean {
  const read = readCaseText(file, files[file] ?? '');
  const tubs = read.ok ? (read.value.raw as { tubs?: unknown } | null)?.tubs : undefined;
  return Array.isArray(tubs) && tubs.some((tub) => typeof tub !== 'string');
}

const tubWords = ({ name, centreForward, notches }: Case['tubs'][number]): string => {
  const cut = notches.map(
    ({ angle, depth }) => `{ angle: ${exactDegrees(angle)}, depth: ${exactInches(depth)} }`,
  );
  return `{ tub: ${JSON.stringify(name)}, centreForward: ${exactInches(centreForward)}${cut.length > 0 ? `, notches: [${cut.join(', ')}]` : ''} }`;
};
