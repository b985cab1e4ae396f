import { fileURLToPath } from 'node:url';
import { contestant } from '../peers/contestant.ts';
import { bestAndMedian, rounds } from './rounds.ts';
import type { Row } from './table.ts';

const program = fileURLToPath(new URL('./tail.mjs', import.meta.url));
const ROUNDS = 7;

/** Place in the demo's list of the tub that it picks. */
const PICKED = 1;

/** Time in which the demo knows risks of one in a million a run to 10 %, search for centres and weighted draws together. */
export async function tailRows(): Promise<Row[]> {
  const asked = [
    { what: 'limiting tyre in the next larger tub', given: ['1', String(PICKED + 1)] },
    { what: 'every tyre in every tub', given: ['all', 'all'] },
  ];
  const answers = await rounds(
    asked.map(({ what, given }) => contestant(what, [process.execPath, program], ...given)),
    (round) => String(round + 2),
    ROUNDS,
    1,
  );
  return asked.map(({ what }, i): Row => {
    const own = answers[i]!;
    const seconds = own.map(([search, block, blocks]) => search! + block! * Math.ceil(blocks!));
    const judged = Math.min(...own.map((answer) => answer[3]!));
    const blocks = own.map((answer) => Math.ceil(answer[2]!));
    return {
      what: `1 in 1,000,000 runs to 10 %: ${what}`,
      unit: 's',
      ...bestAndMedian(seconds),
      ratio: undefined,
      against: '',
      note: `one core; ${judged} of tyre and tub, ${Math.min(...blocks)} to ${Math.max(...blocks)} blocks of 1024 draws`,
    };
  });
}
