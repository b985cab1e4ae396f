import { type Case, issueText, parseCase } from '@tubgap/casefile';
import { commentedText, type InterviewedCase } from '@tubgap/interview';
import { formatQuantity } from '@tubgap/units';
import { TUBS_FILE } from '../shop/shop-tubs.ts';

/** Name of the file that a case from a call is saved as. */
export const CALL_FILE = 'from-a-call.yaml';

/** Runs that such a case allows: one round; cars that bear the usual risk of a season without weights. */
const DRAWS = 65_536;
const CARS = 512;

/** How much is simulated: no more cars than the runs are for, each a season on the tyre that runs most. */
function simulationOf({ document }: InterviewedCase): { draws: number; cars: number; seed: number } {
  const tyres = document.tyres as readonly { runsPerSeason: number }[];
  const longest = Math.max(1, ...tyres.map(({ runsPerSeason }) => runsPerSeason));
  return { draws: DRAWS, cars: Math.max(1, Math.min(CARS, Math.floor(DRAWS / longest))), seed: 1 };
}

/** Texts of a case from a call by file name. */
export type CallFiles = Readonly<Record<string, string>>;

/** The tub that is in the car as a case file has it. */
type WrittenExisting = Readonly<Record<string, string>>;

/**
 * The tub that is in the car, as told: inside it is as a tape shows it, whatever lies on the skin; its width is that of the
 * tub of the list that is nearest in size, for nobody is asked for it.
 */
export function writtenExisting(
  { diameter, topHeight, centreForward }: NonNullable<InterviewedCase['existing']>,
  tubs: Case['tubs'],
): WrittenExisting {
  const away = (tub: Case['tubs'][number]): number => Math.abs(tub.diameter - diameter.value);
  const nearest = tubs.reduce((best, tub) => (away(tub) < away(best) ? tub : best));
  return {
    insideDiameter: diameter.text,
    insideWidth: formatQuantity(nearest.insideWidth, 'length'),
    liner: '0 in',
    topHeight: topHeight.text,
    ...(centreForward && { centreForward: centreForward.text }),
  };
}

/**
 * The case of a call as files.
 * @param tubs  the shop's catalogue
 * @param names  of the tubs to judge; left out: all
 * @param existing  the tub that is in the car, by `writtenExisting`
 */
export function callFiles(
  interviewed: InterviewedCase,
  tubs: string,
  names?: readonly string[],
  existing?: WrittenExisting,
): CallFiles {
  const { build } = interviewed.document;
  const document = {
    ...interviewed.document,
    ...(existing && { build: { ...(build as object), existing } }),
    ...(names && { tubs: names }),
    simulation: simulationOf(interviewed),
  };
  return {
    [CALL_FILE]: commentedText({ ...interviewed, document }),
    [TUBS_FILE]: tubs,
    'tyres.csv': interviewed.tyres,
  };
}

/** What the case reader says against a call, with the row of the tubs' list where it is of that. */
export interface CallFault {
  /** From 0; undefined for a fault of anything else. */
  tub: number | undefined;
  words: string;
}

/** The case of some files as the command line reads it. */
export function readFiles(files: CallFiles): { source: Case } | { faults: CallFault[] } {
  const read = parseCase({ file: CALL_FILE, text: files[CALL_FILE]!, load: (path) => files[path] });
  if (read.ok) return { source: read.value };
  const errors = read.issues.filter(({ severity }) => severity === 'error');
  return {
    faults: errors.map((issue): CallFault => {
      if (issue.file !== TUBS_FILE || issue.line === undefined)
        return { tub: undefined, words: issueText(issue) };
      // A remark may stand before the head.
      const lines = files[TUBS_FILE]!.split('\n').slice(0, issue.line - 1);
      const row = lines.filter((line) => line.trim() !== '' && !line.startsWith('#')).length - 1;
      return { tub: row < 0 ? undefined : row, words: `${issue.path}: ${issue.message}` };
    }),
  };
}
