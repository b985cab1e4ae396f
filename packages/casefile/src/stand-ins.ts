import type { CaseTyre } from './case.ts';
import { readTyres } from './catalogue/catalogue.ts';
import { type CaseSource, parseCase } from './parse-case.ts';
import { readCaseText } from './text/case-text.ts';
import { applySettings } from './text/setting.ts';
import { entryName } from './text/value-path.ts';

/** What of a tyre's entry is the car's and stays whatever tyre is put there; the rest was measured of that tyre. */
const OF_THE_CAR = ['runsPerSeason', 'coldPressure', 'rideHeightChange', 'rim', 'class'];

interface Raw {
  catalogues: { tyres: string };
  build: Record<string, unknown>;
  tyres: Record<string, unknown>[];
}

/**
 * An entry of a case's tyres with another tyre in it: what is the car's stays, what was measured of the tyre goes.
 * @param raw  the case's plain values
 * @returns entry  undefined where that tyre, or none that is named, stands there
 * @returns build  whether the build tyre is the one that goes
 */
export function swappedEntry(
  raw: Readonly<Record<string, unknown>>,
  index: number,
  name: string,
): { entry: Record<string, unknown> | undefined; build: boolean } {
  const { build, tyres } = raw as Partial<Raw>;
  const own = Array.isArray(tyres) ? tyres[index] : undefined;
  if (own?.tyre === undefined || own.tyre === name) return { entry: undefined, build: false };
  // In its second class a tyre's wheel is told in the first.
  const { rim } = tyres!.find(({ tyre }) => tyre === own.tyre)!;
  const all = rim === undefined ? own : { ...own, rim };
  const kept = Object.entries(all).filter(([field]) => OF_THE_CAR.includes(field));
  return { entry: { ...Object.fromEntries(kept), tyre: name }, build: build?.tyre === own.tyre };
}

/** The case's text with another tyre in an entry; the build stays as it was measured, with the tyre that then stood on it. */
function withTyre(raw: Raw, index: number, name: string): string {
  const { build, tyres, ...rest } = raw;
  const { existing: _, ...built } = build;
  const { learned: __, runLog: ___, heights: ____, ...others } = rest as Record<string, unknown>;
  const swapped = swappedEntry({ build, tyres }, index, name);
  const own = swapped.build ? { ...built, tyre: name } : built;
  const entries = tyres.map((entry, i) => (i === index ? (swapped.entry ?? entry) : entry));
  // As JSON, which is YAML as well.
  return JSON.stringify({ ...others, build: own, tyres: entries, tubs: 'all' });
}

/**
 * The other tyres of a case's catalogue that are built as one of its tyres is, each as the case would have it in that one's
 * place: same class, wheel and pressure, all else by its row. What cannot be read is left out, and so is what the case runs
 * already.
 * @param source  of a case that was read without fault
 * @param own  name of the tyre in its class
 */
export function standIns(source: CaseSource, own: string): CaseTyre[] {
  const { set = [], load } = source;
  const text = readCaseText(source.file, source.text);
  if (!text.ok) return [];
  const settings = applySettings(text.value, set);
  const raw = settings.text.raw as Raw;
  const { rows } = readTyres(raw.catalogues.tyres, load(raw.catalogues.tyres) ?? '');
  const run = raw.tyres.map(({ tyre }) => tyre);
  const index = raw.tyres.findIndex((entry) => entryName(entry) === own);
  const construction =
    rows.find(({ name }) => name === run[index])?.construction ?? raw.tyres[index]?.construction;
  // Laws that a command line moves are moved with each tyre; what it sets stands in the text.
  const moves = set.filter(({ value }) => /^\s*~\s*\S/.test(value));
  return rows
    .filter((row) => row.construction === construction && !run.includes(row.name))
    .flatMap(({ name }): CaseTyre[] => {
      const read = parseCase({ ...source, text: withTyre(raw, index, name), set: moves });
      return read.ok ? [read.value.tyres[index]!] : [];
    });
}
