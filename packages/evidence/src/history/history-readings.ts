import { type Case, tyreNamed } from '@tubgap/casefile';
import type { AsBuilt, GapReading, Readings, Rejected, RunsReading } from '../readings.ts';
import { USUAL_GAP_SD } from '../tables/check-tables.ts';
import { tyreUnknown } from '../tables/hand-table.ts';
import { runsOf } from '../tables/mark-tables.ts';
import { leftOut, quoted } from '../tables/table-text.ts';
import { type EntryKind, HISTORY_FILE, type History, type HistoryEntry } from './entries.ts';

/** A tyre that was put on: from this day on the readings of its name are those of another piece of rubber. */
export interface TyreChange {
  date: string;
  tyre: string;
  /** Compound batch or date code; empty where none is told. */
  batch: string;
}

/** What a history says of a car: readings, each with the tub as it stood then, and what was changed when. */
export interface HistoryReadings {
  runs: RunsReading[];
  gaps: GapReading[];
  tyreChanges: TyreChange[];
  /** The tub as it stands now; undefined where nothing says so. */
  built: AsBuilt | undefined;
  /** Day since when it has stood so; empty where no entry tells. */
  builtSince: string;
  /** Days on which the cause of a mark was looked into. */
  lookedInto: string[];
  rejected: Rejected[];
}

const DOUBTFUL =
  'an entry that tells how the tub stood is damaged: mend that one, or say in this row which tub it was and how high';
const SAME_DAY = 'the tub was moved on the same day: say in this row which tub it was then and how high';
const NOWHERE = 'no entry before this one says how the tub stood: add one, or say it in this row';

/** Where the tub stands after an entry that tells of it. @param before  undefined: nothing says so */
function movedTub({ words, numbers }: HistoryEntry, before: AsBuilt | undefined): AsBuilt | undefined {
  const tub = words.tub ?? before?.tub;
  const isSame = tub === before?.tub;
  const topHeight = numbers.top_height ?? (isSame ? before?.topHeight : undefined);
  if (tub === undefined || topHeight === undefined) return undefined;
  return {
    tub,
    topHeight,
    centreForward: numbers.centre_forward ?? (isSame ? before?.centreForward : undefined),
  };
}

/** Whether a row says itself where the tub stood. */
const saysPlace = ({ words, numbers }: HistoryEntry): boolean =>
  words.tub !== undefined && numbers.top_height !== undefined;

/**
 * What the entries of a history say of a case's car. What an entry stands on is what those before it have changed; where that
 * cannot be known it is left out, for runs in a tub that stood lower than was thought would be believed too much.
 * @param builtBefore  the tub as built before the first entry; undefined: nothing says so
 */
export function historyReadings(
  { entries, rejected, tubDoubts }: History,
  source: Case,
  builtBefore: AsBuilt | undefined,
): HistoryReadings {
  const left = leftOut(HISTORY_FILE);
  const found: Omit<HistoryReadings, 'rejected'> = {
    runs: [],
    gaps: [],
    tyreChanges: [],
    built: builtBefore,
    builtSince: '',
    lookedInto: [],
  };
  const { tyres } = source;
  const tubs = source.tubs.map(({ name }) => name);
  const moved = new Set(entries.filter(({ kind }) => kind === 'tub').map(({ date }) => date));
  /** Day of the last entry that told the whole of the tub's place. */
  let sureSince = '';
  /** The tub that a reading was made in, or why nobody knows. */
  const placeAt = (entry: HistoryEntry): AsBuilt | string => {
    if (saysPlace(entry)) return movedTub(entry, undefined)!;
    if (tubDoubts.some((day) => day === '' || (day <= entry.date && sureSince <= day))) return DOUBTFUL;
    if (moved.has(entry.date) && entry.kind === 'runs') return SAME_DAY;
    return movedTub(entry, found.built) ?? NOWHERE;
  };
  const take: Record<EntryKind, (entry: HistoryEntry) => string | undefined> = {
    tyre: ({ date, words }) => {
      const name = tyreNamed(tyres, words.tyre!);
      const { tyre } = tyres.find((own) => own.name === name)!;
      found.tyreChanges.push({ date, tyre, batch: words.batch ?? '' });
      return undefined;
    },
    tub: (entry) => {
      found.built = movedTub(entry, found.built);
      found.builtSince = entry.date;
      if (saysPlace(entry)) sureSince = entry.date;
      return found.built === undefined ? NOWHERE : undefined;
    },
    gap: (entry) => {
      const built = placeAt(entry);
      if (typeof built === 'string') return built;
      const { angle, measured } = entry.numbers;
      const { line, date } = entry;
      const of = { file: HISTORY_FILE, line, date, side: '', sd: USUAL_GAP_SD };
      found.gaps.push({ ...of, angle: angle!, gap: measured!, built });
      return undefined;
    },
    runs: (entry) => {
      const built = placeAt(entry);
      if (typeof built === 'string') return built;
      const read = runsOf({ ...entry, words: { ...entry.words, date: entry.date } }, HISTORY_FILE, built);
      if (typeof read === 'string') return read;
      found.runs.push({ ...read, tyre: tyreNamed(tyres, entry.words.tyre!)! });
      return undefined;
    },
    'looked into': ({ date }) => {
      found.lookedInto.push(date);
      return undefined;
    },
  };
  for (const entry of entries) {
    const { tyre, tub } = entry.words;
    const problem =
      tyre !== undefined && tyreNamed(tyres, tyre) === undefined
        ? tyreUnknown(tyre, tyres)
        : tub !== undefined && !tubs.includes(tub)
          ? `the case has no tub ${quoted(tub)}; it has ${tubs.join(', ')}`
          : take[entry.kind](entry);
    if (problem === undefined) continue;
    left.add(entry.line, problem);
    // Where the tub went cannot be told: nobody knows where it stood from then on.
    if (entry.kind === 'tub') found.built = undefined;
  }
  return { ...found, rejected: [...rejected, ...left.all()].sort((a, b) => a.line - b.line) };
}

/** Readings between two changes of tyres: all of one piece of rubber a tyre. */
export interface Stretch {
  /** First day of it, and the first that is no longer in it; empty: open. */
  from: string;
  to: string;
  readings: Readings;
  /** Batch of each tyre by its own name, whatever its class, where one is told. */
  batches: Readonly<Record<string, string>>;
}

const DAY = /^\d{4}-\d{2}-\d{2}/;

/**
 * A car's readings parted where a tyre was changed. One without a day is taken to be of the tyres that are on the car now.
 * A stretch without readings is left out.
 */
export function stretchesOf(readings: Readings, changes: readonly TyreChange[]): Stretch[] {
  const days = [...new Set(changes.map(({ date }) => date))].sort();
  return ['', ...days].flatMap((from, i): Stretch[] => {
    const to = days[i] ?? '';
    const isIn = ({ date }: { date: string }): boolean => {
      const day = DAY.exec(date)?.[0];
      if (day === undefined) return to === '';
      return day >= from && (to === '' || day < to);
    };
    const own: Readings = {
      rollouts: readings.rollouts.filter(isIn),
      masses: readings.masses.filter(isIn),
      loaded: readings.loaded.filter(isIn),
      tellTales: readings.tellTales.filter(isIn),
      gaps: readings.gaps.filter(isIn),
      marks: readings.marks.filter(isIn),
      runs: readings.runs.filter(isIn),
      logs: readings.logs.filter(isIn),
      checks: readings.checks.filter(isIn),
    };
    if (Object.values(own).every((list) => list.length === 0)) return [];
    const batches: Record<string, string> = {};
    for (const { date, tyre, batch } of changes) if (date <= from) batches[tyre] = batch;
    return [{ from, to, readings: own, batches }];
  });
}
