import { fileURLToPath } from 'node:url';
import { contestant } from '../peers/contestant.ts';
import { bestAndMedian, ratioOf, rounds } from './rounds.ts';
import type { Row } from './table.ts';

const program = fileURLToPath(new URL('./pick.mjs', import.meta.url));
const ROUNDS = 3;

/** What the pick of the demo takes on one core: until the decision stands, and with all that its folder holds. */
export async function pickRows(): Promise<Row[]> {
  const [answers] = await rounds([contestant('pick', [process.execPath, program])], () => 'pick', ROUNDS, 1);
  const decision = answers!.map(([decided]) => decided!);
  const whole = answers!.map(([, all]) => all!);
  const note = 'one core';
  return [
    {
      what: 'pick of the demo: decision',
      unit: 's',
      ...bestAndMedian(decision),
      ratio: ratioOf(whole, decision),
      against: 'the whole folder',
      note,
    },
    {
      what: 'pick of the demo: whole folder',
      unit: 's',
      ...bestAndMedian(whole),
      ratio: undefined,
      against: '',
      note,
    },
  ];
}
