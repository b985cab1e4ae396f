import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Case } from '@tubgap/casefile';
import { textOf } from '@tubgap/casefile/node';
import { BUILT_FILE, LARGEST_TABLE, placeText, readAsBuilt } from '@tubgap/evidence';
import { existingPlace, withCentre } from '@tubgap/simulation';

/** What a command line says of the tub that stands. Lengths m. */
export interface TubWords {
  tub?: string | undefined;
  height?: number | undefined;
  centre?: number | undefined;
  /** Folder with the as-built table. */
  measured?: string | undefined;
}

/** The tub that stands, and the case with its centre where it stands. */
export interface StandingTub {
  source: Case;
  /** Index among the case's tubs; undefined: the tub of the pick. */
  tub: number | undefined;
  /** m; undefined: as that tub is set out. */
  topHeight: number | undefined;
}

type Found = { ok: true; standing: StandingTub } | { ok: false; lines: string[] };

const refused = (...lines: string[]): Found => ({ ok: false, lines });

/** What to say where the tub that is meant cannot be told. */
export const SAY_WHICH =
  'Say which tub stands how high: --tub NAME --height "39 1/4 in", build.existing in the case, or --measured FOLDER with as-built.csv in it.';

/** The tub of the as-built table of a folder. */
function builtIn(folder: string, source: Case): TubWords | string[] {
  const file = join(folder, BUILT_FILE);
  let bytes: Buffer;
  try {
    bytes = readFileSync(file);
  } catch (error) {
    return [`${file}: cannot be read (${(error as NodeJS.ErrnoException).code}). ${SAY_WHICH}`];
  }
  if (bytes.length > LARGEST_TABLE) return [`${file}: too large for a table that is typed by hand.`];
  const { built, rejected } = readAsBuilt(
    textOf(bytes),
    source.tubs.map(({ name }) => name),
  );
  const left = rejected.map((one) => `${placeText(one)}  ${one.reason}`);
  // A row that cannot be used may be the one that counts: the last.
  if (built === undefined || left.length > 0)
    return [...left, `${file}: every row must be whole; the last says which tub stands how high.`];
  return { tub: built.tub, height: built.topHeight, centre: built.centreForward };
}

/**
 * The tub that is asked about: by the command line, and where that leaves something out by the as-built table, or without
 * one by the tub that the case has in the car. Where all leave out the height, as it is set out; where they leave out
 * everything, the tub of the pick.
 */
export function standingTub(source: Case, words: TubWords): Found {
  const built = words.measured === undefined ? {} : builtIn(words.measured, source);
  if (Array.isArray(built)) return refused(...built);
  // The tub that is in the car by the case itself; a place that is said counts in its stead.
  const inCar = words.tub === undefined && words.measured === undefined ? existingPlace(source) : undefined;
  if (inCar !== undefined) {
    const { centre, height = inCar.topHeight } = words;
    const there = centre === undefined ? inCar.source : withCentre(inCar.source, inCar.tub, centre);
    return { ok: true, standing: { source: there, tub: inCar.tub, topHeight: height } };
  }
  const only = source.tubs.length === 1 ? source.tubs[0]!.name : undefined;
  const name = words.tub ?? built.tub ?? only;
  if (name === undefined) {
    // A length without a tub may be any tub's.
    if (words.height !== undefined || words.centre !== undefined) return refused(SAY_WHICH);
    return { ok: true, standing: { source, tub: undefined, topHeight: undefined } };
  }
  const tub = source.tubs.findIndex((one) => one.name === name);
  if (tub < 0) {
    const names = source.tubs.map((one) => one.name).join(', ');
    return refused(`--tub ${name}: the case has no such tub; it has ${names}.`);
  }
  // The table speaks of its own tub: its height and centre are not another's.
  const ofTable = built.tub === name ? built : {};
  const topHeight = words.height ?? ofTable.height;
  const centre = words.centre ?? ofTable.centre;
  return {
    ok: true,
    standing: { source: centre === undefined ? source : withCentre(source, tub, centre), tub, topHeight },
  };
}
