import { BAD_INPUT, DONE, endingOf, printRemarks } from '@tubgap/casefile/command-line';
import type { Written, WrittenHandler } from '@tubgap/montecarlo';

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

/** Tells results in the order in which a shop wants them: what was found, as soon as it stands; then where its papers lie. */
const reporting =
  (page: boolean): WrittenHandler =>
  async (written, { json }) => {
    const { printResults } = await import('@tubgap/reporter/results');
    const { place } = written;
    const papers = printResults(place, json === true);
    const resultsPage: Making = async () => (await import('@tubgap/bench/page')).resultsPage(place);
    const code = await addInTurn(written, page ? [papers, resultsPage] : [papers]);
    if (json !== true && code === DONE) process.stdout.write(`  Written to ${place}\n`);
    return code;
  };

/** Of a pick: with the page to carry to the car, which begins there. */
export const reportPick = reporting(true);
/** Of a sweep, a comparison or places. */
export const reportStudy = reporting(false);
