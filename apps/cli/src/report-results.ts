import { BAD_INPUT, DONE, endingOf, printRemarks } from '@tubgap/casefile/command-line';
import type { PickHandler, Written, WrittenHandler } from '@tubgap/montecarlo';

/** Files by their names, or what makes them. */
type Files = Parameters<Written['add']>[0];
type Making = () => Files | Promise<Files>;

/**
 * Makes files of results that were told and adds them, one making after the other. Whatever fails at that, or stops it,
 * takes away nothing that is finished: that is said.
 * @returns exit code; what a making does not take of an input that was good enough for the results is told and no more
 */
export async function addInTurn({ place, add }: Written, makings: readonly Making[]): Promise<number> {
  const { onStop, stopCode } = await import('@tubgap/results');
  const stands = `What was found stands, and is kept in ${place}. To make its papers again: tubgap report ${place}`;
  const release = onStop((signal) => {
    printRemarks([`Stopped. ${stands}`]);
    process.exit(stopCode(signal));
  });
  const faults = [];
  for (const make of makings) {
    try {
      printRemarks(add(await make()));
    } catch (error) {
      faults.push(endingOf(error, place));
    }
  }
  release();
  if (faults.length > 0) printRemarks([...faults.map(({ message }) => message), stands]);
  return faults.find(({ exitCode }) => exitCode !== BAD_INPUT)?.exitCode ?? DONE;
}

type MakingsOf = (place: string) => readonly Making[];

/** Prints what was found, as far as it was not told, makes its files, and says where they lie. */
async function tell(written: Written, isJson: boolean, isDecided: boolean, more: MakingsOf): Promise<number> {
  const { printResults } = await import('@tubgap/reporter/results');
  const { place } = written;
  const papers = printResults(place, isJson, { isDecided });
  const code = await addInTurn(written, [papers, ...more(place)]);
  if (!isJson && code === DONE) process.stdout.write(`  Written to ${place}\n`);
  return code;
}

/** Of a sweep, a comparison or places. */
export const reportStudy: WrittenHandler = (written, { json }) =>
  tell(written, json === true, false, () => []);

/**
 * Of a pick, in the order in which a shop wants it: the decision as soon as it is settled, what else was found, papers, and
 * the page to carry to the car, which begins there. JSON is one document at the end.
 */
export const reportPick: PickHandler = ({ json }) => {
  const isJson = json === true;
  return {
    decided: async (decision) => {
      if (isJson) return false;
      const { printDecision } = await import('@tubgap/reporter/results');
      printDecision(decision);
      return true;
    },
    written: (written) =>
      tell(written, isJson, !isJson, (place) => [
        async () => (await import('@tubgap/bench/page')).resultsPage(place),
      ]),
  };
};
